import { describe, expect, it } from 'vitest';
import { divisionFactor } from '../../planner/house/division-factors.ts';
import type { Foundation, Odds } from '../../planner/house/house.ts';
import { foundationPrior } from '../../planner/house/priors.ts';
import { zonesOf } from '../../planner/places/here.ts';
import { base, houseOf } from './base.ts';

const detached = [{ value: 'detached' as const, p: 1 }];

function basements(kinds: Odds<Foundation>): number {
  return kinds.reduce((sum, { value, p }) => sum + (value.startsWith('basement') ? p : 0), 0);
}

describe('the factor of a division on a kind of foundation', () => {
  const foundations = {
    factorYears: [1930, 2000] as [number, number],
    byDivision: {
      Here: {
        basement: [0.5, 2] as [number, number],
        slab: [3, 3] as [number, number],
        mixed: [1, 4] as [number, number],
      },
    },
  };
  const at = (year: number, kind: Foundation): number => divisionFactor(foundations, 'Here', year)(kind);

  it('is as given in the two years, their geometric mean half-way, and constant outside', () => {
    expect(at(1930, 'basement-stone')).toBeCloseTo(0.5, 9);
    expect(at(2000, 'basement-stone')).toBeCloseTo(2, 9);
    expect(at(1965, 'basement-stone')).toBeCloseTo(1, 9);
    expect(at(1965, 'mixed')).toBeCloseTo(2, 9);
    expect(at(1880, 'mixed')).toBe(at(1930, 'mixed'));
    expect(at(2020, 'slab')).toBeCloseTo(3, 9);
  });

  it('is 1 for raised houses, which the others are against, and where the division is not known', () => {
    expect(at(1930, 'crawl')).toBe(1);
    expect(divisionFactor(foundations, null, 1930)('slab')).toBe(1);
    expect(divisionFactor(foundations, 'Elsewhere', 1930)('slab')).toBe(1);
  });
});

describe('a state of several climate zones', () => {
  const carolina = base.places.states.find((s) => s.code === 'NC');
  if (carolina === undefined) throw new Error('no state NC');

  it('has zones that add to 1, in every state, the commonest among them', () => {
    for (const { code, zone, zones } of base.places.states) {
      expect(
        Object.values(zones).reduce((sum, p) => sum + p, 0),
        code,
      ).toBeCloseTo(1, 2);
      for (const id of Object.keys(zones))
        expect(base.places.foundations.byZone[id], `${code} ${id}`).toBeDefined();
      expect(zones[zone] ?? 0, code).toBeGreaterThan(0.3);
    }
  });

  it('lies between its zones: half of North Carolina is not built like Pennsylvania', () => {
    const of = (zones: Odds<string>): number =>
      basements(foundationPrior(base, zones, [{ value: 1925, p: 1 }], detached, carolina.division));
    const [warm, cool] = ['3A', '4A'].map((value) => of([{ value, p: 1 }]));
    const state = of(zonesOf(carolina));
    expect(state).toBeGreaterThan((warm ?? 1) + 0.1);
    expect(state).toBeLessThan((cool ?? 0) - 0.1);
  });

  it('gives a house with a ZIP the zone of the ZIP alone', () => {
    const kinds = (place: string): number =>
      basements(houseOf({ place, parts: [{ built: 1925 }] }).parts[0]?.foundation ?? []);
    // Wilmington is in zone 3A, Asheville in 4A.
    expect(kinds('28403')).toBeLessThan(kinds('NC') - 0.1);
    expect(kinds('28801')).toBeGreaterThan(kinds('NC') + 0.1);
  });
});

describe('the old houses of a division', () => {
  it('may have another mix against the climate zone than its new ones', () => {
    // Energy survey of 2001 (recs-2001), East South Central: basement alone 22% before 1940 and 29% from 1980 on,
    // while the climate zones' own shares fall.
    const tennessee = base.places.states.find((s) => s.code === 'TN');
    if (tennessee === undefined) throw new Error('no state TN');
    const at = (year: number): number =>
      basements(
        foundationPrior(base, zonesOf(tennessee), [{ value: year, p: 1 }], detached, tennessee.division),
      );
    expect(at(1925)).toBeLessThan(at(1990) + 0.05);
  });
});
