import { h, type Mark } from '../markup/h.ts';
import type { ScoredSystem } from '../site/calibration.ts';
import { px } from './figure.ts';

/** Forecasts of one system on a common scale of log loss, from 0: further left is better. */
const WIDTH = 380;
const LEFT = 8;
const RIGHT = 372;
const LINE = 26;
const FOOT = 30;

export function lossChart(scored: ScoredSystem, most: number, ours: readonly string[]): Mark {
  const x = (loss: number): number => LEFT + ((RIGHT - LEFT) * loss) / most;
  const height = scored.scores.length * LINE + FOOT;
  const y = (i: number): number => (i + 1) * LINE - 6;
  const steps = Array.from({ length: Math.floor(most) + 1 }, (_, i) => i);
  return h(
    'svg',
    {
      class: 'figure loss-chart',
      viewBox: `0 0 ${WIDTH} ${height}`,
      role: 'img',
      'aria-label': `${scored.system}, built ${scored.built}: log loss of ${scored.scores.length} forecasts`,
    },
    steps.map((step) => h('path', { d: `M${px(x(step))} 2V${height - FOOT + 4}`, class: 'scale-line' })),
    scored.scores.map(({ forecast, logLoss }, i) => {
      const after = x(logLoss) < WIDTH / 2;
      return h(
        'g',
        {},
        h('path', {
          d: `M${LEFT} ${y(i)}H${px(x(logLoss))}`,
          class: ours.includes(forecast) ? 'loss-line ours' : 'loss-line',
        }),
        h(
          'text',
          after
            ? { x: px(x(logLoss) + 8), y: y(i) + 4 }
            : { x: px(x(logLoss)), y: y(i) - 6, 'text-anchor': 'end' },
          `${forecast} ${logLoss.toFixed(3)}`,
        ),
      );
    }),
    h('path', { d: `M${LEFT} ${height - FOOT + 4}H${RIGHT}`, class: 'base-line' }),
    steps.map((step) =>
      h(
        'text',
        { x: px(x(step)), y: height - 10, 'text-anchor': step === 0 ? 'start' : 'middle' },
        String(step),
      ),
    ),
  );
}
