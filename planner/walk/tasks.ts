import type { Entry } from '../../knowledge/schema/base.ts';
import type { Check } from '../../knowledge/schema/check.ts';
import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import type { House, Part } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { stakeOf } from '../value/stakes.ts';
import { isFirstDraw, type NotNow, reasonNotNow } from './day.ts';
import type { Target, Task } from './problem.ts';

export interface Tasks {
  tasks: Task[];
  /** The check behind each task. */
  checks: Entry<Check>[];
  targets: Target[];
  /** Checks that this visit leaves out whatever the minutes, and why. */
  notNow: ({ check: Entry<Check> } & NotNow)[];
}

/** Odds below which a check's place or subject is taken as not being in this house. */
const NOT_HERE = 0.05;

/** Where it is less likely than this that the house has what a check is about (a well, a septic tank), the check is
 * not held a fixed part of the scope: ask first, and it counts by its worth. */
const PROBABLY_HERE = 0.5;

/** Checks that this house and this visit have, with the worth of what they find. `shut` names checks that turned out
 * to be impossible (a gate, a refusal), with the reason. */
export function makeTasks(
  index: BaseIndex,
  house: House,
  conditions: Condition[],
  stopAt: ReadonlyMap<string, number>,
  shut: ReadonlyMap<string, string> = new Map(),
): Tasks {
  const targets = makeTargets(conditions, house.client);
  const targetOf = new Map(targets.map((t, i) => [t.failure, i]));
  const stops = new Map<string, (typeof index.base.stops)[number]>(index.base.stops.map((s) => [s.id, s]));
  const here: { check: Entry<Check>; odds: number }[] = [];
  const oddsOfStop = new Map(
    [...stops].map(([id, stop]) => [id, bestOdds(house, (part) => whenOdds(stop.when, house, part))]),
  );
  for (const check of index.base.checks) {
    const stopOdds = oddsOfStop.get(check.stop) ?? 1;
    const odds = stopOdds * bestOdds(house, (part) => whenOdds(check.when, house, part));
    const frame = check.phase === 'arrival' || check.phase === 'closing';
    const subject = check.finds.some((f) => targetOf.has(f.failure));
    if (odds >= NOT_HERE && (subject || frame)) here.push({ check, odds });
  }
  const out = leaveOut(
    here.map((h) => h.check),
    house,
    shut,
  );
  const chosen = here.filter(({ check }) => !out.has(check.id));
  const at = new Map(chosen.map(({ check }, i) => [check.id, i]));
  const known = (ids: readonly string[]): number[] => ids.flatMap((id) => at.get(id) ?? []);
  const pinned = new Set(house.walk.pin);
  const { team } = house.visit;
  const firstDraw = chosen.flatMap(({ check }, i) => (isFirstDraw(check) ? [i] : []));
  const stillWater = chosen.flatMap(({ check }, i) => (isStill(check, team) ? [i] : []));
  const tasks = chosen.map(
    ({ check, odds }): Task => ({
      id: check.id,
      stop: stopAt.get(check.stop) ?? 0,
      phase: phaseAt(check, team),
      minutes: check.minutes * times(check.each, house),
      people: check.people,
      guided: check.hazard !== undefined && !house.visit.signedOff.includes(check.hazard),
      fixed: (check.scope !== 'optional' && odds >= PROBABLY_HERE) || pinned.has(check.id),
      needs: known(check.needs),
      follows: isStill(check, team) ? firstDraw : usesWater(check) ? [...firstDraw, ...stillWater] : [],
      waits: check.waits.flatMap((w) => known([w.after]).map((after) => ({ after, minutes: w.minutes }))),
      finds: check.finds.flatMap(({ failure, sensitivity }) => {
        const target = targetOf.get(failure);
        return target === undefined ? [] : [{ target, chance: sensitivity }];
      }),
    }),
  );
  const notNow = here.flatMap(({ check }) => {
    const why = out.get(check.id);
    return why === undefined ? [] : [{ check, ...why }];
  });
  return { tasks, checks: chosen.map((c) => c.check), targets, notNow };
}

/** Checks that this visit can't or shan't do: of themselves, or because one that they need is left out. */
function leaveOut(
  checks: Entry<Check>[],
  house: House,
  shut: ReadonlyMap<string, string>,
): Map<string, NotNow> {
  const out = new Map<string, NotNow>();
  const dropped = new Set(house.walk.drop);
  for (const guard of guarding(checks)) dropped.delete(guard);
  for (const check of checks) {
    const refused = shut.get(check.id);
    const reason = refused === undefined ? reasonNotNow(check, house) : { why: refused, again: true };
    if (reason !== null) out.set(check.id, reason);
    else if (dropped.has(check.id)) out.set(check.id, { why: 'you dropped it', again: false });
  }
  const titles = new Map<string, string>(checks.map((c) => [c.id, c.title]));
  for (let more = true; more; ) {
    more = false;
    for (const check of checks) {
      const missing = check.needs.find((need) => out.has(need));
      const why = missing === undefined ? undefined : out.get(missing);
      if (out.has(check.id) || missing === undefined || why === undefined) continue;
      out.set(check.id, {
        why: `it comes after "${titles.get(missing) ?? missing}", which is left out: ${why.why}`,
        again: why.again,
      });
      more = true;
    }
  }
  return out;
}

/** Checks that guard life and all that they need: nobody drops these. */
function guarding(checks: Entry<Check>[]): Set<string> {
  const byId = new Map<string, Entry<Check>>(checks.map((c) => [c.id, c]));
  const guards = new Set<string>(checks.flatMap((c) => (c.scope === 'life-safety' ? [c.id] : [])));
  for (const id of guards) for (const need of byId.get(id)?.needs ?? []) guards.add(need);
  return guards;
}

function usesWater(check: Check): boolean {
  return check.runs === 'water' || check.stop === 'baths';
}

/** Whether it keeps others from the water: one person alone keeps from it anyway. */
function isStill(check: Check, team: number): boolean {
  return check.still === 'water' && team > 1;
}

/** With a team, what needs the water still belongs to the lead's round, before anybody runs any. */
function phaseAt(check: Check, team: number): Check['phase'] {
  if (check.stop === 'arrival') return 'arrival';
  if (check.stop === 'closing') return 'closing';
  if (check.stop === 'crawl') return 'last';
  if (isStill(check, team)) return 'start-up';
  return check.phase;
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
