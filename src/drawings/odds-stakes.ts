import { ODDS_WORDS } from '../../planner/condition/odds-words.ts';
import type { Risk } from '../../planner/plan-types.ts';
import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';

/** Odds with their range against what is at stake: three floors by the gravest stake, a line a risk. The scale is
 * that of the words for odds, each as wide as the next. Numbers lead to the list beside it, which says the same. */
const WIDTH = 380;
const LEFT = 8;
const RIGHT = 350;
const LINE = 18;
const HEAD = 24;
const FOOT = 40;
/** Risks on one floor: more would be a thicket. */
const MOST = 6;
const FLOORS = [
  { level: 3, words: 'at stake, gravely' },
  { level: 2, words: 'at stake, seriously' },
  { level: 1, words: 'at stake, a little' },
];

export interface Floor {
  words: string;
  risks: { number: number; risk: Risk }[];
}

export const gravest = (risk: Risk): number =>
  Math.max(risk.stakes.people, risk.stakes.structure, risk.stakes.water, risk.stakes.money);

/** The weightiest risks of each floor, numbered down the sheet. */
export function floorsOf(risks: readonly Risk[]): Floor[] {
  let number = 0;
  return FLOORS.map(({ level, words }) => ({
    words,
    risks: risks
      .filter((r) => Math.min(3, Math.max(1, Math.round(gravest(r)))) === level)
      .sort((a, b) => b.priority - a.priority || (a.failure < b.failure ? -1 : 1))
      .slice(0, MOST)
      .sort((a, b) => b.probability - a.probability || (a.failure < b.failure ? -1 : 1))
      .map((risk) => {
        number += 1;
        return { number, risk };
      }),
  })).filter((floor) => floor.risks.length > 0);
}

export function oddsStakes(floors: readonly Floor[], label: string): Mark {
  const tops: number[] = [];
  let y = 4;
  for (const floor of floors) {
    tops.push(y);
    y += HEAD + floor.risks.length * LINE + 8;
  }
  const edges = ODDS_WORDS.map((_, i) => LEFT + ((i + 1) * (RIGHT - LEFT)) / ODDS_WORDS.length);
  return h(
    'svg',
    { class: 'figure odds-stakes', viewBox: `0 0 ${WIDTH} ${y + FOOT}`, role: 'img', 'aria-label': label },
    edges.slice(0, -1).map((x) => h('path', { d: `M${px(x)} 4V${y}`, class: 'scale-line' })),
    floors.map((floor, i) => floorMarks(floor, tops[i] ?? 0)),
    h('path', { d: `M${LEFT} ${y}H${RIGHT}`, class: 'base-line' }),
    ODDS_WORDS.map(({ words }, i) => {
      const middle = LEFT + ((i + 0.5) * (RIGHT - LEFT)) / ODDS_WORDS.length;
      const lines = words.split(' ');
      // Single words stand by turns on the first and the second line, so that neighbours keep clear.
      const down = lines.length === 1 && i % 2 === 1 ? 1 : 0;
      return lines.map((word, k) =>
        h(
          'text',
          { x: px(middle), y: y + 15 + (k + down) * 14, 'text-anchor': 'middle', class: 'scale-word' },
          word,
        ),
      );
    }),
  );
}

/** Where a chance stands on the scale of words. */
export function along(p: number): number {
  const band = ODDS_WORDS.findIndex((b) => p < b.below);
  const from = ODDS_WORDS[band - 1]?.below ?? 0;
  const to = Math.min(1, ODDS_WORDS[band]?.below ?? 1);
  const within = to > from ? Math.min(1, (p - from) / (to - from)) : 0;
  return LEFT + ((band + within) * (RIGHT - LEFT)) / ODDS_WORDS.length;
}

function floorMarks(floor: Floor, top: number): Mark {
  return h(
    'g',
    {},
    h('path', { d: `M${LEFT} ${top}H${RIGHT}`, class: 'thin' }),
    h('text', { x: LEFT, y: top + 16, class: 'floor-words' }, floor.words),
    floor.risks.map(({ number, risk }, i) => {
      const y = top + HEAD + (i + 0.5) * LINE;
      return h(
        'g',
        {},
        h('path', { d: `M${px(along(risk.low))} ${px(y)}H${px(along(risk.high))}`, class: 'range-line' }),
        h('circle', { cx: px(along(risk.probability)), cy: px(y), r: 4.5, class: 'leader-dot best-dot' }),
        h('text', { x: RIGHT + 8, y: px(y + 4.5) }, String(number)),
      );
    }),
  );
}
