import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { foundationPrior } from '../../planner/house/priors.ts';
import { zonesOf } from '../../planner/places/here.ts';
import { readAhsCells } from '../../src/calibrate/ahs-cells.ts';
import { SurveyForecast } from '../../src/calibrate/survey-forecast.ts';
import { interval, type ScoredCell, scoreCells } from '../../src/calibrate/survey-score.ts';
import { SURVEY_SYSTEMS } from '../../src/calibrate/survey-systems.ts';
import { ahsTablePath, scoreSurvey, surveySpread } from '../../src/calibrate/surveys.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

/** The American Housing Survey, 1997 to 2013 (Census Bureau and HUD, public domain), tabulated by region and build
 * year in tests/tables/ahs-cells.csv. No number of it is in the likelihood of a fit. */
const root = join(import.meta.dirname, '../..');
const { base } = readKnowledge(join(root, 'knowledge'));
const cells = readAhsCells(ahsTablePath(root));

function inside(scored: ScoredCell[]): number {
  return scored.filter((c) => c.inside).length / scored.length;
}

describe('the housing survey, left out of every fit', () => {
  const scored = scoreSurvey(base, cells);

  it('has at least 80% of its cells of 50 houses and more inside the 95% interval', () => {
    expect(scored.length).toBeGreaterThanOrEqual(60);
    expect(scored.every((c) => c.n >= 50)).toBe(true);
    expect(inside(scored)).toBeGreaterThanOrEqual(0.8);
  });

  it('is met by intervals that say something', () => {
    const widths = scored.map((c) => c.high - c.low).sort((a, b) => a - b);
    expect(widths[Math.floor(widths.length / 2)]).toBeLessThan(0.3);
  });

  it('is not met by the forecasts of another region', () => {
    const other = { Northeast: 'South', South: 'Northeast', Midwest: 'West', West: 'Midwest' } as const;
    const forecast = new SurveyForecast(base);
    const wrong = scoreCells(
      cells,
      (cell) => forecast.cell({ ...cell, region: other[cell.region] }),
      () => surveySpread(base, 'foundation'),
    );
    expect(inside(wrong)).toBeLessThan(0.5);
  }, 120_000);
});

describe('a place', () => {
  const detached = [{ value: 'detached' as const, p: 1 }];
  const basements = (code: string, year: number): number => {
    const state = base.places.states.find((s) => s.code === code);
    if (state === undefined) throw new Error(`no state ${code}`);
    const odds = foundationPrior(base, zonesOf(state), [{ value: year, p: 1 }], detached, state.division);
    return odds.reduce((sum, o) => sum + (o.value.startsWith('basement') ? o.p : 0), 0);
  };

  it.each([1925, 1950, 1970])('gives a house of %i in Georgia another basement than one in Iowa', (year) => {
    expect(basements('GA', year)).toBeLessThan(0.25);
    expect(basements('IA', year)).toBeGreaterThan(0.5);
  });

  it('says of slabs much the same by kind of foundation and by material', () => {
    // Two tables for one thing: kinds by zone and division, materials by state. Houses of two kinds lie between.
    const forecast = new SurveyForecast(base);
    expect(forecast.inState('slab', 'FL', 1970, 2005)).toBeGreaterThan(0.6);
    expect(forecast.inState('slab', 'PA', 1950, 2005)).toBeLessThan(0.25);
  });

  it('has a factor for every fitted group in every state', () => {
    for (const { system, groups } of SURVEY_SYSTEMS) {
      const fit = base.fits.find((f) => f.system === system && f.states === null);
      expect(fit?.regions?.length, system).toBe(51);
      for (const id of Object.values(groups).flat())
        for (const region of fit?.regions ?? [])
          expect(region.factor[id], `${system} ${id}`).toBeGreaterThan(0);
    }
  });
});

describe('the interval of a share', () => {
  it('is that of the sample alone where nothing is carried over', () => {
    // Wilson and this one agree to a point at n 100, p 0.3: 0.219 to 0.396 (Wilson's formula, by hand).
    const { low, high } = interval(0.3, 100, 0);
    expect(low).toBeCloseTo(0.219, 2);
    expect(high).toBeCloseTo(0.396, 2);
  });

  it('widens with the spread between surveys, and takes none of few for no surprise', () => {
    const narrow = interval(0.3, 100, 0);
    const wide = interval(0.3, 100, 0.4);
    expect(wide.low).toBeLessThan(narrow.low);
    expect(wide.high).toBeGreaterThan(narrow.high);
    expect(interval(0.01, 100, 0).low).toBe(0);
  });
});
