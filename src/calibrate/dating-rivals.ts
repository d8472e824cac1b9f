import type { Odds } from '../../planner/house/house.ts';
import type { CardHouse } from './dating-ames.ts';

/** Rivals that learn the town's own houses from the fit rows: what the same card could tell at best. Each gives odds
 * over build years, a decade's odds spread evenly over its years. */
export type CardRival = (house: CardHouse) => Odds<number>;

/** Build years of the fit rows by decade, half a house added to each decade. */
export function townStock(fit: CardHouse[], asOf: number): Odds<number> {
  const counts = countDecades(fit);
  return spread(
    decadesTo(asOf).map((decade) => (counts.get(decade) ?? 0) + 0.5),
    asOf,
  );
}

/** Decade given the words, taken as independent of one another within a decade (naive Bayes, add-half). */
export function naiveBayes(fit: CardHouse[], columns: readonly string[]): CardRival {
  const total = countDecades(fit);
  const tables = columns.map((column) => {
    const words = new Set(fit.map((h) => h.words[column] ?? ''));
    const counts = new Map<string, number>();
    for (const h of fit) add(counts, `${decadeOf(h.built)} ${h.words[column] ?? ''}`);
    return (decade: number, word: string): number =>
      ((counts.get(`${decade} ${word}`) ?? 0) + 0.5) / ((total.get(decade) ?? 0) + 0.5 * words.size);
  });
  return ({ words, sold }) =>
    spread(
      decadesTo(sold).map((decade) =>
        columns.reduce(
          (product, column, i) => product * (tables[i]?.(decade, words[column] ?? '') ?? 1),
          (total.get(decade) ?? 0) + 0.5,
        ),
      ),
      sold,
    );
}

/** Decade given all the words at once: counts of the fit rows whose card reads the same, with two houses' worth of the
 * naive odds added, which alone speak where no card reads the same. */
export function crossTable(fit: CardHouse[], columns: readonly string[]): CardRival {
  const naive = naiveBayes(fit, columns);
  const keyOf = (h: CardHouse): string => columns.map((column) => h.words[column]).join(' / ');
  const cells = new Map<string, CardHouse[]>();
  for (const h of fit) cells.set(keyOf(h), [...(cells.get(keyOf(h)) ?? []), h]);
  return (house) => {
    const alike = countDecades(cells.get(keyOf(house)) ?? []);
    const behind = naive(house);
    return spread(
      decadesTo(house.sold).map((decade) => {
        const odds = behind.reduce((sum, y) => sum + (decadeOf(y.value) === decade ? y.p : 0), 0);
        return (alike.get(decade) ?? 0) + 2 * odds;
      }),
      house.sold,
    );
  };
}

const FIRST = 1870;

function decadeOf(year: number): number {
  return Math.max(FIRST, Math.floor(year / 10) * 10);
}

function decadesTo(asOf: number): number[] {
  return Array.from({ length: Math.floor((asOf - FIRST) / 10) + 1 }, (_, i) => FIRST + 10 * i);
}

function countDecades(houses: CardHouse[]): Map<number, number> {
  const counts = new Map<number, number>();
  for (const h of houses) add(counts, decadeOf(h.built));
  return counts;
}

function add<K>(counts: Map<K, number>, key: K): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

/** Weights of the decades from 1870 on, as odds over years. */
function spread(weights: number[], asOf: number): Odds<number> {
  const total = weights.reduce((sum, w) => sum + w, 0);
  return weights.flatMap((w, i) => {
    const from = FIRST + 10 * i;
    const years = Math.min(10, asOf - from + 1);
    return Array.from({ length: years }, (_, k) => ({ value: from + k, p: w / total / years }));
  });
}
