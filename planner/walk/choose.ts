import type { BoundSteps } from './bound.ts';
import { copy, searchAround } from './neighbourhood.ts';
import type { Choice, Search } from './search.ts';

/** What came of choosing: the walk for the minutes given, and what other minutes would bring. */
export interface Chosen {
  feasible: boolean;
  minutesNeeded: number;
  best: Choice;
  /** Worth against minutes, every RUNG minutes up to the minutes given. */
  curve: { minutes: number; worth: number }[];
  /** The walk of `MORE` minutes more, by adding alone. */
  longer: Choice;
}

/** How hard to search: steps a minute of the ladder, steps towards the least bound. */
export interface Effort {
  steps: number;
  bound: BoundSteps;
}

/** What is shown at once, and what a worker makes of it within a quarter of a second. */
export const AT_ONCE: Effort = { steps: 1, bound: { priced: 50, shared: 4 } };
export const REFINED: Effort = { steps: 8, bound: { priced: 150, shared: 40 } };

/** Every minute is tried, each budget from the walk of the budget below, so that more time is never worth less; the
 * curve shows one in so many. */
const RUNG = 5;

/** Minutes more for which the plan says what they would add. */
export const MORE = 40;

/** Required scope and life-safety checks always; of the rest the set worth most that fits the minutes. If the
 * fixed checks alone don't fit, they are all kept and the walk is not feasible: the house is never shaved. Null if
 * checks wait for each other. */
export function chooseChecks(search: Search, minutes: number, effort: Effort): Chosen | null {
  const least = search.least();
  if (least === null) return null;
  const minutesNeeded = Math.ceil(least.length - 1e-9);
  if (minutesNeeded > minutes)
    return {
      feasible: false,
      minutesNeeded,
      best: least,
      curve: [{ minutes: minutesNeeded, worth: least.worth }],
      longer: least,
    };
  const quick = climb(search, least, minutesNeeded, minutes, AT_ONCE.steps, null);
  const walks =
    effort.steps > AT_ONCE.steps ? climb(search, least, minutesNeeded, minutes, effort.steps, quick) : quick;
  const at = (budget: number): Choice => walks[Math.min(budget - minutesNeeded, walks.length - 1)] ?? least;
  const budgets = [minutesNeeded, minutes];
  for (let b = Math.floor(minutesNeeded / RUNG + 1) * RUNG; b < minutes; b += RUNG) budgets.push(b);
  const curve = [...new Set(budgets)].sort((a, b) => a - b).map((b) => ({ minutes: b, worth: at(b).worth }));
  const longer = copy(at(minutes));
  search.fill(longer, minutes + MORE);
  return { feasible: true, minutesNeeded, best: at(minutes), curve, longer };
}

/** The walk of every budget from `low` to `high` minutes; stops early once everything is in. `known` holds walks of
 * the same budgets to start from where they are better. */
function climb(
  search: Search,
  least: Choice,
  low: number,
  high: number,
  steps: number,
  known: Choice[] | null,
): Choice[] {
  const { tasks, begin, team } = search.problem;
  const perMinute = Math.round(steps * (STEPS_FOR_TEAM[team] ?? 1) * Math.max(1, SMALL / tasks.length) ** 3);
  const walks: Choice[] = [];
  let best = least;
  for (let budget = low; budget <= high; budget++) {
    const other = known?.[Math.min(budget - low, known.length - 1)];
    if (other !== undefined && search.value(other) > search.value(best) + 1e-9) best = other;
    const filled = copy(best);
    search.fill(filled, budget);
    if (search.value(filled) >= search.value(best) - 1e-9) best = filled;
    best = searchAround(search, best, budget, perMinute, SEED + budget);
    walks.push(best);
    if (best.chosen.reduce((sum, c) => sum + c, begin.done.size) >= tasks.length) break;
  }
  return walks;
}

const SEED = 1_700;

/** A team's walk is harder to choose, and its ladder has fewer rungs. */
const STEPS_FOR_TEAM = [1, 1, 2, 3, 4];

/** Fewer checks than this cost less a step, and get more steps. */
const SMALL = 80;
