import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ACCEPTED } from '../../planner/house/words.ts';
import { readHouse } from '../../src/house/read-house.ts';
import { schemaTexts } from '../../src/schemas/write-schemas.ts';

describe('published JSON Schemas', () => {
  it.each(Object.entries(schemaTexts()))('docs/%s is up to date (npm run schemas)', (name, text) => {
    expect(readFileSync(join(import.meta.dirname, '../../docs', name), 'utf8')).toBe(text);
  });
});

describe('house files', () => {
  const problem = (house: unknown) => {
    const read = readHouse(JSON.stringify(house));
    return 'problems' in read ? read.problems[0] : undefined;
  };

  it('takes a house with additions, clues and a visit', () => {
    const house = {
      schema: 'datestone.house/1',
      place: '40202',
      parts: [
        { built: 1913, foundation: 'piers' },
        { name: 'ell', built: '1950s' },
      ],
      clues: [{ id: 'rewired', year: 1998, part: 'ell' }],
      client: ['children'],
      visit: { minutes: 150, outdoorF: -10 },
    };
    expect(readHouse(JSON.stringify(house))).toEqual({ house });
  });

  it('says field, value, what is accepted and the nearest word', () => {
    expect(problem({ parts: [{ foundation: 'peers' }] })).toEqual({
      option: 'parts.0.foundation',
      value: 'peers',
      accepted: [...ACCEPTED.foundation, 'unknown'].join(', '),
      nearest: 'piers',
    });
    expect(problem({ parts: [{}], vist: {} })).toMatchObject({ value: 'vist', nearest: 'visit' });
    expect(problem({ parts: [{}], visit: { minuets: 5 } })).toMatchObject({
      value: 'minuets',
      nearest: 'minutes',
    });
    expect(problem({ parts: [] })).toMatchObject({ option: 'parts', accepted: '1 entries or more' });
    expect(problem({ parts: [{ storeys: 'two' }] })).toMatchObject({
      option: 'parts.0.storeys',
      value: 'two',
    });
    expect(problem([1])).toMatchObject({ accepted: 'an object' });
  });
});
