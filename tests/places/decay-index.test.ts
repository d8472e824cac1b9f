import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  decayBand,
  decayBandInWords,
  decayIndex,
  decayTerms,
  type Month,
} from '../../planner/places/decay-index.ts';
import { readTable, textOf } from '../../src/csv/read-table.ts';
import { readStations } from '../../src/places/normals.ts';

const stations = new Map(
  readStations(join(import.meta.dirname, '../../knowledge/places/normals.csv')).map((s) => [s.id, s]),
);
const monthsOf = (id: string): Month[] => {
  const station = stations.get(id);
  if (station === undefined) throw new Error(`no station ${id}`);
  return station.months;
};
const ATLANTA = monthsOf('USW00013874');
const MADISON = monthsOf('USW00014837');

describe('decay hazard index', () => {
  it('of Atlanta is 76.53, month by month', () => {
    const terms = [
      75.46, 104.72, 157.62, 167.04, 231.21, 339.57, 400.2, 361.82, 150.96, 117.39, 81.7, 108.23,
    ];
    decayTerms(ATLANTA).forEach((term, i) => {
      expect(term).toBeCloseTo(terms[i] ?? Number.NaN, 2);
    });
    expect(Math.abs(decayIndex(ATLANTA) - 76.53)).toBeLessThan(0.01);
  });

  it('of Madison is 46.15: January, February, March and December add nothing', () => {
    const terms = decayTerms(MADISON);
    expect([0, 1, 2, 11].map((i) => terms[i])).toEqual([0, 0, 0, 0]);
    expect(Math.abs(decayIndex(MADISON) - 46.15)).toBeLessThan(0.01);
  });

  it('would miss Madison without the clamp on temperature', () => {
    const without = MADISON.reduce((sum, m) => sum + (m.meanF - 35) * (m.wetDays - 3), 0) / 30;
    expect(Math.abs(without - 46.15)).toBeGreaterThan(5);
  });

  it('counts nothing for a month that is both cold and dry, or hot and dry', () => {
    const year = (month: Month): Month[] => Array.from({ length: 12 }, () => month);
    expect(decayIndex(year({ meanF: 5, wetDays: 1 }))).toBe(0);
    expect(decayIndex(year({ meanF: 95, wetDays: 1 }))).toBe(0);
    expect(decayIndex(year({ meanF: 65, wetDays: 8 }))).toBe(60);
  });

  it('refuses a year that has not twelve months', () => {
    expect(() => decayIndex(ATLANTA.slice(1))).toThrow(RangeError);
  });

  const bands = readTable(join(import.meta.dirname, '../tables/decay-bands.csv'));
  it.each(bands.map((row) => [textOf(row, 'place'), textOf(row, 'station'), textOf(row, 'band')]))(
    '%s (%s) is %s',
    (_place, station = '', band) => {
      expect(decayBand(decayIndex(monthsOf(station)))).toBe(band);
    },
  );

  it('says when a band is undecided', () => {
    expect(decayBandInWords(50)).toBe('moderate');
    expect(decayBandInWords(63)).toContain('near the line');
    expect(decayBandInWords(32)).toContain('low and moderate');
    expect([decayBand(34.9), decayBand(35), decayBand(65), decayBand(65.1)]).toEqual([
      'low',
      'moderate',
      'moderate',
      'high',
    ]);
  });
});
