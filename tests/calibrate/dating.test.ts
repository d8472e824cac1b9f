import { describe, expect, it } from 'vitest';
import { CARD_CLUES, type CardHouse } from '../../src/calibrate/dating-ames.ts';
import { crossTable, naiveBayes, townStock } from '../../src/calibrate/dating-rivals.ts';
import { scoreDoubts, scoreOldAlarms, scoreSpans } from '../../src/calibrate/dating-scores.ts';
import { base } from '../planner/any-house.ts';

function card(built: number, Foundation: string, Heating: string): CardHouse {
  return { built, sold: 2008, held: false, fold: 0, words: { Foundation, Heating }, clues: [] };
}

const TOWN = [
  ...Array.from({ length: 30 }, (_, i) => card(1910 + (i % 10), 'Stone', 'GasW')),
  ...Array.from({ length: 30 }, (_, i) => card(1990 + (i % 10), 'PConc', 'GasA')),
];

const decade = (years: { value: number; p: number }[], from: number): number =>
  years.reduce((sum, y) => sum + (y.value >= from && y.value < from + 10 ? y.p : 0), 0);

describe('words of a card', () => {
  it('all read as clues that the base has', () => {
    const known = new Set(base.clues.map((c) => c.id));
    for (const id of Object.values(CARD_CLUES).flatMap((words) => Object.values(words)))
      expect(known.has(id), id).toBe(true);
  });
});

describe('rivals that know the town', () => {
  it('give odds that add to 1 and know which decade such cards come from', () => {
    for (const rival of [
      naiveBayes(TOWN, ['Foundation', 'Heating']),
      crossTable(TOWN, ['Foundation', 'Heating']),
    ]) {
      const years = rival(card(0, 'Stone', 'GasW'));
      expect(years.reduce((sum, y) => sum + y.p, 0)).toBeCloseTo(1, 9);
      expect(decade(years, 1910)).toBeGreaterThan(0.9);
    }
  });

  it('fall back on the naive odds for a card they never saw', () => {
    const unseen = card(0, 'Stone', 'GasA');
    const [naive, cross] = [naiveBayes, crossTable].map((make) =>
      make(TOWN, ['Foundation', 'Heating'])(unseen),
    );
    expect(decade(cross ?? [], 1910)).toBeCloseTo(decade(naive ?? [], 1910), 9);
  });

  it('take the stock from the houses of the town', () => {
    expect(decade(townStock(TOWN, 2008), 1910)).toBeCloseTo(30.5 / (60 + 14 * 0.5), 9);
  });
});

describe('scores', () => {
  const flat = (from: number, to: number): { value: number; p: number }[] =>
    Array.from({ length: to - from + 1 }, (_, i) => ({ value: from + i, p: 1 / (to - from + 1) }));

  it('count a year in the span and a middle at most ten years off', () => {
    // A flat 1901 to 2000: the span is the first eighty years, the middle 1950.
    const dated = [1905, 1960, 1985].map((built) => ({ built, asOf: 2026, years: flat(1901, 2000) }));
    expect(scoreSpans(dated)).toEqual({ houses: 3, withinTen: 1 / 3, held: 2 / 3, width: 80 });
  });

  it('count a doubt only where the shifted year can be', () => {
    const found = { main: [], additions: [], fit: (year: number) => (year === 1990 ? 0 : -9), overall: 0 };
    const score = scoreDoubts([
      { built: 1990, asOf: 2010, found },
      { built: 1960, asOf: 2010, found },
    ]);
    // True: 1990 fits, 1960 does not. Late: only 1990 for the second house. Early: 1960 and 1930.
    expect(score).toMatchObject({ falseAlarms: 0.5, late: 0, early: 1, caught: 2 / 3 });
  });

  it('see when a flag falls on old houses alone', () => {
    // The odds say 1980 whatever the house; the ratio fits every house alike.
    const found = { main: [{ value: 1980, p: 1 }], additions: [], fit: () => 0, overall: 0 };
    const years = [1900, ...Array.from({ length: 19 }, (_, i) => 1970 + i)];
    const alarms = scoreOldAlarms(years.map((built) => ({ built, asOf: 2020, found })));
    expect(alarms).toEqual({ houses: 1, ratio: 0, farOff: 1 });
  });
});
