import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fitSurveys } from '../../src/calibrate/fit-surveys.ts';
import { solvePositive } from '../../src/calibrate/linear.ts';
import type { SurveyRow } from '../../src/calibrate/survey-rows.ts';
import { linkOf, SURVEY_SYSTEMS } from '../../src/calibrate/survey-systems.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));

describe('the fit to surveys', () => {
  it('finds the shares that large samples show, in two states that build otherwise', () => {
    const tested = SURVEY_SYSTEMS.find((s) => s.system === 'foundation');
    if (tested === undefined) throw new Error('foundation is not fitted');
    const shown: [string, number, number, number][] = [
      ['PA', 1940, 1959, 0.06],
      ['PA', 1960, 1979, 0.14],
      ['FL', 1940, 1959, 0.45],
      ['FL', 1960, 1979, 0.7],
    ];
    const rows = shown.map(
      ([state, from, to, slab]): SurveyRow => ({
        source: 'recs-2001',
        name: `${state} ${from}`,
        states: [{ state, weight: 1 }],
        from,
        to,
        asOf: 2001,
        n: 5000,
        answers: [
          { name: 'slab', share: slab },
          { name: 'not slab', share: 1 - slab },
        ],
      }),
    );
    const fit = fitSurveys(base, tested, rows, () => undefined);
    fit.fitted.forEach(({ row, shares }) => {
      expect(Math.abs((shares[0] ?? 0) - (row.answers[0]?.share ?? 0)), row.name).toBeLessThan(0.03);
    });
    expect(fit.places.get('FL')?.factor.slab).toBeGreaterThan(fit.places.get('PA')?.factor.slab ?? 9);
  });

  it('finds that the old houses of one state were cooled later, where the new ones are much alike', () => {
    const tested = SURVEY_SYSTEMS.find((s) => s.system === 'cooling');
    if (tested === undefined) throw new Error('cooling is not fitted');
    const shown: [string, number, number, number][] = [
      ['CA', 1920, 1939, 0.45],
      ['CA', 1990, 1999, 0.1],
      ['TX', 1920, 1939, 0.05],
      ['TX', 1990, 1999, 0.05],
    ];
    const rows = shown.map(
      ([state, from, to, none]): SurveyRow => ({
        source: 'nrel-resstock-3-2',
        name: `${state} ${from}`,
        states: [{ state, weight: 1 }],
        from,
        to,
        asOf: 2020,
        n: 5000,
        answers: [
          { name: 'none', share: none },
          { name: 'rest', share: 1 - none },
        ],
      }),
    );
    const fit = fitSurveys(base, tested, rows, () => undefined);
    fit.fitted.forEach(({ row, shares }) => {
      expect(Math.abs((shares[0] ?? 0) - (row.answers[0]?.share ?? 0)), row.name).toBeLessThan(0.05);
    });
    expect(fit.places.get('CA')?.pace).toBeLessThan(0.7 * (fit.places.get('TX')?.pace ?? 0));
  });

  it('reads every answer of every survey as some group of materials', () => {
    for (const tested of SURVEY_SYSTEMS)
      for (const [answer, link] of Object.entries(tested.links)) {
        expect(Object.keys(tested.groups), `${tested.system} ${answer}`).toEqual(
          expect.arrayContaining(Object.keys(link)),
        );
        for (const share of Object.values(link)) expect(share).toBeLessThanOrEqual(1);
      }
  });

  it('leaves to the rest what no answer takes', () => {
    const heating = SURVEY_SYSTEMS.find((s) => s.system === 'heating-plant');
    if (heating === undefined) throw new Error('heating is not fitted');
    const answers = ['steam/hot water', 'warm-air furnace', 'rest'].map((name) => ({ name, share: 1 / 3 }));
    const row: SurveyRow = {
      source: 'recs-2001',
      name: '',
      states: null,
      from: 0,
      to: 0,
      asOf: 2001,
      n: 1,
      answers,
    };
    const link = linkOf(heating, row);
    for (let g = 0; g < Object.keys(heating.groups).length; g++)
      expect(link.reduce((sum, shares) => sum + (shares[g] ?? 0), 0)).toBeCloseTo(1, 12);
  });
});

describe('a positive definite system', () => {
  it('is solved, with the diagonal of its inverse', () => {
    // [4 1; 1 3] x = [1 2]: x = [1/11 7/11], inverse [3 -1; -1 4] / 11.
    const { x, variance } = solvePositive(
      [Float64Array.of(4, 1), Float64Array.of(1, 3)],
      Float64Array.of(1, 2),
    );
    expect(x[0]).toBeCloseTo(1 / 11, 12);
    expect(x[1]).toBeCloseTo(7 / 11, 12);
    expect(variance[0]).toBeCloseTo(3 / 11, 12);
    expect(variance[1]).toBeCloseTo(4 / 11, 12);
  });

  it('is refused where it is not one', () => {
    expect(() =>
      solvePositive([Float64Array.of(1, 2), Float64Array.of(2, 1)], Float64Array.of(0, 0)),
    ).toThrow(RangeError);
  });
});
