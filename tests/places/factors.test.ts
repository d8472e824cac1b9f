import { describe, expect, it } from 'vitest';
import { FOUNDATIONS, PLACE_FACTORS } from '../../knowledge/schema/words.ts';
import { cautions } from '../../planner/explain/cautions.ts';
import { explainRisk } from '../../planner/explain/explain-risk.ts';
import type { Foundation } from '../../planner/house/house.ts';
import { foundationPrior, statesOfYears } from '../../planner/house/priors.ts';
import { whenOdds } from '../../planner/house/when.ts';
import { decayBand } from '../../planner/places/decay-index.ts';
import { FACTOR_BASIS, factorInWords, rawOdds } from '../../planner/places/factors.ts';
import { anywhereIn, hereOf } from '../../planner/places/here.ts';
import { factorOdds } from '../../planner/places/normaliser.ts';
import { base, conditionOf, houseOf, index } from './base.ts';

const { states, stock } = base.places;
const all = Object.values(stock.units).reduce((sum, n) => sum + n, 0);
/** Mean over the houses standing in the nation: the region of the surveys behind the base rates. */
const overHouses = (of: (state: (typeof states)[number]) => number): number =>
  states.reduce((sum, s) => sum + ((stock.units[s.code] ?? 0) / all) * of(s), 0);
const SHORES = ['within-3000-ft', 'farther', 'unknown'] as const;

describe.each(PLACE_FACTORS)('factor %s', (factor) => {
  it.each([1, 0.7, 0.3])('has a mean of 1 over the houses standing, at strength %d', (strength) => {
    expect(overHouses((s) => factorOdds(base, factor, strength, anywhereIn(s)))).toBeCloseTo(1, 6);
  });

  it('would not have it unscaled', () => {
    expect(Math.abs(overHouses((s) => rawOdds(factor, anywhereIn(s))) - 1)).toBeGreaterThan(1e-3);
  });

  it('stays within its bounds everywhere, and differs between places', () => {
    const { low, high } = FACTOR_BASIS[factor];
    const seen = new Set<number>();
    for (const state of states)
      for (const shore of state.coast ? SHORES : (['unknown'] as const))
        for (const strength of [1, 0.5]) {
          const odds = factorOdds(base, factor, strength, { ...anywhereIn(state), shore });
          expect(odds).toBeGreaterThanOrEqual(low - 1e-9);
          expect(odds).toBeLessThanOrEqual(high + 1e-9);
          if (strength === 1) seen.add(odds);
        }
    expect(seen.size).toBeGreaterThan(1);
  });

  it('from memory moves odds by at most half up and a third down', () => {
    const { grade, low, high } = FACTOR_BASIS[factor];
    if (grade !== 'memory' || factor === 'termites')
      return expect(['decay', 'freeze-thaw', 'radon', 'termites']).toContain(factor);
    expect([low, high]).toEqual([0.67, 1.5]);
  });

  it('clears nothing in words, and asks to check what is from memory', () => {
    for (const state of states) {
      const say = factorInWords(factor, anywhereIn(state));
      expect(say).not.toMatch(/\b(absent|clear|cleared|safe|skip|proves|no need|free of)\b/i);
      if (factor === 'radon') expect(say).toMatch(/^radon zone [123]; test whatever the zone$/);
    }
  });
});

describe('explanations', () => {
  it('name each factor, its grade, its sources and its amount, and the amounts make the shift', () => {
    const c = conditionOf({ place: 'GA', parts: [{ built: 1910, foundation: 'piers' }] }, 'rotted-sill');
    const risk = explainRisk(index, c, []);
    const place = risk.why.filter((r) => r.kind === 'place');
    expect(place.map((r) => r.grade)).toEqual(['practice', 'memory']);
    expect(place[0]?.source).toContain('noaa-normals-2006-2020');
    expect(place[0]?.say).toMatch(/^Here: decay hazard index about 78/);
    expect(c.place.reduce((sum, e) => sum + Math.log(e.odds), 0)).toBeCloseTo(c.shift, 9);
  });
});

