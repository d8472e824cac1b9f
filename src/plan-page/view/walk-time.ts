import type { Walk } from '../../../planner/plan-types.ts';
import { type WorthPoint, worthCurve, worthPoints } from '../../drawings/worth-curve.ts';
import { fold, h, type Mark } from '../../markup/h.ts';
import { counted, duration } from './clock.ts';

/** What other minutes would do, and how firm the choice of checks is. For the inspector alone: it prices a visit. */
export function walkTime(walk: Walk): Mark | null {
  const points = worthPoints(walk);
  if (points.length === 0) return null;
  return fold({ class: 'walk-time', 'data-key': 'walk-time' }, h('summary', {}, moreInShort(walk)), () => [
    moreList(walk),
    h(
      'figure',
      { class: 'drawing' },
      worthCurve(points, 'What a visit brings to light, by its minutes, this visit being all of it.'),
      h(
        'figcaption',
        {},
        'What the checks of a visit would bring to light, by its minutes; this visit is “all”. Dots: what is always done, and this visit. The ring is the visit with more time.',
      ),
    ),
    worthTable(points),
    firmness(walk.survives),
  ]);
}

function moreInShort({ more, worth }: Walk): string {
  if (more === null) return 'More time would add nothing; what less time would cost';
  return `${duration(more.minutes)} more would add ${counted(more.checks.length, 'check')}, ${partInWords(more.worth / worth)} on top of this visit`;
}

function moreList({ more, leftOut }: Walk): Mark | null {
  if (more === null || more.checks.length === 0) return null;
  const titles = more.checks.map((id) => leftOut.find((c) => c.check === id)?.title ?? id);
  return h(
    'ul',
    { class: 'columns' },
    titles.map((title) => h('li', {}, title)),
  );
}

const IS_WORDS = {
  'always done': 'what is always done',
  'this visit': 'this visit',
  'with more time': 'with more time',
};

const MOST_ROWS = 9;

/** Every so many steps, and what the minutes stand for. */
function thinned(points: WorthPoint[]): WorthPoint[] {
  const step = Math.ceil(points.length / MOST_ROWS);
  return points.filter((p, i) => p.is !== null || i % step === 0);
}

function worthTable(points: WorthPoint[]): Mark {
  return h(
    'table',
    { class: 'chart-table' },
    h('caption', {}, 'The same figures; this visit is 100.'),
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        h('th', { scope: 'col' }, 'Minutes on site'),
        h('th', { scope: 'col', class: 'number' }, 'Brought to light'),
      ),
    ),
    h(
      'tbody',
      {},
      thinned(points).map((p) =>
        h(
          'tr',
          {},
          h('th', { scope: 'row' }, `${Math.round(p.minutes)}${p.is === null ? '' : `, ${IS_WORDS[p.is]}`}`),
          h('td', { class: 'number' }, Math.round(p.share * 100)),
        ),
      ),
    ),
  );
}

/** Whether another draw of the odds and times would choose the same checks, in words. */
export function firmness(survives: number | null): Mark | null {
  if (survives === null) return null;
  const often = timesInTen(survives);
  const [title, rest] =
    survives >= 0.9
      ? ['The choice holds.', 'would be chosen']
      : survives >= 0.6
        ? ['The choice mostly holds.', 'would be chosen']
        : ['The choice is soft.', 'would be chosen, so let your eye overrule the list of optional checks'];
  return h(
    'p',
    {},
    h('strong', {}, title),
    ` With odds and times taken elsewhere within their ranges, nearly the same checks ${rest}: ${often}. What is always done does not hang on it.`,
  );
}

const TENS = ['hardly ever', 'once', 'twice', 'three times', 'four times', 'five times', 'six times'];
const MORE_TENS = ['seven times', 'eight times', 'nine times'];

function timesInTen(share: number): string {
  const tenths = Math.round(share * 10);
  if (tenths >= 10) return 'nearly every time';
  const word = [...TENS, ...MORE_TENS][tenths] ?? 'hardly ever';
  return tenths === 0 ? word : `about ${word} in ten`;
}

const PARTS: { atLeast: number; words: string }[] = [
  { atLeast: 0.85, words: 'about as much again' },
  { atLeast: 0.6, words: 'about three quarters' },
  { atLeast: 0.42, words: 'about half' },
  { atLeast: 0.29, words: 'about a third' },
  { atLeast: 0.22, words: 'about a quarter' },
  { atLeast: 0.17, words: 'about a fifth' },
  { atLeast: 0.11, words: 'about an eighth' },
  { atLeast: 0.08, words: 'about a tenth' },
  { atLeast: 0.04, words: 'about a twentieth' },
];

/** A part of the whole in words: 0.12 is about an eighth. */
export function partInWords(part: number): string {
  return PARTS.find((p) => part >= p.atLeast)?.words ?? 'next to nothing';
}
