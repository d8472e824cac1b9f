import { Alone } from './alone.ts';
import type { Choice } from './draft.ts';
import { Modes } from './modes.ts';
import { Pooled } from './pooled.ts';
import { fixedTasks, type Problem } from './problem.ts';
import { Shares } from './shares.ts';

/** Steps towards the least bound: with a price on minutes, then with each person's minutes held; a team's minutes are held
 * where it has up to `mostStops` stops of its own. */
export interface BoundSteps {
  priced: number;
  held: number;
  mostStops: number;
}

/** No walk of these minutes is worth more than this.
 *
 * Each failure mode is given its own copy of the checks that find it, and agreement of the copies is priced. For every
 * choice of prices the maximum over the parts, each taken alone, is a bound (weak duality): subsets of a mode's checks,
 * and a walk that earns the prices of its checks. At first the minutes of all people are one pool and a minute has a
 * price too; then nobody may have more than the minutes of the visit. Prices start at what the plan itself pays at the
 * margin and follow Polyak's steps. What needs across stops and waits forbid is not counted. */
export function upperBound(problem: Problem, choice: Choice, minutes: number, steps: BoundSteps): number {
  return Math.max(choice.worth, new Relaxation(problem, choice, minutes, steps).descend(steps));
}

class Relaxation {
  readonly #goal: number;
  readonly #modes: Modes;
  readonly #pooled: Pooled;
  readonly #held: Alone | Shares | null;
  /** Sum of the prices of each check's copies, and the part of it that the best walk at these prices does. */
  readonly #value: Float64Array;
  readonly #taken: Float64Array;
  #minutePrice: number;

  constructor(problem: Problem, choice: Choice, minutes: number, steps: BoundSteps) {
    const { tasks, begin } = problem;
    const held = new Set([...fixedTasks(problem), ...begin.done.keys()]);
    const optional = tasks.flatMap((_, i) => (held.has(i) ? [] : [i]));
    this.#goal = choice.worth;
    this.#modes = new Modes(problem, choice, held, optional);
    const shares = Shares.of(problem, minutes, optional, steps.mostStops);
    this.#pooled = new Pooled(problem, minutes, optional, shares === null ? null : shares.walking);
    this.#held = shares ?? Alone.of(problem, this.#pooled, optional);
    this.#value = new Float64Array(tasks.length);
    this.#taken = new Float64Array(tasks.length);
    this.#minutePrice = this.#marginalRate(choice, optional);
  }

  /** Follows Polyak's steps to a low bound: first with a price on minutes, then with each person's minutes held. */
  descend(steps: BoundSteps): number {
    const priced = this.#follow(steps.priced, null);
    return this.#held === null ? priced : Math.min(priced, this.#follow(steps.held, this.#held));
  }

  #follow(iterations: number, held: Alone | Shares | null): number {
    const { price, slope } = this.#modes;
    let least = Number.POSITIVE_INFINITY;
    let pace = 1;
    let stale = 0;
    const best = price.slice();
    for (let k = 0; k < iterations; k++) {
      const { bound, over } = this.#weigh(held);
      if (bound < least - 1e-7) {
        least = bound;
        stale = 0;
        best.set(price);
      } else if (++stale >= PATIENCE) {
        pace /= 2;
        stale = 0;
      }
      const gap = bound - this.#goal;
      if (gap < 1e-6) break;
      let norm = (over * over) / (MINUTE_SCALE * MINUTE_SCALE);
      for (let p = 0; p < slope.length; p++) norm += (slope[p] ?? 0) * (slope[p] ?? 0);
      if (norm < 1e-12) break;
      const step = (pace * gap) / norm;
      this.#minutePrice = Math.max(0, this.#minutePrice - (step * over) / (MINUTE_SCALE * MINUTE_SCALE));
      for (let p = 0; p < price.length; p++) price[p] = Math.max(0, (price[p] ?? 0) - step * (slope[p] ?? 0));
    }
    price.set(best);
    return least;
  }

  /** The bound at these prices, and by how much it moves with the price of a minute. */
  #weigh(held: Alone | Shares | null): { bound: number; over: number } {
    this.#modes.sumPrices(this.#value);
    const walk =
      held === null
        ? this.#pooled.most(this.#value, this.#minutePrice, this.#taken)
        : held.most(this.#value, this.#taken);
    const over = held === null ? this.#pooled.room - this.#pooled.spent : 0;
    return { bound: walk + this.#modes.most(this.#taken), over };
  }

  /** What the least paying chosen check brings a minute: about what a minute is worth. */
  #marginalRate(choice: Choice, optional: number[]): number {
    this.#modes.sumPrices(this.#value);
    let least = Number.POSITIVE_INFINITY;
    let most = 0;
    for (const i of optional) {
      const rate = (this.#value[i] ?? 0) / Math.max(1, this.#pooled.cost[i] ?? 1);
      if (choice.chosen[i] === 1) least = Math.min(least, rate);
      else most = Math.max(most, rate);
    }
    return least === Number.POSITIVE_INFINITY ? most : (least + Math.min(least, most)) / 2;
  }
}

/** Iterations without a better bound after which steps are halved. */
const PATIENCE = 8;

/** Minutes that weigh in a step as much as one check's copy. */
const MINUTE_SCALE = 12;
