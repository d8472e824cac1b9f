import { h, type Mark } from '../markup/h.ts';

/** Hatches after drafting practice. `nature` hatches say what a thing is made of, in drawings of houses;
 * `series` hatches only tell areas of a chart apart, in a fixed order. */
export type Hatch = keyof typeof TILES;

const line = (d: string, width = 1): Mark => h('path', { d, class: 'hatch-line', 'stroke-width': width });
const dot = (cx: number, cy: number, r: number): Mark => h('circle', { cx, cy, r, class: 'hatch-dot' });

const TILES = {
  blank: { size: 8, marks: [] },
  brick: { size: 6, marks: [line('M-1.5 1.5 1.5 -1.5M0 6 6 0M4.5 7.5 7.5 4.5')] },
  stone: {
    size: 22,
    marks: [
      line(
        'M0 6 5 8 8 15 3 20 0 19M5 8 12 3 19 5 22 3M8 15 15 17 19 11 19 5M15 17 14 22M12 3 11 0M19 11 22 12',
      ),
    ],
  },
  concrete: {
    size: 20,
    marks: [
      line('M3 4 6.5 4 4.8 7ZM13 12 16.5 13 14 15.5Z', 0.9),
      ...[
        [11, 3],
        [17, 6],
        [8, 11],
        [2, 15],
        [9, 17],
        [18, 18],
        [14, 7.5],
      ].map(([x, y]) => dot(x ?? 0, y ?? 0, 0.8)),
    ],
  },
  timber: { size: 12, marks: [line('M0 2Q6 4 12 2M0 6Q6 4.5 12 6M0 10Q6 11.5 12 10', 0.9)] },
  earth: {
    size: 20,
    marks: [line('M1 9 9 1M4 9 9 4M7 9 9 7M11 11 19 19M11 14 16 19M11 17 13 19', 0.9)],
  },
  metal: { size: 10, marks: [line('M-2 2 2 -2M0 10 10 0M2.5 10 10 2.5M8 12 12 8', 0.9)] },
  across: { size: 5, marks: [line('M0 2.5H5')] },
  upright: { size: 5, marks: [line('M2.5 0V5')] },
  back: { size: 8, marks: [line('M-2 6 2 10M0 0 8 8M6 -2 10 2')] },
  grid: { size: 8, marks: [line('M0 4H8M4 0V8', 0.8)] },
  dots: { size: 7, marks: [dot(1.8, 1.8, 1), dot(5.3, 5.3, 1)] },
  wave: { size: 12, marks: [line('M0 4Q3 0 6 4T12 4M0 10Q3 6 6 10T12 10', 0.9)] },
  dense: { size: 4, marks: [line('M-1 1 1 -1M0 4 4 0M3 5 5 3', 1.3)] },
} as const satisfies Record<string, { size: number; marks: readonly Mark[] }>;

export function isHatch(name: string): name is Hatch {
  return Object.hasOwn(TILES, name);
}

/** Order in which a chart's areas take their hatches. */
export const SERIES: readonly Hatch[] = [
  'brick',
  'dots',
  'upright',
  'wave',
  'back',
  'grid',
  'dense',
  'across',
  'metal',
  'timber',
  'concrete',
  'stone',
];

/** A hatch's name within one drawing. It ends in the hatch: on paper the style sheet gives each a tint by that ending. */
export const hatchId = (hatch: Hatch, owner: string): string => `${owner}-${hatch}`;

/** What fills a shape of the drawing with a hatch. */
export const hatchFill = (hatch: Hatch, owner: string): string => `url(#${hatchId(hatch, owner)})`;

export function hatchDef(hatch: Hatch, owner: string): Mark {
  const { size, marks } = TILES[hatch];
  return h(
    'pattern',
    { id: hatchId(hatch, owner), width: size, height: size, patternUnits: 'userSpaceOnUse' },
    h('rect', { width: size, height: size, class: 'hatch-ground' }),
    ...marks,
  );
}

/** A sample of a hatch, to stand beside its name. */
export function swatch(hatch: Hatch, owner: string): Mark {
  return h(
    'svg',
    { class: 'swatch', viewBox: '0 0 28 18', width: 28, height: 18, 'aria-hidden': 'true' },
    h('defs', {}, hatchDef(hatch, owner)),
    h('rect', { x: 0.5, y: 0.5, width: 27, height: 17, fill: hatchFill(hatch, owner), class: 'outline' }),
  );
}
