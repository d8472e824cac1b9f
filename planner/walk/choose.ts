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
  /** The walks that were found at once; null if none is feasible. */
  ladder: Ladder | null;
}

/** The walk of every budget, minute by minute; from the last on everything is in. */
export interface Ladder {
  /** Minutes of the first. */
  from: number;
  walks: readonly Choice[];
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
 * checks wait for each other. `near` holds good walks of the same tasks at other odds: from there few steps are enough. */
export function chooseChecks(
  search: Search,
  minutes: number,
  effort: Effort,
  near: Ladder | null = null,
): Chosen | null {
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
      ladder: null,
    };
  const tapering = (steps: number) => (budget: number) => steps / (1 + (budget - minutesNeeded) / TAPER);
  const whole = { steps: tapering(AT_ONCE.steps), sharesAnew: true, known: null };
  const short = { steps: (b: number) => (b % RUNG === 0 ? STEPS_NEAR : 0), sharesAnew: false, known: near };
  const quick = climb(search, least, minutesNeeded, minutes, near === null ? whole : short);
  const ladder =
    effort.steps > AT_ONCE.steps
      ? climb(search, least, minutesNeeded, minutes, {
          ...whole,
          steps: tapering(effort.steps),
          known: quick,
        })
      : quick;
  const at = (budget: number): Choice => walkAt(ladder, budget) ?? least;
  const budgets = [minutesNeeded, minutes];
  for (let b = Math.floor(minutesNeeded / RUNG + 1) * RUNG; b < minutes; b += RUNG) budgets.push(b);
  const curve = [...new Set(budgets)].sort((a, b) => a - b).map((b) => ({ minutes: b, worth: at(b).worth }));
  return {
    feasible: true,
    minutesNeeded,
    best: search.tidy(at(minutes)),
    curve,
    longer: addTo(search, at(minutes), minutes + MORE),
    ladder: quick,
  };
}

/** The choice with what adding alone puts into these minutes. */
export function addTo(search: Search, choice: Choice, minutes: number): Choice {
  const draft = search.draft(choice, minutes);
  search.fill(draft, EVEN);
  const length = search.settle(draft, minutes);
  return length === null || draft.margins.total() < choice.worth ? choice : search.choice(draft, length);
}

/** How a ladder is climbed. */
interface Way {
  /** Steps by budget, for a small team and many checks. */
  steps: (budget: number) => number;
  /** Whether a team's stops are shared out anew now and then. */
  sharesAnew: boolean;
  /** Walks of the same tasks to go on from where they are better. */
  known: Ladder | null;
}

/** Walks for every budget from `low` to `high` minutes; stops once everything is in. */
function climb(search: Search, least: Choice, low: number, high: number, way: Way): Ladder {
  const walks: Choice[] = [];
  const scale =
    (STEPS_FOR_TEAM[search.problem.team] ?? 1) *
    Math.max(1, FEW / Math.max(LEAST_MANY, search.optional.length)) ** 2;
  const best = search.draft(least, low);
  const other = search.blank();
  const around = new Neighbourhood(search, best, least.length, SEED);
  let choice = least;
  for (let budget = low; budget <= high; budget++) {
    if (budget > low) best.extend(1);
    const offered = way.known === null ? undefined : walkAt(way.known, budget);
    if (offered !== undefined && best.margins.worthOf(offered.chosen) > around.value + 1e-9) {
      other.load(offered);
      const length = other.read(search.clock, budget);
      if (length <= budget + 1e-9) around.restart(other, length);
    }
    around.go(budget, Math.ceil(scale * way.steps(budget)), way.sharesAnew);
    if (around.value > choice.worth + 1e-9 || around.length < choice.length - 1e-9)
      choice = search.choice(best, around.length);
    walks.push(choice);
    if (search.optional.every((i) => choice.chosen[i] === 1)) break;
  }
  return { from: low, walks };
}

/** The ladder's walk for these minutes. */
function walkAt({ from, walks }: Ladder, budget: number): Choice | undefined {
  return walks[Math.min(Math.max(0, budget - from), walks.length - 1)];
}

const SEED = 1_700;

/** A large team's walk is harder to choose, and its ladder has fewer rungs. */
const STEPS_FOR_TEAM = [1, 1, 1, 1.2, 2.2];

/** With fewer checks to choose from than this a step costs less, and there are more of them. */
const FEW = 50;
const LEAST_MANY = 10;

/** Minutes above what is needed after which a rung gets half the steps of the first. */
const TAPER = 12;

/** Steps at every RUNG minutes of a ladder that sets out from walks that were good at other odds; at the minutes between,
 * the better walk is only filled up. */
const STEPS_NEAR = 16;
