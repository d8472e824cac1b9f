import type { Foundation, Roof, Wall } from '../../planner/house/house.ts';
import type { Hatch } from './hatches.ts';

/** One part of a house as the section draws it. */
export interface SectionPart {
  foundation: Foundation;
  walls: Wall;
  roof: Roof;
  storeys: number;
}

/** Where a part stands in the drawing. */
export interface Frame {
  part: SectionPart;
  main: boolean;
  left: number;
  right: number;
  /** Heights on the sheet, downwards: top of the first floor, underside of the roof. */
  floor: number;
  eaves: number;
  wall: number;
}

export const GROUND = 262;
export const SHEET = { width: 560, height: 372 };
export const STOREY = 56;
export const JOIST = 8;

/** Height of the first floor above the ground, and depth of what is under it. */
export const UNDER: Record<Foundation, { above: number; below: number }> = {
  piers: { above: 24, below: 14 },
  posts: { above: 24, below: 14 },
  crawl: { above: 18, below: 26 },
  'basement-stone': { above: 20, below: 60 },
  'basement-brick': { above: 20, below: 60 },
  'basement-block': { above: 18, below: 62 },
  'basement-concrete': { above: 18, below: 62 },
  slab: { above: 5, below: 12 },
  mixed: { above: 20, below: 40 },
};

export const WALL_LOOK: Record<Wall, { thick: number; hatch: Hatch }> = {
  frame: { thick: 7, hatch: 'timber' },
  plank: { thick: 4, hatch: 'timber' },
  veneer: { thick: 12, hatch: 'brick' },
  brick: { thick: 14, hatch: 'brick' },
  stone: { thick: 18, hatch: 'stone' },
  log: { thick: 11, hatch: 'timber' },
  adobe: { thick: 18, hatch: 'dots' },
  block: { thick: 12, hatch: 'concrete' },
};

export const FOUNDATION_LOOK: Record<Foundation, Hatch> = {
  piers: 'brick',
  posts: 'timber',
  crawl: 'concrete',
  'basement-stone': 'stone',
  'basement-brick': 'brick',
  'basement-block': 'concrete',
  'basement-concrete': 'concrete',
  slab: 'concrete',
  mixed: 'stone',
};

/** Sets the parts side by side, the main block in the middle and additions right, then left of it. */
export function frames(parts: SectionPart[]): Frame[] {
  const [main, ...additions] = parts.slice(0, 3);
  if (main === undefined) return [];
  const mainWidth = additions.length > 1 ? 190 : 220;
  const addWidth = 116;
  const total = mainWidth + additions.length * addWidth;
  const start = (SHEET.width - total) / 2 + (additions.length > 1 ? addWidth : 0);
  const placed = [frame(main, true, start, start + mainWidth)];
  for (const [i, part] of additions.entries()) {
    const left = i === 0 ? start + mainWidth : start - addWidth;
    placed.push(frame(part, false, left, left + addWidth));
  }
  return placed;
}

function frame(part: SectionPart, main: boolean, left: number, right: number): Frame {
  const floor = GROUND - UNDER[part.foundation].above;
  const storeys = Math.min(3, Math.max(1, part.storeys));
  const eaves = floor - storeys * STOREY - (storeys - 1) * JOIST;
  return { part, main, left, right, floor, eaves, wall: WALL_LOOK[part.walls].thick };
}
