import type { Walk } from '../../planner/plan-types.ts';
import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';

/** What a visit of so many minutes brings to light, this visit being all. From zero, so that a flat line is seen to
 * be flat: most of the worth of a visit lies in what is always done. */
const WIDTH = 380;
const LEFT = 40;
const RIGHT = 366;
const TOP = 22;
const FOOT = 150;
const HEIGHT = 190;

export interface WorthPoint {
  minutes: number;
  /** Against the visit as planned: 1 is the same. */
  share: number;
  /** What the minutes stand for, null for a step between. */
  is: 'always done' | 'this visit' | 'with more time' | null;
}

/** The ladder of budgets against the visit as planned; empty where there is nothing to compare. */
export function worthPoints(walk: Walk): WorthPoint[] {
  const { curve, more, worth, minutes, feasible } = walk;
  if (!feasible || worth <= 0 || curve.length === 0) return [];
  const points = curve.map(
    (step, i): WorthPoint => ({
      minutes: step.minutes,
      share: step.worth / worth,
      is: step.minutes === minutes ? 'this visit' : i === 0 ? 'always done' : null,
    }),
  );
  if (more === null) return points;
  return [
    ...points,
    { minutes: minutes + more.minutes, share: 1 + more.worth / worth, is: 'with more time' },
  ];
}

export function worthCurve(points: readonly WorthPoint[], label: string): Mark {
  const first = points[0]?.minutes ?? 0;
  const last = points.at(-1)?.minutes ?? first;
  const most = Math.max(1, ...points.map((p) => p.share));
  const x = (minutes: number): number =>
    last === first ? (LEFT + RIGHT) / 2 : LEFT + ((RIGHT - LEFT) * (minutes - first)) / (last - first);
  const y = (share: number): number => FOOT - ((FOOT - TOP) * share) / most;
  const path = (list: readonly WorthPoint[]): string =>
    list.map((p, i) => `${i === 0 ? 'M' : 'L'}${px(x(p.minutes))} ${px(y(p.share))}`).join('');
  const planned = points.filter((p) => p.is !== 'with more time');
  return h(
    'svg',
    { class: 'figure worth-curve', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: 'img', 'aria-label': label },
    h('path', { d: `M${LEFT} ${px(y(1))}H${RIGHT}M${LEFT} ${px(y(0.5))}H${RIGHT}`, class: 'scale-line' }),
    [
      { share: 1, words: 'all' },
      { share: 0.5, words: 'half' },
      { share: 0, words: 'none' },
    ].map(({ share, words }) => h('text', { x: LEFT - 6, y: px(y(share) + 4), 'text-anchor': 'end' }, words)),
    h('path', { d: path(planned), class: 'edge' }),
    h('path', { d: path(points.slice(planned.length - 1)), class: 'edge behind' }),
    h('path', { d: `M${LEFT} ${FOOT}H${RIGHT}`, class: 'base-line' }),
    points
      .filter((p) => p.is !== null)
      .map((p, i, marked) => [
        h('circle', {
          cx: px(x(p.minutes)),
          cy: px(y(p.share)),
          r: 5,
          class: p.is === 'with more time' ? 'again-mark' : 'best-dot',
        }),
        // Two lines of minutes, so that neighbours do not run into each other.
        h('path', { d: `M${px(x(p.minutes))} ${FOOT}v5`, class: 'thin' }),
        h(
          'text',
          {
            x: px(x(p.minutes)),
            y: FOOT + (i % 2 === 0 ? 19 : 34),
            'text-anchor': i === 0 ? 'start' : i === marked.length - 1 ? 'end' : 'middle',
          },
          `${Math.round(p.minutes)} min`,
        ),
      ]),
  );
}
