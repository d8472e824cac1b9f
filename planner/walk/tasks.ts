import type { Entry } from '../../knowledge/schema/base.ts';
import type { Check } from '../../knowledge/schema/check.ts';
import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import type { House, Part } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { stakeOf } from '../value/stakes.ts';

/** A check made ready for this house. */
export interface Task {
  check: Entry<Check>;
  minutes: number;
  /** Always done: usual scope, or it guards life. */
  fixed: boolean;
  /** Indexes of tasks that must end before this one starts. */
  needs: number[];
  /** Tasks that must have ended so many minutes before. */
  waits: { after: number; minutes: number }[];
  /** Failure modes it may bring to light: index into `targets` and chance. */
  finds: { target: number; chance: number }[];
}

/** A failure mode of the house with what it is worth to bring it to light. */
export interface Target {
  failure: string;
  worth: number;
}

export interface Tasks {
  tasks: Task[];
  targets: Target[];
  /** Checks that this visit can't do, and why. */
  notNow: { check: Entry<Check>; why: string }[];
}

/** Odds below which a check's place or subject is taken as not being in this house. */
const NOT_HERE = 0.05;

/** Checks that this house and this visit have, with the worth of what they find. */
export function makeTasks(index: BaseIndex, house: House, conditions: Condition[]): Tasks {
  const targets = makeTargets(conditions, house.client);
  const targetOf = new Map(targets.map((t, i) => [t.failure, i]));
  const stops = new Map<string, (typeof index.base.stops)[number]>(index.base.stops.map((s) => [s.id, s]));
  const notNow: Tasks['notNow'] = [];
  const chosen: Entry<Check>[] = [];
  for (const check of index.base.checks) {
    const stopOdds = bestOdds(house, (part) => whenOdds(stops.get(check.stop)?.when, house, part));
    const odds = stopOdds * bestOdds(house, (part) => whenOdds(check.when, house, part));
    const frame = check.phase === 'arrival' || check.phase === 'closing';
    const subject = check.finds.some((f) => targetOf.has(f.failure));
    if (odds < NOT_HERE || (!subject && !frame)) continue;
    const why = reasonNotNow(check, house);
    if (why === null) chosen.push(check);
    else notNow.push({ check, why });
  }
  const at = new Map(chosen.map((check, i) => [check.id, i]));
  const known = (ids: string[]): number[] => ids.flatMap((id) => at.get(id) ?? []);
  const tasks = chosen.map((check) => ({
    check,
    minutes: check.minutes * times(check.each, house),
    fixed: check.scope !== 'optional',
    needs: known(check.needs),
    waits: check.waits.flatMap((w) => known([w.after]).map((after) => ({ after, minutes: w.minutes }))),
    finds: check.finds.flatMap(({ failure, sensitivity }) => {
      const target = targetOf.get(failure);
      return target === undefined ? [] : [{ target, chance: sensitivity }];
    }),
  }));
  return { tasks, targets, notNow };
}

/** One target a failure mode: in a house of several parts it is there if any part has it. */
function makeTargets(conditions: Condition[], client: string[]): Target[] {
  const none = new Map<string, { stake: number; without: number }>();
  for (const c of conditions) {
    const entry = none.get(c.failure.id) ?? { stake: stakeOf(c.failure, client), without: 1 };
    entry.without *= 1 - c.probability;
    none.set(c.failure.id, entry);
  }
  return [...none].flatMap(([failure, { stake, without }]) =>
    without < 0.9995 ? [{ failure, worth: stake * (1 - without) }] : [],
  );
}

function bestOdds(house: House, odds: (part: Part) => number): number {
  return 1 - house.parts.reduce((none, part) => none * (1 - odds(part)), 1);
}

function times(each: Check['each'], house: House): number {
  switch (each) {
    case 'house':
      return 1;
    case 'part':
      return house.parts.length;
    case 'unit':
      return house.units;
    case 'storey':
      return house.parts.reduce((sum, part) => sum + part.storeys, 0);
  }
}

/** Outdoors at or above this, cooling may run and heat stays off; heat and cooling never both in one visit. */
const COOLING_WEATHER = 75;

/** Why a check has to wait for another visit, or null. */
function reasonNotNow(check: Entry<Check>, house: House): string | null {
  const { outdoorF, team } = house.visit;
  if (check.runs !== undefined && house.utilities === 'off')
    return 'utilities are off: closed valves and tripped breakers stay as they are; this needs a return visit';
  if (check.people === 2 && team < 2) return 'it takes two people';
  if (check.runs === 'cooling' && outdoorF === null)
    return 'the outdoor temperature is not given; cooling is not run on a guess';
  if (check.runs === 'cooling' && outdoorF !== null && outdoorF < COOLING_WEATHER)
    return `heat and cooling are not both run in one visit, and at ${outdoorF} F heat is run`;
  if (check.runs === 'heat' && outdoorF !== null && outdoorF >= COOLING_WEATHER)
    return `at ${outdoorF} F outdoors cooling is run and heat is left off`;
  if (outdoorF !== null && check.outdoorF?.min !== undefined && outdoorF < check.outdoorF.min)
    return `it is not run below ${check.outdoorF.min} F outdoors`;
  if (outdoorF !== null && check.outdoorF?.max !== undefined && outdoorF > check.outdoorF.max)
    return `it is not run above ${check.outdoorF.max} F outdoors`;
  return null;
}
