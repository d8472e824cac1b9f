import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';
import type { Hatch } from './hatches.ts';
import { type Frame, JOIST, STOREY, WALL_LOOK } from './section-measure.ts';

type Fill = (hatch: Hatch) => string;

/** Walls, floors and roof of one part, cut through. */
export function partMarks(frame: Frame, fill: Fill): Mark {
  const storeys = Math.round((frame.floor - frame.eaves + JOIST) / (STOREY + JOIST));
  return h(
    'g',
    {},
    h('rect', {
      x: px(frame.left),
      y: px(frame.eaves),
      width: px(frame.right - frame.left),
      height: px(frame.floor - frame.eaves),
      class: 'void',
    }),
    ...Array.from({ length: storeys }, (_, i) =>
      floorMarks(frame, frame.floor - i * (STOREY + JOIST), i === 0),
    ),
    floorMarks(frame, frame.eaves, false),
    ...[frame.left, frame.right - frame.wall].map((x) => wallMarks(frame, x, storeys, fill)),
    frame.part.roof === 'flat' ? flatRoof(frame, fill) : pitchedRoof(frame),
  );
}

/** A row of cut joists between two lines; a slab has none under its first floor. */
function floorMarks(frame: Frame, top: number, first: boolean): Mark {
  if (first && frame.part.foundation === 'slab') return h('g', {});
  const from = frame.left + (first ? 0 : frame.wall);
  const to = frame.right - (first ? 0 : frame.wall);
  const joists: Mark[] = [];
  for (let x = from + 6; x < to - 4; x += 15)
    joists.push(
      h('path', {
        d: `M${px(x)} ${px(top)}h4v${JOIST}h-4zM${px(x)} ${px(top)}l4 ${JOIST}m0 -${JOIST}l-4 ${JOIST}`,
        class: 'thin',
      }),
    );
  return h(
    'g',
    {},
    h('rect', { x: px(from), y: px(top), width: px(to - from), height: JOIST, class: 'void' }),
    ...joists,
    h('path', { d: `M${px(from)} ${px(top)}H${px(to)}`, class: 'profile' }),
    h('path', { d: `M${px(from)} ${px(top + JOIST)}H${px(to)}`, class: 'thin' }),
  );
}

/** A cut wall with a window opening in each storey. */
function wallMarks(frame: Frame, x: number, storeys: number, fill: Fill): Mark {
  const look = WALL_LOOK[frame.part.walls];
  const openings = Array.from({ length: storeys }, (_, i) => {
    const sill = frame.floor - i * (STOREY + JOIST) - 16;
    const middle = x + look.thick / 2;
    return h(
      'g',
      {},
      h('rect', { x: px(x - 0.5), y: px(sill - 28), width: px(look.thick + 1), height: 28, class: 'void' }),
      h('path', { d: `M${px(middle - 1)} ${px(sill)}v-15h2v-13`, class: 'thin' }),
      h('path', {
        d: `M${px(x - 2)} ${px(sill)}h${px(look.thick + 4)}M${px(x)} ${px(sill - 28)}h${px(look.thick)}`,
        class: 'profile',
      }),
    );
  });
  return h(
    'g',
    {},
    h('rect', {
      x: px(x),
      y: px(frame.eaves),
      width: px(look.thick),
      height: px(frame.floor - frame.eaves),
      class: 'cut',
      fill: fill(look.hatch),
    }),
    ...openings,
  );
}

export function ridge(frame: Frame): number {
  return frame.eaves - (frame.right - frame.left) * (frame.main ? 0.36 : 0.3);
}

function pitchedRoof(frame: Frame): Mark {
  const middle = (frame.left + frame.right) / 2;
  const top = ridge(frame);
  const over = 10;
  const slope = (frame.eaves - top) / ((frame.right - frame.left) / 2);
  const eaveY = frame.eaves + over * slope;
  const outer = `M${px(frame.left - over)} ${px(eaveY)}L${px(middle)} ${px(top)}L${px(frame.right + over)} ${px(eaveY)}`;
  const inner = `M${px(frame.left - over)} ${px(eaveY + 8)}L${px(middle)} ${px(top + 8)}L${px(frame.right + over)} ${px(eaveY + 8)}`;
  return h(
    'g',
    {},
    h('path', {
      d: `M${px(frame.left)} ${px(frame.eaves)}L${px(middle)} ${px(top)}L${px(frame.right)} ${px(frame.eaves)}Z`,
      class: 'void',
    }),
    h('path', { d: inner, class: 'thin' }),
    h('path', { d: outer, class: 'profile' }),
    h('path', {
      d: `M${px(frame.left - over)} ${px(eaveY)}v8M${px(frame.right + over)} ${px(eaveY)}v8`,
      class: 'profile',
    }),
  );
}

function flatRoof(frame: Frame, fill: Fill): Mark {
  const look = WALL_LOOK[frame.part.walls];
  const up = 16;
  return h(
    'g',
    {},
    ...[frame.left, frame.right - frame.wall].map((x) =>
      h('rect', {
        x: px(x),
        y: px(frame.eaves - up),
        width: look.thick,
        height: up,
        class: 'cut',
        fill: fill(look.hatch),
      }),
    ),
    h('path', {
      d: `M${px(frame.left + look.thick)} ${px(frame.eaves - 6)}L${px(frame.right - look.thick)} ${px(frame.eaves - 2)}`,
      class: 'profile',
    }),
    h('path', {
      d: `M${px(frame.left - 2)} ${px(frame.eaves - up)}h${look.thick + 4}M${px(frame.right - look.thick - 2)} ${px(frame.eaves - up)}h${look.thick + 4}`,
      class: 'profile',
    }),
  );
}
