import type { BoundSteps } from './bound.ts';
import type { Choice } from './draft.ts';
import { Neighbourhood } from './neighbourhood.ts';
import { EVEN, type Search } from './search.ts';

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

/** How hard to search: steps for the first minute of the ladder, steps towards the least bound. */
export interface Effort {
  steps: number;
  bound: BoundSteps;
}

/** What is shown at once, and what a worker makes of it within a quarter of a second. */
export const AT_ONCE: Effort = { steps: 64, bound: { priced: 40, held: 7, mostStops: 12 } };
export const REFINED: Effort = { steps: 700, bound: { priced: 150, held: 40, mostStops: 14 } };

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
  return {
    feasible: true,
    minutesNeeded,
    best: search.tidy(at(minutes)),
    curve,
    longer: addTo(search, at(minutes), minutes + MORE),
  };
}

/** The choice with what adding alone puts into these minutes. */
export function addTo(search: Search, choice: Choice, minutes: number): Choice {
  const draft = search.draft(choice, minutes);
  search.fill(draft, EVEN);
  const length = search.settle(draft, minutes);
  return length === null || draft.margins.total() < choice.worth ? choice : search.choice(draft, length);
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
  const walks: Choice[] = [];
  const scale =
    (STEPS_FOR_TEAM[search.problem.team] ?? 1) *
    Math.max(1, FEW / Math.max(LEAST_MANY, search.optional.length)) ** 2;
  const best = search.draft(least, low);
  const around = new Neighbourhood(search, best, least.length, SEED);
  let choice = least;
  for (let budget = low; budget <= high; budget++) {
    if (budget > low) best.extend(1);
    const other = known?.[Math.min(budget - low, known.length - 1)];
    if (other !== undefined && other.worth > choice.worth + 1e-9) {
      around.restart(search.draft(other, budget), other.length);
      choice = other;
    }
    around.go(budget, Math.ceil((scale * steps) / (1 + (budget - low) / TAPER)));
    if (around.value > choice.worth + 1e-9 || around.length < choice.length - 1e-9)
      choice = search.choice(best, around.length);
    walks.push(choice);
    if (search.optional.every((i) => choice.chosen[i] === 1)) break;
  }
  return walks;
}

const SEED = 1_700;

/** A large team's walk is harder to choose, and its ladder has fewer rungs. */
const STEPS_FOR_TEAM = [1, 1, 1, 1.2, 2.2];

/** With fewer checks to choose from than this a step costs less, and there are more of them. */
const FEW = 50;
const LEAST_MANY = 10;

/** Minutes above what is needed after which a rung gets half the steps of the first. */
const TAPER = 12;
