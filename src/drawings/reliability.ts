import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';

/** What was said against what came true, in bins of forecasts: on the slant they agree. The upright through a dot holds
 * the observed share nineteen times in twenty. */
const SIZE = 300;
const LEFT = 46;
const RIGHT = 292;
const TOP = 8;
const FOOT = 254;

export interface ReliabilityBin {
  /** Forecasts in the bin. */
  n: number;
  /** Their mean, 0 to 1. */
  forecast: number;
  /** Share of them that came true, with its interval. */
  observed: number;
  low: number;
  high: number;
}

export function reliabilityChart(bins: readonly ReliabilityBin[], label: string): Mark {
  const x = (p: number): number => LEFT + (RIGHT - LEFT) * p;
  const y = (p: number): number => FOOT - (FOOT - TOP) * p;
  const grid = [0.25, 0.5, 0.75, 1].map((p) => `M${px(x(p))} ${TOP}V${FOOT}M${LEFT} ${px(y(p))}H${RIGHT}`);
  return h(
    'svg',
    { class: 'figure reliability', viewBox: `0 0 ${SIZE} ${SIZE}`, role: 'img', 'aria-label': label },
    h('path', { d: grid.join(''), class: 'scale-line' }),
    h('path', { d: `M${px(x(0))} ${px(y(0))}L${px(x(1))} ${px(y(1))}`, class: 'thin' }),
    h('path', { d: `M${LEFT} ${TOP}V${FOOT}H${RIGHT}`, class: 'base-line' }),
    bins.map((bin) => [
      h('path', {
        d: `M${px(x(bin.forecast))} ${px(y(bin.low))}V${px(y(bin.high))}`,
        class: 'range-line',
      }),
      h('circle', { cx: px(x(bin.forecast)), cy: px(y(bin.observed)), r: 5, class: 'best-dot' }),
    ]),
    [0, 0.5, 1].map((p) => [
      h('text', { x: LEFT - 6, y: px(y(p) + 4), 'text-anchor': 'end' }, inWords(p)),
      h(
        'text',
        { x: px(x(p)), y: FOOT + 18, 'text-anchor': p === 0 ? 'start' : p === 1 ? 'end' : 'middle' },
        inWords(p),
      ),
    ]),
    h('text', { x: px((LEFT + RIGHT) / 2), y: FOOT + 38, 'text-anchor': 'middle' }, 'said'),
    h('text', { x: LEFT + 8, y: TOP + 12 }, 'came true'),
  );
}

const inWords = (p: number): string => (p === 0 ? 'never' : p === 1 ? 'always' : 'half');
