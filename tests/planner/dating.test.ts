import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { houseYears } from '../../planner/belief/house-years.ts';
import { evidenceNodes } from '../../planner/belief/year-evidence.ts';
import { HELD, likelySpan } from '../../planner/belief/year-span.ts';
import type { House, HouseInput, Odds } from '../../planner/house/house.ts';
import { stockByYear } from '../../planner/house/priors.ts';
import { dateHouse } from '../../planner/index.ts';
import { weigh } from '../../src/calibrate/dating.ts';
import { sampleHouses } from '../../src/calibrate/dating-sample.ts';
import { scoreDoubts, scoreSpans } from '../../src/calibrate/dating-scores.ts';
import { base, resolved } from './any-house.ts';

const index = indexBase(base);
const NOW = 2026;
const NOTHING = new Set<string>();

function house(clues: HouseInput['clues'], more: Partial<HouseInput> = {}): House {
  return resolved({ asOf: NOW, place: 'OH', parts: [{}], clues: clues ?? [], ...more });
}

function middleOf(clues: HouseInput['clues'], more: Partial<HouseInput> = {}): number {
  return dateHouse(index, house(clues, more), null).likely.middle;
}

describe('houses made by the model', { timeout: 120_000 }, () => {
  const setting = {
    states: ['OH', 'KY', 'GA', 'IA', 'MA', 'CA'],
    asOf: NOW,
    allMet: false,
    missedToo: false,
  };

  it('lie in the 80% span in 76 to 84% of 600 houses, where silence hides nothing', () => {
    const made = sampleHouses(index, { ...setting, count: 600, seed: 20261126, looks: [2, 2], allMet: true });
    const found = weigh(index, made);
    const { held } = scoreSpans(found.map((w) => ({ ...w, years: w.found.main })));
    expect(held).toBeGreaterThan(0.76);
    expect(held).toBeLessThan(0.84);
    expect(scoreDoubts(found).falseAlarms).toBeLessThanOrEqual(0.05);
  });

  it('lie in it as often, and in fewer years, where what was not met is told too', () => {
    const looked = { ...setting, count: 250, seed: 20261127, looks: [15, 25] as [number, number] };
    const score = (missedToo: boolean) => {
      const found = weigh(index, sampleHouses(index, { ...looked, missedToo }));
      return scoreSpans(found.map((w) => ({ ...w, years: w.found.main })));
    };
    const [silent, told] = [score(false), score(true)];
    // Three standard errors about four fifths.
    expect(Math.abs(told.held - 0.8)).toBeLessThan(3 * Math.sqrt((0.8 * 0.2) / 250));
    expect(told.width).toBeLessThan(silent.width);
  });

  it('are doubted more often when listed thirty years off than when listed truly', () => {
    const made = sampleHouses(index, { ...setting, count: 250, seed: 20261126, looks: [40, 60] });
    const { falseAlarms, late, early } = scoreDoubts(weigh(index, made));
    // One in twenty, and two standard errors.
    expect(falseAlarms).toBeLessThanOrEqual(0.05 + 2 * Math.sqrt((0.05 * 0.95) / 250));
    expect(late).toBeGreaterThan(0.5);
    expect(early).toBeGreaterThan(2 * falseAlarms);
  });
});

describe('the span', () => {
  const odds: fc.Arbitrary<Odds<number>> = fc
    .array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 80 })
    .map((weights) => {
      const total = weights.reduce((sum, w) => sum + w, 0);
      return weights.map((w, i) => ({ value: 1900 + i, p: total > 0 ? w / total : 1 / weights.length }));
    });
  const mass = (years: Odds<number>, from: number, to: number): number =>
    years.reduce((sum, y) => sum + (y.value >= from && y.value <= to ? y.p : 0), 0);

  it('has four fifths of the odds, holds the middle, and no shorter run has as much', () => {
    fc.assert(
      fc.property(odds, (years) => {
        const { from, to, middle } = likelySpan(years);
        expect(mass(years, from, to)).toBeGreaterThan(HELD - 1e-9);
        expect(from <= middle && middle <= to).toBe(true);
        for (const { value } of years)
          expect(mass(years, value, value + to - from - 1)).toBeLessThan(HELD + 1e-9);
      }),
      { numRuns: 300, seed: 1 },
    );
  });
});

