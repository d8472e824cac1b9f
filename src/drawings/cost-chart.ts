import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';

/** What cures have cost, from low to high, on a scale on which ten times is always as wide; the line is as heavy as
 * the odds of meeting the thing. */
const WIDTH = 380;
const LEFT = 6;
const RIGHT = 370;
const ROW = 38;
const HEAD = 6;
const FOOT = 30;
const FIRST = 30;
const LAST = 100_000;

export interface CostRow {
  words: string;
  /** Dollars. */
  low: number;
  high: number;
  /** Weight of the line, 0 to 6, by the band of odds. */
  weight: number;
}

export function costChart(rows: readonly CostRow[], label: string): Mark {
  const foot = HEAD + rows.length * ROW;
  const steps = [100, 1000, 10_000, 100_000];
  return h(
    'svg',
    { class: 'figure cost-chart', viewBox: `0 0 ${WIDTH} ${foot + FOOT}`, role: 'img', 'aria-label': label },
    steps.map((dollars) => h('path', { d: `M${px(x(dollars))} ${HEAD}V${foot}`, class: 'scale-line' })),
    rows.map((row, i) => {
      const y = HEAD + i * ROW + 27;
      const from = x(row.low);
      return h(
        'g',
        {},
        h('text', { x: LEFT, y: y - 11, class: 'row-words' }, row.words),
        h('path', {
          d: `M${px(from)} ${y}H${px(Math.max(from + 3, x(row.high)))}`,
          class: `cost-line cost-${Math.min(4, Math.max(1, row.weight))}`,
        }),
      );
    }),
    h('path', { d: `M${LEFT} ${foot}H${RIGHT}`, class: 'base-line' }),
    steps.map((dollars) =>
      h(
        'text',
        { x: px(x(dollars)), y: foot + 18, 'text-anchor': dollars === LAST ? 'end' : 'middle' },
        inDollars(dollars),
      ),
    ),
  );
}

const x = (dollars: number): number => {
  const along = Math.log(Math.min(LAST, Math.max(FIRST, dollars)) / FIRST) / Math.log(LAST / FIRST);
  return LEFT + (RIGHT - LEFT) * along;
};

/** Dollars with a comma at the thousands: $2,400. */
export function inDollars(dollars: number): string {
  return `$${String(Math.round(dollars)).replace(/\B(?=(\d{3})+$)/g, ',')}`;
}
