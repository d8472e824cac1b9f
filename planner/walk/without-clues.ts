import type { BaseIndex } from '../base-index.ts';
import { believe } from '../belief/believe.ts';
import { judge } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { knownStates } from '../known-states.ts';
import { AT_ONCE, chooseChecks, type Ladder } from './choose.ts';
import { pose } from './pose.ts';
import type { Problem, Task } from './problem.ts';
import { Search } from './search.ts';

/** Walks of a house of which no clue has been met. */
interface Kept {
  tasks: Task[];
  ladder: Ladder | null;
}

const kept = new WeakMap<BaseIndex, Map<string, Kept>>();
/** Houses and visits kept at once. */
const MOST_KEPT = 8;

/** The walks of the same house and visit without its clues. A clue moves odds, seldom the checks there are: its walk is
 * sought from there, so that it stays as it was unless a change is worth something. They are worked out if they are not
 * known, so that the plan is the same whatever was planned before. Null if the clues changed the checks themselves. */
export function walksWithoutClues(index: BaseIndex, house: House, problem: Problem): Ladder | null {
  const plain = { ...house, clues: [] };
  const { tasks, ladder } = keptOf(index).get(keyOf(plain)) ?? workOut(index, plain);
  return sameChecks(tasks, problem.tasks) ? ladder : null;
}

/** Keeps the walks of a house without clues for the plans that its clues lead to. */
export function keepWalks(index: BaseIndex, house: House, { tasks }: Problem, ladder: Ladder | null): Kept {
  const houses = keptOf(index);
  if (houses.size >= MOST_KEPT) houses.clear();
  const made = { tasks, ladder };
  houses.set(keyOf(house), made);
  return made;
}

function workOut(index: BaseIndex, house: House): Kept {
  const conditions = judge(index, house, knownStates(index, house, believe(index, house)));
  const { problem } = pose(index, house, conditions);
  const chosen = chooseChecks(new Search(problem), house.visit.minutes, AT_ONCE);
  return keepWalks(index, house, problem, chosen?.ladder ?? null);
}

function keptOf(index: BaseIndex): Map<string, Kept> {
  const houses = kept.get(index) ?? new Map<string, Kept>();
  kept.set(index, houses);
  return houses;
}

function keyOf(house: House): string {
  return JSON.stringify(house);
}

/** Whether two lists of one house and visit hold the same checks; these tell all but what they may find. */
function sameChecks(a: readonly Task[], b: readonly Task[]): boolean {
  return a.length === b.length && a.every((task, i) => task.id === b[i]?.id);
}
