import { Worth } from '../value/worth.ts';
import { leastWalking } from './paths.ts';
import { fixedTasks, type Problem, peopleFor } from './problem.ts';
import type { Choice } from './search.ts';
import { Shares } from './shares.ts';

/** Checks of one failure mode whose subsets are weighed one by one; more are weighed in groups of this size, which
 * can only raise the bound. */
const MOST_TOGETHER = 8;

/** Steps towards the least bound: with a price on minutes, then with the stops shared out. */
export interface BoundSteps {
  priced: number;
  shared: number;
}

/** A failure mode, or a group of its checks: what is left of its worth, and the checks that may find it. */
interface Mode {
  left: number;
  checks: number[];
  chances: number[];
  /** Price of each check's copy in this mode: where in the list of prices. */
  at: number[];
}

/** No walk of these minutes is worth more than this.
 *
 * Any walk spends at most team x minutes on checks, openings and walking. Each failure mode is given its own copy of
 * the checks that find it, agreement of the copies is priced (mu), and so is a minute (lambda). For every choice of
 * prices the maximum over the parts, each taken alone, is a bound (weak duality): subsets of a mode's checks, and sets
 * of stops entered. The prices start at what the plan itself pays at the margin and follow Polyak's steps. What needs
 * and waits forbid is not counted. */
export function upperBound(problem: Problem, choice: Choice, minutes: number, steps: BoundSteps): number {
  return Math.max(choice.worth, new Relaxation(problem, choice, minutes).descend(steps));
}

class Relaxation {
  readonly #goal: number;
  readonly #base: number;
  readonly #room: number;
  readonly #modes: Mode[] = [];
  readonly #optional: number[];
  readonly #cost: Float64Array;
  readonly #price: Float64Array;
  readonly #slope: Float64Array;
  readonly #shares: Shares | null;
  /** The part of each check that the best walk at these prices does. */
  readonly #taken: Float64Array;
  readonly #mass: Float64Array;
  readonly #stopOf: number[];
  readonly #always: Set<number>;
  readonly #free: number[];
  /** [people out - 1][set of free stops]: walking, less the minutes that so few people leave unused. */
  readonly #setWalk: Float64Array[];
  readonly #setOpen: Float64Array;
  readonly #opening: number[];
  #minutePrice = 0;

  constructor(problem: Problem, choice: Choice, minutes: number) {
    const { tasks, targets, team, begin, geometry } = problem;
    const fixed = fixedTasks(problem);
    const held = new Set([...fixed, ...begin.done.keys()]);
    const worth = new Worth(targets, tasks);
    for (const i of held) worth.add(i);
    this.#goal = choice.worth;
    this.#base = worth.total;
    this.#optional = tasks.flatMap((_, i) => (held.has(i) ? [] : [i]));
    // Optional work together takes the time of one person at least, however many are out.
    this.#cost = Float64Array.from(
      tasks,
      (t, i) => t.minutes * (isTogether(problem, i) && !held.has(i) ? 1 : peopleFor(problem, i)),
    );
    this.#stopOf = tasks.map((t) => t.stop);
    this.#opening = geometry.opening;
    this.#shares = Shares.of(problem, minutes, this.#optional);
    this.#taken = new Float64Array(tasks.length);
    this.#mass = new Float64Array(tasks.length);

