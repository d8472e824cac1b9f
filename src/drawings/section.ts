import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';
import { type Hatch, hatchDef, hatchFill } from './hatches.ts';
import { type Frame, frames, GROUND, type SectionPart, SHEET, UNDER } from './section-measure.ts';
import { partMarks, ridge } from './section-part.ts';
import { underPart } from './section-under.ts';

/** A numbered mark on the drawing, and where it points. */
export interface Callout {
  number: number;
  spot: Spot;
}

/** Places in the section that a mark can point at. */
export type Spot =
  | 'roof'
  | 'chimney'
  | 'attic'
  | 'wall'
  | 'window'
  | 'stack'
  | 'floor'
  | 'plant'
  | 'under'
  | 'ground'
  | 'service'
  | 'addition';

const HATCHES: readonly Hatch[] = ['earth', 'stone', 'brick', 'concrete', 'timber', 'dots'];

/** The house cut through, from its inputs: parts, foundations, walls, roofs and storeys. */
export function houseSection(parts: SectionPart[], callouts: Callout[], id: string, label: string): Mark {
  const fill = (hatch: Hatch): string => hatchFill(hatch, id);
  const placed = frames(parts);
  const main = placed[0];
  const top = Math.min(GROUND - 60, ...placed.map(topOf)) - 30;
  return h(
    'svg',
    {
      class: 'figure section',
      viewBox: `0 ${px(top)} ${SHEET.width} ${px(SHEET.height - top)}`,
      role: 'img',
      'aria-label': label,
    },
    h('defs', {}, ...HATCHES.map((hatch) => hatchDef(hatch, id))),
    h('rect', {
      x: 0,
      y: GROUND,
      width: SHEET.width,
      height: SHEET.height - GROUND,
      fill: fill('earth'),
      class: 'earth',
    }),
    h('path', { d: groundLine(placed), class: 'profile' }),
    ...placed.map((frame) => underPart(frame, fill)),
    ...placed.map((frame) => partMarks(frame, fill)),
    main !== undefined && chimney(main, fill),
    main !== undefined && plant(main),
    ...callouts.map((c) => calloutMark(c, placed)),
  );
}

const topOf = (frame: Frame): number => (frame.part.roof === 'flat' ? frame.eaves - 16 : ridge(frame));

function groundLine(placed: Frame[]): string {
  const left = Math.min(...placed.map((f) => f.left));
  const right = Math.max(...placed.map((f) => f.right));
  const open = placed.some((f) => f.part.foundation === 'piers' || f.part.foundation === 'posts');
  return open
    ? `M0 ${GROUND}H${SHEET.width}`
    : `M0 ${GROUND}H${px(left)}M${px(right)} ${GROUND}H${SHEET.width}`;
}

function chimney(main: Frame, fill: (hatch: Hatch) => string): Mark {
  const x = chimneyX(main);
  const top = topOf(main) - 16;
  const foot = GROUND + Math.min(56, UNDER[main.part.foundation].below);
  return h(
    'g',
    {},
    h('rect', { x: px(x), y: px(top), width: 22, height: px(foot - top), class: 'cut', fill: fill('brick') }),
    h('rect', { x: px(x + 7), y: px(top), width: 8, height: px(foot - top - 10), class: 'void thin' }),
    h('path', { d: `M${px(x - 3)} ${px(top)}h28`, class: 'profile' }),
  );
}

const chimneyX = (main: Frame): number => main.left + (main.right - main.left) * 0.64;

/** The heating plant and its flue, in the cellar or on the first floor, and the drain stack beside it. */
function plant(main: Frame): Mark {
  const cellar = UNDER[main.part.foundation].below > 40;
  const foot = cellar ? GROUND + UNDER[main.part.foundation].below : main.floor;
  const x = chimneyX(main) - 40;
  const stack = main.left + (main.right - main.left) * 0.26;
  const roof = main.part.roof === 'flat' ? main.eaves - 14 : ridge(main) + 22;
  const drain = GROUND + Math.max(20, UNDER[main.part.foundation].below - 10);
  return h(
    'g',
    {},
    h('rect', { x: px(x), y: px(foot - 30), width: 20, height: 30, class: 'cut' }),
    h('path', { d: `M${px(x + 10)} ${px(foot - 30)}v-6H${px(chimneyX(main))}`, class: 'profile' }),
    h('path', { d: `M${px(stack)} ${px(roof)}V${px(drain)}H4`, class: 'pipe' }),
  );
}

function calloutMark(callout: Callout, placed: Frame[]): Mark | null {
  const at = spotAt(callout.spot, placed);
  if (at === null) return null;
  return h(
    'g',
    { class: 'callout' },
    h('path', { d: `M${px(at.x)} ${px(at.y)}L${px(at.bx)} ${px(at.by)}`, class: 'leader' }),
    h('circle', { cx: px(at.x), cy: px(at.y), r: 2.4, class: 'leader-dot' }),
    h('circle', { cx: px(at.bx), cy: px(at.by), r: 13, class: 'bubble' }),
    h('text', { x: px(at.bx), y: px(at.by), dy: '0.36em', 'text-anchor': 'middle' }, String(callout.number)),
  );
}

/** Where a mark points (x, y) and where its bubble stands (bx, by). */
function spotAt(spot: Spot, placed: Frame[]): { x: number; y: number; bx: number; by: number } | null {
  const main = placed[0];
  if (main === undefined) return null;
  const { left, right, floor, eaves } = main;
  const width = right - left;
  const peak = main.part.roof === 'flat' ? eaves - 10 : ridge(main);
  const under = UNDER[main.part.foundation];
  const stack = left + width * 0.26;
  const addition = placed[1];
  switch (spot) {
    case 'roof': {
      const x = left + width * 0.2;
      if (main.part.roof === 'flat') return { x, y: eaves - 5, bx: x, by: eaves - 30 };
      return { x, y: eaves - (eaves - peak) * 0.4, bx: left - 10, by: peak + 10 };
    }
    case 'chimney':
      return { x: chimneyX(main) + 20, y: peak + 2, bx: right + 14, by: peak - 4 };
    case 'attic': {
      const x = left + width * 0.46;
      const flat = main.part.roof === 'flat';
      return { x, y: flat ? eaves + 4 : eaves - 16, bx: x, by: flat ? eaves - 26 : peak + 30 };
    }
    case 'wall':
      return { x: left + 3, y: eaves + 10, bx: left - 44, by: eaves - 8 };
    case 'window':
      return { x: left + 3, y: floor - 30, bx: left - 44, by: floor - 14 };
    case 'service':
      return { x: right - 3, y: eaves + 22, bx: right + 40, by: eaves + 4 };
    case 'stack':
      return { x: stack, y: floor - 22, bx: stack + 36, by: floor - 26 };
    case 'floor':
      return { x: left + width * 0.84, y: floor + 4, bx: left + width * 0.84, by: floor - 26 };
    case 'plant': {
      const x = chimneyX(main) - 30;
      const y = under.below > 40 ? GROUND + under.below - 20 : floor - 12;
      return { x, y, bx: x, by: SHEET.height - 20 };
    }
    case 'under':
      return { x: left + 8, y: GROUND + under.below / 2, bx: left - 36, by: GROUND + under.below / 2 + 14 };
    case 'ground':
      return { x: 40, y: GROUND + Math.max(20, under.below - 10), bx: 26, by: GROUND + 26 };
    case 'addition':
      if (addition === undefined) return null;
      return {
        x: (addition.left + addition.right) / 2,
        y: addition.floor + 4,
        bx: (addition.left + addition.right) / 2,
        by: addition.floor - 28,
      };
  }
}
