import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { Walk } from '../plan-types.ts';
import { Worth } from '../value/worth.ts';
import { upperBound } from './bound.ts';
import { AT_ONCE, type Chosen, chooseChecks, type Effort, MORE, REFINED } from './choose.ts';
import { HOT, OUTSIDE } from './day.ts';
import type { Choice } from './draft.ts';
import { makeGeometry } from './geometry.ts';
import { type Begin, makeProblem, type Problem } from './problem.ts';
import { Search } from './search.ts';
import type { Slot } from './simulate.ts';
import { writeStops } from './stops.ts';
import { survives } from './survives.ts';
import { makeTasks, type Tasks } from './tasks.ts';

/** Chooses the checks for the visit and puts them in order, at once. */
export function makeWalk(index: BaseIndex, house: House, conditions: Condition[]): Walk {
  return walkWith(index, house, conditions, AT_ONCE);
}

/** The same with a wider search and a tighter bound: for a worker, within a quarter of a second. */
export function refineWalk(index: BaseIndex, house: House, conditions: Condition[]): Walk {
  return walkWith(index, house, conditions, REFINED);
}

function walkWith(index: BaseIndex, house: House, conditions: Condition[], effort: Effort): Walk {
  const { problem, made } = pose(index, house, conditions);
  const search = new Search(problem);
  const chosen = chooseChecks(search, house.visit.minutes, effort);
  if (chosen === null)
    throw new RangeError('the checks of this house wait for each other: see the rule "order"');
  return writeWalk({ index, house, conditions, problem, made, search, chosen, effort });
}

/** The house's checks as a problem of choosing and timing. */
export function pose(
  index: BaseIndex,
  house: House,
  conditions: Condition[],
  shut: ReadonlyMap<string, string> = new Map(),
  begin?: (made: Tasks, at: ReadonlyMap<string, number>) => Begin,
): { problem: Problem; made: Tasks } {
  const geometry = makeGeometry(index.base.stops);
  const made = makeTasks(index, house, conditions, geometry.at, shut);
  const stop = (id: string): number => geometry.at.get(id) ?? -1;
  const problem = makeProblem({
    team: house.visit.team,
    trainees: house.visit.trainees,
    geometry,
    tasks: made.tasks,
    targets: made.targets,
    prefer: preferences(house).map(([a, b]): [number, number] => [stop(a), stop(b)]),
    ...(begin === undefined ? {} : { begin: begin(made, geometry.at) }),
  });
  return { problem, made };
}

const INSIDE = ['main-rooms', 'kitchen', 'baths', 'upper-rooms', 'attic', 'mechanical', 'panel', 'basement'];

/** Which stops come before which where nothing else decides: the outside while it is light, but an attic first on a
 * hot day. */
function preferences(house: House): [string, string][] {
  const { outdoorF, daylightMinutes, minutes } = house.visit;
  const dusk = daylightMinutes !== null && daylightMinutes < minutes;
  const hot = outdoorF !== null && outdoorF >= HOT;
  const outsideFirst = INSIDE.flatMap((room) => OUTSIDE.map((yard): [string, string] => [yard, room]));
  const usual: [string, string][] = [['street', 'exterior'], ['exterior', 'roof'], ...outsideFirst];
  if (!hot) return usual;
  const atticFirst = [...OUTSIDE, ...INSIDE].map((other): [string, string] => ['attic', other]);
  return dusk ? [...usual.filter(([, room]) => room !== 'attic')] : atticFirst;
}

interface Made {
  index: BaseIndex;
  house: House;
  conditions: Condition[];
  problem: Problem;
  made: Tasks;
  search: Search;
  chosen: Chosen;
  effort: Effort;
}

export function writeWalk({ index, house, conditions, problem, made, search, chosen, effort }: Made): Walk {
  const { best, feasible, minutesNeeded, curve } = chosen;
  const { minutes } = house.visit;
  const slots: Slot[] = [];
  search.clock.run(best.chosen, best.owner, slots);
  const bound = upperBound(problem, best, Math.max(minutes, minutesNeeded), effort.bound);
  const range = feasible ? survives(problem, best, conditions, house.client) : null;
  return {
    feasible,
    minutes,
    minutesNeeded,
    minutesUsed: Math.ceil(best.length - 1e-9),
    worth: round(best.worth, 3),
    bound: round(bound, 3),
    stops: writeStops(index, house, problem, made, slots),
    leftOut: leftOut(problem, made, best),
    curve: curve.map((c) => ({ minutes: c.minutes, worth: round(c.worth, 3) })),
    more: more(problem, chosen),
    survives: range === null ? null : round(range, 3),
    tools: toolsOf(index, made, best, house.visit.team),
  };
}

/** What MORE minutes would add to the walk. */
function more({ tasks }: Problem, { feasible, best, longer }: Chosen): Walk['more'] {
  const worth = round(longer.worth - best.worth, 3);
  const checks = tasks.flatMap((t, i) => (longer.chosen[i] === 1 && best.chosen[i] !== 1 ? [t.id] : []));
  return feasible && worth > 0 && checks.length > 0 ? { minutes: MORE, worth, checks } : null;
}

/** What the walk leaves out: the inspector's private list, most worth first. */
function leftOut({ tasks, targets, begin }: Problem, made: Tasks, best: Choice): Walk['leftOut'] {
  const worth = new Worth(targets, tasks);
  for (const i of begin.done.keys()) worth.add(i);
  best.chosen.forEach((c, i) => {
    if (c === 1) worth.add(i);
  });
  const out = made.checks.flatMap((check, i) =>
    best.chosen[i] === 1 || begin.done.has(i)
      ? []
      : [
          {
            check: check.id as string,
            title: check.title,
            minutes: tasks[i]?.minutes ?? check.minutes,
            worth: round(worth.gain(i), 3),
            why:
              check.scope === 'optional'
                ? 'the minutes go further elsewhere'
                : 'ask first whether the house has it',
            again: false,
          },
        ],
  );
  const notNow = made.notNow.map(({ check, why, again }) => ({
    check: check.id,
    title: check.title,
    minutes: check.minutes,
    worth: 0,
    why,
    again,
  }));
  return [...out.sort((a, b) => b.worth - a.worth || (a.check < b.check ? -1 : 1)), ...notNow];
}

function toolsOf(index: BaseIndex, made: Tasks, best: Choice, team: number): string[] {
  const tools = new Set<string>();
  const visited = new Set<string>();
  made.checks.forEach((check, i) => {
    if (best.chosen[i] !== 1) return;
    visited.add(check.stop);
    for (const tool of check.tools) tools.add(tool);
  });
  for (const stop of index.base.stops)
    if (visited.has(stop.id)) for (const tool of stop.openingTools) tools.add(tool);
  if (team > 1) tools.add('a way to call each other');
  return [...tools].sort();
}
