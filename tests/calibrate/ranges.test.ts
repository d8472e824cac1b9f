import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { oddsRange, oddsSpread, RANGE_SHARE } from '../../planner/belief/ranges.ts';
import {
  betaCounts,
  countRange,
  intervalScore,
  normalOddsCounts,
  partInside,
} from '../../src/calibrate/predictive.ts';
import { reliabilityOf, wilson } from '../../src/calibrate/reliability.ts';
import { worthOf } from '../../src/calibrate/worth.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

const index = indexBase(readKnowledge(join(import.meta.dirname, '../../knowledge')).base);
const spreadIn = (system: string, state: string | null) => {
  const entry = index.systems.get(system);
  if (entry === undefined) throw new Error(`no system ${system}`);
  return oddsSpread(index, entry, state);
};

describe('ranges of odds', () => {
  const width = ([low, high]: [number, number]): number => high - low;

  it('hold the odds, and lie between 0 and 1', () => {
    for (const p of [1e-5, 0.001, 0.03, 0.5, 0.9, 0.9999])
      for (const worth of [null, 10, 300])
        for (const besides of [0, 0.3, 0.8]) {
          if (worth === null && besides === 0) continue;
          const [low, high] = oddsRange(p, { worth, besides });
          expect(low).toBeGreaterThanOrEqual(0);
          expect(low).toBeLessThan(p);
          expect(high).toBeGreaterThan(p);
          expect(high).toBeLessThanOrEqual(1);
        }
  });

  it('are wider where a fit came from elsewhere, and wider out of sight', () => {
    const here = spreadIn('service-equipment', 'IA');
    const elsewhere = spreadIn('service-equipment', 'GA');
    expect(width(oddsRange(0.3, elsewhere.reachable))).toBeGreaterThan(width(oddsRange(0.3, here.reachable)));
    const cladding = spreadIn('cladding', 'IA');
    expect(width(oddsRange(0.3, cladding.hidden))).toBeGreaterThan(width(oddsRange(0.3, cladding.reachable)));
  });

  it('are no surer than practice where nothing was fitted', () => {
    expect(spreadIn('branch-wiring', 'GA').reachable).toEqual({ worth: null, besides: 0.6 });
  });

  it('of a share counted on m houses come near its Beta range', () => {
    // Beta(30, 70): 10th and 90th percentile 0.2426 and 0.3595, by the normal approximation of its log-odds.
    const [low, high] = oddsRange(0.3, { worth: 100, besides: 0 });
    expect(low).toBeCloseTo(0.243, 2);
    expect(high).toBeCloseTo(0.36, 2);
  });
});

describe('counts expected under unsure odds', () => {
  const total = (counts: Float64Array): number => counts.reduce((sum, v) => sum + v, 0);

  it('add to 1, and fall back to the binomial and the uniform where these hold', () => {
    const binomial = normalOddsCounts(0.3, 0, 4);
    expect(total(binomial)).toBeCloseTo(1, 9);
    expect(binomial[2]).toBeCloseTo(6 * 0.09 * 0.49, 10);
    for (const chance of betaCounts(1, 1, 9)) expect(chance).toBeCloseTo(0.1, 10);
  });

  it('have ranges that hold eight in ten on average when their edges cut a count', () => {
    for (const counts of [normalOddsCounts(0.02, 0.5, 12), betaCounts(2, 5, 30)]) {
      const inside = counts.reduce((sum, chance, k) => sum + chance * partInside(counts, k, RANGE_SHARE), 0);
      expect(inside).toBeCloseTo(RANGE_SHARE, 8);
      const { low, high } = countRange(counts, RANGE_SHARE);
      expect(total(counts.subarray(low, high + 1))).toBeGreaterThanOrEqual(RANGE_SHARE);
    }
  });

  it('score a miss by ten times its distance', () => {
    const counts = betaCounts(50, 50, 20);
    const { low, high } = countRange(counts, RANGE_SHARE);
    expect(intervalScore(counts, high, RANGE_SHARE)).toBeCloseTo((high - low) / 20, 12);
    expect(intervalScore(counts, high + 2, RANGE_SHARE)).toBeCloseTo((high - low + 20) / 20, 12);
  });
});

describe('what a fit is worth', () => {
  /** Groups whose true odds scatter about the forecast; a fixed sequence stands in for chance. */
  const groups = (scatter: number) =>
    Array.from({ length: 80 }, (_, i) => {
      const z = Math.sin(12.9898 * (i + 1)) * 1.4;
      const truth = 1 / (1 + Math.exp(0.4 - scatter * z));
      return { name: 'a', decade: 1900, n: 200, k: Math.round(200 * truth), chance: 1 / (1 + Math.exp(0.4)) };
    });

  it('is less where forecasts miss by more', () => {
    expect(worthOf(groups(0.8))).toBeLessThan(worthOf(groups(0.3)));
    expect(worthOf(groups(0.3))).toBeLessThan(worthOf(groups(0.1)));
  });
});

describe('reliability', () => {
  it('gives the interval of Wilson', () => {
    // Newcombe, Statistics in Medicine 17 (1998), table I: 81 of 263, score method: 0.2553 to 0.3662.
    expect(wilson(81, 263).low).toBeCloseTo(0.2553, 4);
    expect(wilson(81, 263).high).toBeCloseTo(0.3662, 4);
  });

  it('finds no error where shares are as forecast, and the distance where they are not', () => {
    const rows = (p: number) =>
      Array.from({ length: 100 }, (_, i) => ({ name: i % 4 === 0 ? 'b' : 'a', chances: { a: 1 - p, b: p } }));
    expect(reliabilityOf(rows(0.25), ['a', 'b']).error).toBeLessThan(0.06);
    expect(reliabilityOf(rows(0.45), ['a', 'b']).error).toBeCloseTo(0.2, 6);
  });
});
