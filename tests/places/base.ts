import { join } from 'node:path';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { type Condition, judge } from '../../planner/condition/condition.ts';
import type { House, HouseInput } from '../../planner/house/house.ts';
import { resolveHouse } from '../../planner/house/resolve.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

export const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
export const index = indexBase(base);

export function houseOf(input: HouseInput): House {
  const read = resolveHouse(base, { asOf: 2026, ...input });
  if ('problems' in read) throw new Error(JSON.stringify(read.problems));
  return read.house;
}

/** A failure mode of a house, as the planner judges it. */
export function conditionOf(input: HouseInput, failure: string): Condition {
  const house = houseOf(input);
  const found = judge(index, house, believe(index, house)).find((c) => c.failure.id === failure);
  if (found === undefined) throw new Error(`${failure} is not judged for this house`);
  return found;
}
