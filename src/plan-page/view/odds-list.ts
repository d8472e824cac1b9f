import { ODDS_WORDS, oddsInWords } from '../../../planner/condition/odds-words.ts';
import type { MaterialBelief } from '../../../planner/plan-types.ts';
import { h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';

export type Portion = 'reachable' | 'hidden' | 'anywhere';

/** Number of the band of odds, 0 for rare: the line beside a name is as heavy as its odds. */
export function weightOf(p: number): number {
  return ODDS_WORDS.findIndex((band) => p < band.below);
}

/** Materials worth naming for a portion, likeliest first. */
export function named(
  materials: MaterialBelief[],
  portion: Portion,
  floor = 0.1,
  most = 4,
): MaterialBelief[] {
  const ranked = [...materials].sort((a, b) => b[portion] - a[portion]);
  const kept = ranked.filter((m) => m[portion] >= floor).slice(0, most);
  return kept.length > 0 ? kept : ranked.slice(0, 1);
}

export function materialName(m: MaterialBelief): Mark | string {
  if (m.material === 'none') return m.title;
  return h('a', { href: toEntry('materials', m.material) }, m.title);
}

/** What a portion is made of: a name and its odds in words a line. */
export function oddsList(materials: MaterialBelief[], portion: Portion): Mark {
  return h(
    'ul',
    { class: 'odds-list' },
    named(materials, portion).map((m) =>
      h(
        'li',
        { class: `weight-${weightOf(m[portion])}` },
        materialName(m),
        h('span', { class: 'odds' }, ` ${oddsInWords(m[portion])}`),
      ),
    ),
  );
}

/** A chance in figures, for those who open it: percent, never finer than it deserves. */
export function percent(p: number): string {
  if (p <= 0) return '0';
  if (p < 0.01) return 'under 1%';
  if (p > 0.99 && p < 1) return 'over 99%';
  return `${Math.round(p * 100)}%`;
}
