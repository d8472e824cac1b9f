import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  type AgeRow,
  ageError,
  ageLoss,
  asTold,
  chanceError,
  classOfAge,
  fitCalled,
} from '../../src/calibrate/age-link.ts';
import { heatingAges, plantsOf } from '../../src/calibrate/heating-ages.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

const root = join(import.meta.dirname, '../..');

describe('the word of an occupant', () => {
  const ages = { known: [0.1, 0.1, 0.1, 0.1, 0], guessed: [0, 0.1, 0.2, 0.2, 0.1] };

  it('is the age itself where nobody calls a machine old, but for strays', () => {
    // Half a percent short of the sums: one answer in a hundred is at random over five classes.
    expect(asTold(ages, 0)).toEqual(
      [0.1, 0.2, 0.3, 0.3, 0.1].map((p) => expect.closeTo(0.99 * p + 0.002, 9)),
    );
  });

  it('moves those who do not know to the last class, and no one else', () => {
    expect(asTold(ages, 1)).toEqual(
      [0.1, 0.1, 0.1, 0.1, 0.6].map((p) => expect.closeTo(0.99 * p + 0.002, 9)),
    );
    expect(asTold(ages, 0.3).reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
  });

  it('puts whole years into the classes of the survey', () => {
    expect([0, 1, 2, 4, 5, 9, 10, 19, 20, 70].map(classOfAge)).toEqual([0, 0, 1, 1, 2, 2, 3, 3, 4, 4]);
  });

  it('gives back the part that made the answers', () => {
    const row = (called: number): AgeRow => ({
      equipment: 'room heater',
      vintage: '1950s',
      n: 100,
      observed: asTold(ages, called),
      ages,
      fitted: true,
    });
    for (const called of [0.05, 0.3, 0.8]) expect(fitCalled([row(called)])).toBeCloseTo(called, 2);
    expect(ageError([row(0.3)], 0.3)).toBeCloseTo(0, 9);
  });

  it('is off by chance as the normal law says', () => {
    // sqrt(2 / pi) times the standard deviation sqrt(1.5 x 0.25 / 150) = 0.05.
    const half: AgeRow = { equipment: '', vintage: '', n: 150, observed: [0.5, 0.5], ages, fitted: true };
    expect(chanceError([half])).toBeCloseTo(0.0399, 4);
  });
});

/** Ages of heating plants of one-unit houses, Residential Energy Consumption Survey 2001 (Energy Information Administration,
 * public domain; source `recs-2001`), weighted shares by build years. The 1940s, 1960s and 1980s are the test. */
describe('ages of heating plants in 2001', () => {
  const { base } = readKnowledge(join(root, 'knowledge'));
  const table = join(root, 'tests/tables/recs-2001-heating-ages.csv');
  const rows = heatingAges(base, table);
  const fitted = plantsOf(rows).filter((row) => row.fitted);
  const tested = plantsOf(rows).filter((row) => !row.fitted);
  const called = fitCalled(fitted);

  it('are met within a point of what chance would leave, over all plants of the tested vintages', () => {
    const all = rows.filter((row) => !row.fitted && row.equipment === 'all');
    expect(all).toHaveLength(3);
    expect(ageError(all, called)).toBeLessThan(chanceError(all) + 0.01);
  });

  it('are foretold better by the link than by published lives alone', () => {
    expect(ageLoss(tested, called)).toBeLessThan(ageLoss(tested, 0) - 0.02);
  });

  it('ask for no longer lives of machines than published', () => {
    const longer = heatingAges(base, table, 1.2);
    const half = plantsOf(longer).filter((row) => row.fitted);
    expect(ageLoss(half, fitCalled(half))).toBeGreaterThan(ageLoss(fitted, called));
  }, 60_000);
});
