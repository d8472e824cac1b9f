import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { Walk } from '../plan-types.ts';
import { Worth } from '../value/worth.ts';
import { upperBound } from './bound.ts';
import { AT_ONCE, type Chosen, chooseChecks, type Effort, MORE, REFINED } from './choose.ts';
import type { Choice } from './draft.ts';
import { pose } from './pose.ts';
import type { Problem } from './problem.ts';
import { Search } from './search.ts';
import type { Slot } from './simulate.ts';
import { writeStops } from './stops.ts';
import { survives } from './survives.ts';
import type { Tasks } from './tasks.ts';
import { keepWalks, walksWithoutClues } from './without-clues.ts';

/** Chooses the checks for the visit and puts them in order, at once. `conditions` are what judging this house gives: the walk
 * of a house without clues is kept for the plans that its clues lead to. */
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
  const near = house.clues.length === 0 ? null : walksWithoutClues(index, house, problem);
  const chosen = chooseChecks(search, house.visit.minutes, effort, near);
  if (chosen === null)
    throw new RangeError('the checks of this house wait for each other: see the rule "order"');
  if (house.clues.length === 0) keepWalks(index, house, problem, chosen.ladder);
  return writeWalk({ index, house, conditions, problem, made, search, chosen, effort });
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
