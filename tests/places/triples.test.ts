import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { COASTS, FOUNDATIONS, ROOFS, WALLS } from '../../knowledge/schema/words.ts';
import { conditionOf } from './base.ts';

const Triples = z.array(
  z.strictObject({
    name: z.string(),
    failure: z.string(),
    house: z.strictObject({
      built: z.number(),
      foundation: z.enum(FOUNDATIONS).exactOptional(),
      walls: z.enum(WALLS).exactOptional(),
      roof: z.enum(ROOFS).exactOptional(),
    }),
    place: z.string(),
    coast: z.enum(COASTS).exactOptional(),
    than: z.string(),
    thanCoast: z.enum(COASTS).exactOptional(),
    ratio: z.number().gt(1),
  }),
);
const triples = Triples.parse(parse(readFileSync(join(import.meta.dirname, 'triples.yaml'), 'utf8')));

describe('the same house fails otherwise in another place', () => {
  it('there are at least ten, and the four that the issue names are among them', () => {
    expect(triples.length).toBeGreaterThanOrEqual(10);
    expect(triples.map((t) => t.place)).toEqual(expect.arrayContaining(['VT', 'KS', 'GA', 'OR']));
  });

  it.each(triples)('$name: $failure', ({ failure, house, place, coast, than, thanCoast, ratio }) => {
    const odds = (where: string, shore: (typeof COASTS)[number] | undefined): number => {
      const input = { place: where, parts: [house], ...(shore === undefined ? {} : { coast: shore }) };
      const { probability } = conditionOf(input, failure);
      return probability / (1 - probability);
    };
    expect(odds(place, coast) / odds(than, thanCoast)).toBeGreaterThan(ratio);
  });
});
