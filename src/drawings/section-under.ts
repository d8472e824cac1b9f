import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';
import type { Hatch } from './hatches.ts';
import { FOUNDATION_LOOK, type Frame, GROUND, JOIST, UNDER } from './section-measure.ts';

type Fill = (hatch: Hatch) => string;

const box = (x: number, y: number, width: number, height: number, cls: string, fill?: string): Mark =>
  h('rect', { x: px(x), y: px(y), width: px(width), height: px(height), class: cls, fill });

/** What carries a part: piers, a crawl space, a cellar or a slab, with the ground dug away for it. */
export function underPart(frame: Frame, fill: Fill): Mark {
  const { foundation } = frame.part;
  const { below } = UNDER[foundation];
  const hatch = fill(FOUNDATION_LOOK[foundation]);
  const { left, right } = frame;
  const top = frame.floor + JOIST;
  const foot = GROUND + below;
  switch (foundation) {
    case 'piers':
    case 'posts':
      return h('g', {}, ...pierMarks(frame, top, foot, hatch, foundation === 'posts'));
    case 'slab':
      return h(
        'g',
        {},
        box(left, top - JOIST, right - left, 11, 'cut', hatch),
        box(left, top - JOIST + 11, 12, below, 'cut', hatch),
        box(right - 12, top - JOIST + 11, 12, below, 'cut', hatch),
      );
    default: {
      const thick = foundation === 'basement-stone' || foundation === 'mixed' ? 20 : 14;
      const cellar = below > 40;
      return h(
        'g',
        {},
        box(left + thick - 2, top, right - left - 2 * thick + 4, foot - top, 'void'),
        box(left, top, thick, foot - top + 6, 'cut', hatch),
        box(right - thick, top, thick, foot - top + 6, 'cut', hatch),
        cellar
          ? box(left + thick, foot, right - left - 2 * thick, 5, 'cut', fill('concrete'))
          : h('path', {
              d: `M${px(left + thick)} ${px(foot)}Q${px((left + right) / 2)} ${px(foot - 9)} ${px(right - thick)} ${px(foot)}`,
              class: 'thin',
            }),
        midPost(frame, top, foot),
      );
    }
  }
}

function pierMarks(frame: Frame, top: number, foot: number, hatch: string, posts: boolean): Mark[] {
  const width = posts ? 9 : 16;
  const count = frame.main ? 4 : 3;
  const step = (frame.right - frame.left - width) / (count - 1);
  return Array.from({ length: count }, (_, i) => {
    const x = frame.left + i * step;
    return h(
      'g',
      {},
      box(x, top, width, foot - top, 'cut', hatch),
      box(x - 5, foot, width + 10, 5, 'cut', posts ? undefined : hatch),
    );
  });
}

function midPost(frame: Frame, top: number, foot: number): Mark {
  const x = frame.left + (frame.right - frame.left) * 0.42;
  return h('g', {}, box(x, top + 8, 6, foot - top - 8, 'cut'), box(x - 6, top, 18, 8, 'cut'));
}