describe('an unknown place', () => {
  it('is summed over the states where houses of those years stand', () => {
    const { failure, ...c } = conditionOf(
      { parts: [{ built: 1885, foundation: 'crawl' }] },
      'subterranean-termite-signs',
    );
    expect(failure.place).toEqual([{ factor: 'termites', strength: 1 }]);
    const row = stock.vintages.findIndex(([from, to]) => from <= 1885 && to >= 1885);
    const houses = states.map((s) => (stock.units[s.code] ?? 0) * (stock.byState[s.code]?.[row] ?? 0));
    const sum = houses.reduce((a, b) => a + b, 0);
    const mean = states.reduce(
      (total, s, i) => total + ((houses[i] ?? 0) / sum) * factorOdds(base, 'termites', 1, anywhereIn(s)),
      0,
    );
    expect(Math.exp(c.shift)).toBeCloseTo(mean, 9);
    // Old houses stand in the north: not the 1 that a sum over all houses would give.
    expect(mean).toBeLessThan(0.98);
    expect(c.place[0]?.say).toContain('summed over the states');
  });

  it('follows the years: newer houses stand where termites are', () => {
    const shift = (built: number): number =>
      conditionOf({ parts: [{ built, foundation: 'crawl' }] }, 'subterranean-termite-signs').shift;
    expect(shift(1985)).toBeGreaterThan(shift(1910) + 0.1);
  });

  it('is vaguer than a known one', () => {
    const width = (place: string): number => {
      const c = conditionOf(
        { place, parts: [{ built: 1910, foundation: 'crawl' }] },
        'subterranean-termite-signs',
      );
      const logit = (p: number): number => Math.log(p / (1 - p));
      return logit(c.high) - logit(c.low);
    };
    expect(width('unknown')).toBeGreaterThan(width('MO'));
  });

  it('near salt water is in a coastal state', () => {
    const shift = (coast: 'within-3000-ft' | 'farther'): number =>
      conditionOf({ coast, parts: [{ built: 1910, foundation: 'crawl' }] }, 'rusted-panel').shift;
    expect(shift('within-3000-ft')).toBeGreaterThan(shift('farther') + 0.2);
  });

  it('weighs states by their houses', () => {
    const odds = statesOfYears(base, [{ value: 1905, p: 1 }]);
    expect(odds.reduce((sum, o) => sum + o.p, 0)).toBeCloseTo(1, 9);
    const p = (code: string): number => odds.find((o) => o.value.code === code)?.p ?? 0;
    expect(p('NY')).toBeGreaterThan(p('FL'));
  });
});

describe('a foundation that nobody gave', () => {
  const years = [{ value: 1905, p: 1 }];
  const detached = [{ value: 'detached' as const, p: 1 }];
  const row = [{ value: 'row' as const, p: 1 }];
  const share = (odds: { value: string; p: number }[], wanted: RegExp): number =>
    odds.reduce((sum, o) => sum + (wanted.test(o.value) ? o.p : 0), 0);

  it("of an unknown place has the nation's shares", () => {
    const { kinds, byZone } = base.places.foundations;
    const national = byZone.ALL?.[1] ?? [];
    const odds = foundationPrior(base, null, years, detached);
    for (const { value, p } of odds) expect(p).toBeCloseTo(national[kinds.indexOf(value)] ?? Number.NaN, 6);
  });

  it('follows place, year and form', () => {
    const basement = (zone: string, year: number, form: typeof detached | typeof row): number =>
      share(foundationPrior(base, [{ value: zone, p: 1 }], [{ value: year, p: 1 }], form), /^basement/);
    expect(basement('6A', 1905, detached)).toBeGreaterThan(basement('2A', 1905, detached) + 0.3);
    expect(
      share(foundationPrior(base, [{ value: '2A', p: 1 }], [{ value: 1970, p: 1 }], detached), /slab/),
    ).toBeGreaterThan(share(foundationPrior(base, [{ value: '2A', p: 1 }], years, detached), /slab/) + 0.3);
    // Row houses share their walls: the survey has none of them on open foundations.
    expect(share(foundationPrior(base, [{ value: '2A', p: 1 }], years, row), /piers/)).toBeLessThan(
      share(foundationPrior(base, [{ value: '2A', p: 1 }], years, detached), /piers/) - 0.05,
    );
  });

  it('keeps every kind with any share, mixed houses included', () => {
    const odds = foundationPrior(base, [{ value: '4A', p: 1 }], years, detached);
    expect(odds.map((o) => o.value)).toEqual(
      expect.arrayContaining(['mixed', 'piers', 'basement-stone', 'slab']),
    );
    expect(odds.reduce((sum, o) => sum + o.p, 0)).toBeCloseTo(1, 9);
  });
});

