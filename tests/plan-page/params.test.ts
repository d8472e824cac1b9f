import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dwellingsOf,
  keyOfProblem,
  partNumbers,
  problemInWords,
  readParams,
} from '../../src/plan-page/params.ts';

describe('a plan in an address', () => {
  it('reads the house, its additions, its clues and the visit', () => {
    const input = readParams(
      new URLSearchParams(
        'built=1913&foundation=piers&place=KY&name.2=ell&built.2=1950&units=2&clue=rewired&year.rewired=1998&at.rewired=2&minutes=1,200&client=children',
      ),
    );
    expect(input).toEqual({
      place: 'KY',
      units: 2,
      parts: [
        { name: 'main block', built: '1913', foundation: 'piers' },
        { name: 'ell', built: '1950' },
      ],
      clues: [{ id: 'rewired', year: 1998, part: 'ell' }],
      client: ['children'],
      visit: { minutes: 1200 },
    });
  });

  it('reads which dwellings a clue was met in, and the year it gives in each', () => {
    const clues = (query: string) => readParams(new URLSearchParams(`units=3&${query}`)).clues;
    const part = 'main block';
    expect(clues('clue=fuses-seen')).toEqual([{ id: 'fuses-seen', part }]);
    expect(clues('clue=fuses-seen&unit.fuses-seen=1&unit.fuses-seen=3')).toEqual([
      { id: 'fuses-seen', part, unit: 1 },
      { id: 'fuses-seen', part, unit: 3 },
    ]);
    const plate = 'heating-plate-year';
    expect(clues(`clue=${plate}&year.${plate}=2005&year.${plate}.3=2011`)).toEqual([
      { id: plate, year: 2005, part },
      { id: plate, year: 2011, part, unit: 3 },
    ]);
    expect(clues(`clue=${plate}&year.${plate}.2=2011`)).toEqual([{ id: plate, year: 2011, part, unit: 2 }]);
    expect(clues(`clue=${plate}`)).toEqual([{ id: plate, part }]);
  });

  it('knows how many dwellings there are to ask about', () => {
    const count = (query: string): number => dwellingsOf(new URLSearchParams(query));
    expect([count(''), count('units=4'), count('units=9'), count('form=two-to-four')]).toEqual([1, 4, 1, 2]);
  });

  it('leaves out what was not said', () => {
    expect(readParams(new URLSearchParams())).toEqual({
      parts: [{ name: 'main block' }],
      clues: [],
      client: [],
      visit: {},
    });
  });

  it('takes any text without throwing, and gives one to six parts', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.string(), fc.string())),
        fc.integer({ min: 2, max: 9 }),
        (pairs, n) => {
          const params = new URLSearchParams([...pairs, [`built.${n}`, '1950']]);
          const parts = readParams(params).parts.length;
          return parts >= 1 && parts <= 6 && partNumbers(params)[0] === 1;
        },
      ),
    );
  });

  it('ties a problem to the field that holds the value', () => {
    const params = new URLSearchParams('built=1913&built.2=long+ago&area=big&clue=rewired&year.rewired=');
    const at = (option: string, value: string, accepted = ''): string =>
      keyOfProblem({ option, value, accepted, nearest: null }, params);
    expect(at('built', 'long ago')).toBe('built.2');
    expect(at('area', 'NaN')).toBe('area');
    expect(at('clue unit', 'fuses-seen#3')).toBe('unit.fuses-seen');
    expect(at('clue', 'rewired', 'rewired=YEAR: this clue needs the year it gives')).toBe('year.rewired');
  });

  it('says what is wrong in one sentence and offers the nearest', () => {
    expect(
      problemInWords(
        { option: 'place', value: 'Kentuky', accepted: 'a state code', nearest: 'Kentucky' },
        'Kentuky',
      ),
    ).toBe('“Kentuky” is not understood here. Give a state code. Did you mean Kentucky?');
  });
});
