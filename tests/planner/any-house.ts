import { join } from 'node:path';
import fc from 'fast-check';
import { FOUNDATIONS, FUELS, WALLS } from '../../knowledge/schema/words.ts';
import type { House, HouseInput } from '../../planner/house/house.ts';
import { resolveHouse } from '../../planner/index.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

/** The real base, read once for all planner tests. */
export const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));

const states = base.places.states.map((s) => s.code);
const undated = base.clues.filter((c) => c.dated === undefined).map((c) => c.id);
const dated = base.clues.filter((c) => c.dated !== undefined).map((c) => c.id);

const built = fc.oneof(
  fc.integer({ min: 1840, max: 1995 }).map(String),
  fc.integer({ min: 184, max: 198 }).map((d) => `${d}0s`),
  fc.constant('about 1900'),
  fc.constant('unknown'),
);

const clue = fc.oneof(
  fc.constantFrom(...undated).map((id) => ({ id })),
  fc.record({ id: fc.constantFrom(...dated), year: fc.integer({ min: 1930, max: 2024 }) }),
);

/** Any house a person could describe: one or two parts, any place, team, weather and clues. */
export const anyInput: fc.Arbitrary<HouseInput> = fc.record({
  asOf: fc.constant(2026),
  place: fc.oneof(fc.constantFrom(...states), fc.constant('unknown')),
  form: fc.constantFrom('detached', 'row', 'two-to-four', 'unknown'),
  units: fc.integer({ min: 1, max: 4 }),
  fuel: fc.constantFrom(...FUELS, 'unknown'),
  parts: fc.array(
    fc.record({
      built,
      foundation: fc.constantFrom(...FOUNDATIONS, 'unknown'),
      walls: fc.constantFrom(...WALLS, 'unknown'),
      storeys: fc.integer({ min: 1, max: 3 }),
    }),
    { minLength: 1, maxLength: 2 },
  ),
  clues: fc.array(clue, { maxLength: 5 }),
  client: fc.subarray(['children', 'unsteady', 'thin-reserves', 'renovating']),
  visit: fc.record({
    minutes: fc.integer({ min: 60, max: 420 }),
    team: fc.integer({ min: 1, max: 4 }),
    outdoorF: fc.integer({ min: -5, max: 105 }),
  }),
}) as fc.Arbitrary<HouseInput>;

export function resolved(input: HouseInput): House {
  const result = resolveHouse(base, input);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return result.house;
}
