import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyOfProblem, partNumbers, problemInWords, readParams } from '../../src/plan-page/params.ts';

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