    this.#always = new Set([...begin.opened, ...fixed.map((i) => tasks[i]?.stop ?? 0)]);
    const sometimes = [...new Set(this.#optional.map((i) => tasks[i]?.stop ?? 0))].filter(
      (s) => !this.#always.has(s),
    );
    const inTheMiddle = begin.done.size > 0;
    const walking = leastWalking(
      geometry,
      inTheMiddle ? [] : [...this.#always].filter((s) => s !== problem.door && s !== problem.end),
      sometimes.sort((a, b) => a - b),
      { door: problem.door, end: problem.end, team },
    );
    this.#free = walking.free;
    const together = fixed.reduce(
      (sum, i) => sum + (isTogether(problem, i) ? (tasks[i]?.minutes ?? 0) : 0),
      0,
    );
    this.#setOpen = Float64Array.from({ length: 1 << walking.free.length }, (_, set) =>
      walking.free.reduce((sum, s, b) => sum + ((set & (1 << b)) === 0 ? 0 : (geometry.opening[s] ?? 0)), 0),
    );
    this.#setWalk = inTheMiddle
      ? [new Float64Array(this.#setOpen.length)]
      : walking.minutes.map((sets, p) => sets.map((m) => m + (team - p - 1) * (minutes - together)));
    for (const s of walking.uncounted) this.#always.add(s);

    let opened = 0;
    for (const s of this.#always)
      if (!begin.opened.has(s) && !walking.uncounted.includes(s)) opened += geometry.opening[s] ?? 0;
    this.#room =
      team * minutes -
      begin.time.reduce((sum, t) => sum + t, 0) -
      fixed.reduce((sum, i) => sum + (this.#cost[i] ?? 0), 0) -
      opened;

    const finders: { i: number; chance: number }[][] = targets.map(() => []);
    for (const i of this.#optional)
      for (const { target, chance } of tasks[i]?.finds ?? [])
        if (chance > 0) finders[target]?.push({ i, chance });
    let prices = 0;
    const start: number[] = [];
    targets.forEach((target, j) => {
      const left = target.worth * worth.missed(j);
      const list = left > 1e-12 ? (finders[j] ?? []) : [];
      const missedNow = list.reduce((p, f) => (choice.chosen[f.i] === 1 ? p * (1 - f.chance) : p), left);
      for (let from = 0; from < list.length; from += MOST_TOGETHER) {
        const part = list.slice(from, from + MOST_TOGETHER);
        this.#modes.push({
          left,
          checks: part.map((f) => f.i),
          chances: part.map((f) => f.chance),
          at: part.map(() => prices++),
        });
        for (const f of part) {
          const others = choice.chosen[f.i] === 1 ? missedNow / Math.max(1e-9, 1 - f.chance) : missedNow;
          start.push(f.chance < 1 ? others * f.chance : left);
        }
      }
    });
    this.#price = Float64Array.from(start);
    this.#slope = new Float64Array(start.length);
    this.#minutePrice = this.#marginalRate(choice);
  }

  /** Follows Polyak's steps to a low bound: first with a price on minutes, then, where a team's stops have to be
   * shared out, with each person's minutes held. */
  descend(steps: BoundSteps): number {
    const priced = this.#follow(steps.priced, null);
    return this.#shares === null ? priced : Math.min(priced, this.#follow(steps.shared, this.#shares));
  }

  #follow(iterations: number, shares: Shares | null): number {
    let least = Number.POSITIVE_INFINITY;
    let pace = 1;
    let stale = 0;
    const best = this.#price.slice();
    for (let k = 0; k < iterations; k++) {
      const { bound, over } = this.#weigh(shares);
      if (bound < least - 1e-7) {
        least = bound;
        stale = 0;
        best.set(this.#price);
      } else if (++stale >= PATIENCE) {
        pace /= 2;
        stale = 0;
      }
      const gap = bound - this.#goal;
      if (gap < 1e-6) break;
      let norm = (over * over) / (MINUTE_SCALE * MINUTE_SCALE);
      for (const s of this.#slope) norm += s * s;
      if (norm < 1e-12) break;
      const step = (pace * gap) / norm;
      this.#minutePrice = Math.max(0, this.#minutePrice - (step * over) / (MINUTE_SCALE * MINUTE_SCALE));
      for (let p = 0; p < this.#price.length; p++)
        this.#price[p] = Math.max(0, (this.#price[p] ?? 0) - step * (this.#slope[p] ?? 0));
    }
    this.#price.set(best);
    return least;
  }

  /** The bound at these prices, and by how much it moves with the price of a minute; with each copy's: `#slope`. */
  #weigh(shares: Shares | null): { bound: number; over: number } {
    const lambda = shares === null ? this.#minutePrice : 0;
    for (const i of this.#optional) this.#mass[i] = -lambda * (this.#cost[i] ?? 0);
    for (const mode of this.#modes)
      for (let k = 0; k < mode.checks.length; k++) {
        const i = mode.checks[k] ?? 0;
        this.#mass[i] = (this.#mass[i] ?? 0) + (this.#price[mode.at[k] ?? 0] ?? 0);
      }
    let bound = this.#base;
    let over = 0;
    if (shares === null) {
      const outer = this.#bestStops(lambda);
      bound += lambda * this.#room + outer.value;
      over = this.#room - outer.spent;
    } else bound += shares.most(this.#mass, this.#taken);
    for (const mode of this.#modes) bound += this.#bestChecks(mode);
    return { bound, over };
  }

  /** The set of stops worth most at these prices, each with every check whose copies pay for its minutes. */
  #bestStops(lambda: number): { value: number; spent: number } {
    const at = new Float64Array(this.#opening.length);
    for (const i of this.#optional) {
      const mass = this.#mass[i] ?? 0;
      const stop = this.#stopOf[i] ?? 0;
      if (mass > 0) at[stop] = (at[stop] ?? 0) + mass;
    }
    let value = 0;
    for (const s of this.#always) value += at[s] ?? 0;
    let best = 0;
    let bestSum = Number.NEGATIVE_INFINITY;
    let bestWalk = 0;
    for (let set = 0; set < this.#setOpen.length; set++) {
      let mass = 0;
      for (let b = 0; b < this.#free.length; b++)
        if ((set & (1 << b)) !== 0) mass += at[this.#free[b] ?? 0] ?? 0;
      for (const sets of this.#setWalk) {
        const walk = (sets[set] ?? 0) + (this.#setOpen[set] ?? 0);
        const sum = mass - lambda * walk;
        if (sum > bestSum) {
          bestSum = sum;
          best = set;
          bestWalk = walk;
        }
      }
    }
    const entered = new Set(this.#always);
    this.#free.forEach((s, b) => {
      if ((best & (1 << b)) !== 0) entered.add(s);
    });
    let spent = bestWalk;
    for (const i of this.#optional) {
      const take = (this.#mass[i] ?? 0) > 0 && entered.has(this.#stopOf[i] ?? 0);
      this.#taken[i] = take ? 1 : 0;
      if (take) spent += this.#cost[i] ?? 0;
    }
    return { value: value + bestSum, spent };
  }

  /** The subset of a mode's checks worth most at their prices; sets the slopes of those prices. */
  #bestChecks(mode: Mode): number {
    const n = mode.checks.length;
    const missed = SUBSETS_MISSED;
    const paid = SUBSETS_PAID;
    missed[0] = 1;
    paid[0] = 0;
    let best = 0;
    let bestValue = 0;
    for (let k = 0, size = 1; k < n; k++, size *= 2) {
      const keep = 1 - (mode.chances[k] ?? 0);
      const price = this.#price[mode.at[k] ?? 0] ?? 0;
      for (let z = 0; z < size; z++) {
        const m = (missed[z] ?? 1) * keep;
        const p = (paid[z] ?? 0) + price;
        missed[z + size] = m;
        paid[z + size] = p;
        const value = mode.left * (1 - m) - p;
        if (value > bestValue) {
          bestValue = value;
          best = z + size;
        }
      }
    }
    for (let k = 0; k < n; k++)
      this.#slope[mode.at[k] ?? 0] = (this.#taken[mode.checks[k] ?? 0] ?? 0) - ((best >> k) & 1);
    return bestValue;
  }

  /** What the least paying chosen check brings a minute: about what a minute is worth. */
  #marginalRate(choice: Choice): number {
    const gain = new Map<number, number>();
    for (const mode of this.#modes)
      mode.checks.forEach((i, k) => {
        gain.set(i, (gain.get(i) ?? 0) + (this.#price[mode.at[k] ?? 0] ?? 0));
      });
    const rates = this.#optional.map((i) => ({
      rate: (gain.get(i) ?? 0) / Math.max(1, this.#cost[i] ?? 1),
      chosen: choice.chosen[i] === 1,
    }));
    const least = Math.min(...rates.filter((r) => r.chosen).map((r) => r.rate), Number.POSITIVE_INFINITY);
    const most = Math.max(0, ...rates.filter((r) => !r.chosen).map((r) => r.rate));
    return least === Number.POSITIVE_INFINITY ? most : (least + Math.min(least, most)) / 2;
  }
}

function isTogether(problem: Problem, i: number): boolean {
  return problem.block[i] === 'arrival' || problem.block[i] === 'closing';
}

const SUBSETS_MISSED = new Float64Array(1 << MOST_TOGETHER);
const SUBSETS_PAID = new Float64Array(1 << MOST_TOGETHER);

/** Iterations without a better bound after which steps are halved. */
const PATIENCE = 8;

/** Minutes that weigh in a step as much as one check's copy. */
const MINUTE_SCALE = 12;
