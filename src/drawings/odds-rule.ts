import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';

const WIDTH = 120;

/** A rule from never to always: a bar for the range, an upright for the best guess. Words stand beside it. */
export function oddsRule(low: number, best: number, high: number): Mark {
  const x = (p: number): number => 2 + p * (WIDTH - 4);
  return h(
    'svg',
    { class: 'odds-rule', viewBox: `0 0 ${WIDTH} 16`, width: WIDTH, height: 16, 'aria-hidden': 'true' },
    h('path', { d: `M2 12.5H${WIDTH - 2}`, class: 'rule-line' }),
    ...[0, 0.25, 0.5, 0.75, 1].map((p) =>
      h('path', { d: `M${px(x(p))} 12.5V${p === 0.5 ? 7 : 9.5}`, class: 'rule-line' }),
    ),
    h('rect', {
      x: px(x(low)),
      y: 10.5,
      width: px(Math.max(2, x(high) - x(low))),
      height: 4,
      class: 'rule-range',
    }),
    h('path', { d: `M${px(x(best))} 2V15.5`, class: 'rule-best' }),
  );
}