describe('stops under the house', () => {
  const stopOdds = (input: { place?: string; foundation?: Foundation }, stop: string): number => {
    const { place, ...part } = input;
    const house = houseOf({ ...(place === undefined ? {} : { place }), parts: [{ built: 1905, ...part }] });
    const [main] = house.parts;
    if (main === undefined) throw new Error('a house has a part');
    return whenOdds(base.stops.find((s) => s.id === stop)?.when, house, main);
  };

  it.each(FOUNDATIONS)('%s brings the crawl space, the basement or neither', (foundation) => {
    const crawl = ['piers', 'posts', 'crawl', 'mixed'].includes(foundation) ? 1 : 0;
    const basement = foundation.startsWith('basement') || foundation === 'mixed' ? 1 : 0;
    expect(stopOdds({ foundation }, 'crawl')).toBe(crawl);
    expect(stopOdds({ foundation }, 'basement')).toBe(basement);
  });

  it('both by their odds where nobody said, and more basements in the north', () => {
    for (const place of ['VT', 'GA', 'unknown']) {
      expect(stopOdds({ place }, 'crawl')).toBeGreaterThan(0.05);
      expect(stopOdds({ place }, 'basement')).toBeGreaterThan(0.05);
    }
    expect(stopOdds({ place: 'VT' }, 'basement')).toBeGreaterThan(
      stopOdds({ place: 'GA' }, 'basement') + 0.3,
    );
  });
});

describe('a ZIP', () => {
  it('that differs from its prefix has an index of its own: the wet shore of Oregon, the wet side of Hawaii', () => {
    const decay = (place: string): number =>
      hereOf(base, houseOf({ place, parts: [{}] }).place)?.decay ?? Number.NaN;
    expect(decayBand(decay('97103'))).toBe('high');
    expect(decayBand(decay('97140'))).toBe('moderate');
    expect(decay('96720')).toBeGreaterThan(2 * decay('96740'));
    for (const area of Object.values(base.places.zip3))
      for (const own of Object.values(area.own)) expect(Math.abs(own - area.decay)).toBeGreaterThan(5.9);
  });

  it('is finer than its state', () => {
    const here = (place: string) => hereOf(base, houseOf({ place, parts: [{}] }).place);
    expect(here('99201')?.decay).toBeLessThan(30);
    expect(here('98101')?.decay).toBeGreaterThan(45);
    expect(here('99201')?.zone).toBe('5B');
    expect(here('98101')?.zone).toBe('4C');
    expect(here('WA')?.state.code).toBe('WA');
  });

  it('of a territory or of nowhere is refused', () => {
    expect(() => houseOf({ place: '00901', parts: [{}] })).toThrow(/ZIP of the 50 states/);
  });
});

describe('the shore', () => {
  it('is asked of coastal states alone', () => {
    expect(() => houseOf({ place: 'KS', coast: 'within-3000-ft', parts: [{}] })).toThrow(/no sea coast/);
    expect(houseOf({ place: 'KS', coast: 'farther', parts: [{}] }).place.coast).toBe('farther');
    expect(houseOf({ place: 'GA', coast: 'within-3000-ft', parts: [{}] }).place.coast).toBe('within-3000-ft');
    expect(houseOf({ place: 'GA', parts: [{}] }).place.coast).toBe('unknown');
  });
});

describe('earthquake', () => {
  it('counts the middle of a span, so that one shaking corner does not stand for a state', () => {
    const odds = (code: string): number => {
      const state = states.find((s) => s.code === code);
      return state === undefined ? Number.NaN : factorOdds(base, 'quake', 1, anywhereIn(state));
    };
    // D0-E, C-D2, A-D2, A.
    expect(odds('CA')).toBeGreaterThan(odds('OR'));
    expect(odds('OR')).toBeGreaterThan(odds('IL'));
    expect(odds('IL')).toBeGreaterThan(odds('FL'));
  });
});

describe('radon', () => {
  it('is to be tested for wherever the house stands', () => {
    for (const place of ['FL', 'IA', 'unknown']) {
      const house = houseOf({ place, parts: [{ built: 1910, foundation: 'slab' }] });
      const walk = { feasible: true, minutesNeeded: 0, minutes: 240 };
      const said = cautions(index, house, walk, null).filter((c) => c.about === 'radon');
      expect(said.map((c) => c.say).join()).toMatch(/^Test for radon whatever the zone/);
    }
  });

  it('keeps its check and its odds in every state', () => {
    const finds = base.checks.some((c) => c.finds.some((f) => f.failure === 'radon-above-action-level'));
    expect(finds).toBe(true);
    for (const state of states)
      expect(factorOdds(base, 'radon', 1, anywhereIn(state)), state.code).toBeGreaterThanOrEqual(0.75);
  });
});