describe('dating by any clues', { timeout: 120_000 }, () => {
  const clue = fc
    .record({ c: fc.constantFrom(...base.clues), year: fc.integer({ min: 1900, max: NOW }) })
    .map(({ c, year }) => (c.dated === undefined ? { id: c.id } : { id: c.id, year }));

  it('gives odds that add to 1 and a span around the middle', () => {
    fc.assert(
      fc.property(
        fc.array(clue, { minLength: 1, maxLength: 8 }),
        fc.constantFrom(...base.places.states.map((s) => s.code)),
        (clues, place) => {
          const d = dateHouse(index, house(clues, { place }), 1950);
          expect(d.decades.reduce((sum, x) => sum + x.p, 0)).toBeGreaterThan(0.98);
          expect(d.likely.from <= d.likely.middle && d.likely.middle <= d.likely.to).toBe(true);
          expect(d.record?.right).toBeGreaterThanOrEqual(0);
          expect(d.record?.right).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 15, seed: 2 },
    );
  });

  it('is not moved by the same clue told twice, nor by the order of the clues', () => {
    fc.assert(
      fc.property(fc.array(clue, { minLength: 1, maxLength: 5 }), (clues) => {
        const once = dateHouse(index, house(clues), null);
        expect(dateHouse(index, house([...clues, ...clues]), null).decades).toEqual(once.decades);
        const turned = dateHouse(index, house([...clues].reverse()), null);
        expect(turned.likely).toEqual(once.likely);
      }),
      { numRuns: 8, seed: 3 },
    );
  });
});

describe('what dates a house', () => {
  it('is its shape and its basement, and not only its systems', () => {
    expect(middleOf([{ id: 'split-level-seen' }])).toBeGreaterThan(1950);
    expect(middleOf([{ id: 'basement-100-inches-or-more' }])).toBeGreaterThan(
      middleOf([{ id: 'basement-under-80-inches' }]) + 40,
    );
  });

  it('is a given foundation, counted once', () => {
    const of = (foundation: 'slab' | 'basement-stone'): number =>
      middleOf([{ id: 'two-full-storeys' }], { parts: [{ foundation }] });
    expect(of('slab')).toBeGreaterThan(of('basement-stone') + 30);
    // A stone base seen in a house that is said to stand on stone says nothing new.
    const part = resolved({ asOf: NOW, place: 'OH', parts: [{ foundation: 'basement-stone' }] }).parts;
    const clues = [{ id: 'lattice-or-skirt-seen', year: null, part: part[0]?.name ?? '', unit: 1 }];
    const told = dateHouse(index, { ...house([]), parts: part, clues }, null);
    expect(told.likely.middle).toBeLessThan(1960);
  });

  it('is a paper: the house stood by then', () => {
    const { decades } = dateHouse(index, house([{ id: 'rewired', year: 1931 }]), null);
    const after = decades.reduce((sum, d) => sum + (d.decade >= 1940 ? d.p : 0), 0);
    expect(after).toBeLessThan(0.05);
  });
});

describe('a vague year in a plan', () => {
  it('is moved by what speaks of the build year, and by papers of its time', () => {
    const early = (clues: HouseInput['clues']): number => {
      const vague = house(clues, { parts: [{ built: '1930-1970' }] });
      const years = believe(index, vague)[0]?.years ?? [];
      return years.reduce((sum, y) => sum + (y.value < 1950 ? y.p : 0), 0);
    };
    const before = early([]);
    expect(early([{ id: 'split-level-seen' }])).toBeLessThan(before / 2);
    expect(early([{ id: 'rewired', year: 1949 }])).toBeGreaterThan(0.9);
  });
});

describe('a house of two parts', () => {
  const parts = [{}, { name: 'wing' }];
  const clues = [{ id: 'gray-block-base-seen', part: 'wing' }, { id: 'rough-stone-base-seen' }];

  it('has years of its own for the addition, later than the main block', () => {
    const d = dateHouse(index, house(clues, { parts }), null);
    expect(d.additions.map((a) => a.part)).toEqual(['wing']);
    expect(d.additions[0]?.likely.middle).toBeGreaterThan(d.likely.middle);
  });

  it('is older than an old wing', () => {
    const main = { id: 'two-full-storeys' };
    const wing = { id: 'rough-stone-base-seen', part: 'wing' };
    const d = dateHouse(index, house([main, wing], { parts }), null);
    expect(d.likely.middle).toBeLessThan(middleOf([main]) - 20);
  });

  it('agrees with adding up every pair of years by hand', () => {
    const two = house(clues, { parts });
    const prior = stockByYear(base, 'OH', 1900, NOW);
    const found = houseYears(index, two, prior, NOTHING);
    const [main, wing] = two.parts.map((part) => evidenceNodes(index, two, part, 1900, NOTHING));
    const last = prior.length - 1;
    const own = new Float64Array(prior.length);
    const added = new Float64Array(prior.length);
    main?.forEach((node, r) => {
      for (let b = 0; b <= last; b++)
        for (let u = Math.min(b + 1, last); u <= last; u++) {
          const since = Math.max(1, last - b);
          const p =
            (node.weight * (prior[b]?.p ?? 0) * Math.exp((node.log[b] ?? 0) + (wing?.[r]?.log[u] ?? 0))) /
            since;
          own[b] = (own[b] ?? 0) + p;
          added[u] = (added[u] ?? 0) + p;
        }
    });
    const total = own.reduce((sum, p) => sum + p, 0);
    found.main.forEach((y, b) => {
      expect(y.p).toBeCloseTo((own[b] ?? 0) / total, 9);
    });
    found.additions[0]?.years.forEach((y, u) => {
      expect(y.p).toBeCloseTo((added[u] ?? 0) / total, 9);
    });
  });
});
