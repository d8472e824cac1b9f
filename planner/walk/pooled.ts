import { type LeastWalking, leastWalkAlone, leastWalkTogether } from './paths.ts';
import { fixedTasks, type Problem, peopleFor } from './problem.ts';

/** The walk of a relaxed problem where the minutes of all people are one pool, and a minute has a price: the best set of
 * stops to enter, each with every check that pays for its minutes. */
export class Pooled {
  /** Minutes that the checks always done leave of the pool. */
  readonly room: number;
  /** Minutes spent by the walk weighed last. */
  spent = 0;
  /** Minutes of the pool that each task takes. */
  readonly cost: Float64Array;
  readonly #optional: number[];
  readonly #stopOf: number[];
  readonly #always: Set<number>;
  readonly #free: number[];
  /** By stop: its bit in the sets of free stops. */
  readonly #bit: Int32Array;
  /** [people who stay][set of free stops]: walking and opening, and the minutes that those who stay leave unused. */
  readonly #sets: Float64Array[];
  readonly #at: Float64Array;

  /** `known` is the walking that a team can't do without, if it has been worked out already. */
  constructor(problem: Problem, minutes: number, optional: number[], known: LeastWalking | null) {
    const { tasks, team, begin, geometry, block } = problem;
    const fixed = fixedTasks(problem);
    const isTogether = (i: number): boolean => block[i] === 'arrival' || block[i] === 'closing';
    const held = new Set([...fixed, ...begin.done.keys()]);
    // Optional work together takes the time of one person at least, however many are out.
    this.cost = Float64Array.from(
      tasks,
      (t, i) => t.minutes * (isTogether(i) && !held.has(i) ? 1 : peopleFor(problem, i)),
    );
    this.#optional = optional;
    this.#stopOf = tasks.map((t) => t.stop);
    this.#at = new Float64Array(geometry.stops.length);
    this.#always = new Set([...begin.opened, ...fixed.map((i) => tasks[i]?.stop ?? 0)]);
    const sometimes = [...new Set(optional.map((i) => tasks[i]?.stop ?? 0))].filter(
      (s) => !this.#always.has(s),
    );
    const inTheMiddle = begin.done.size > 0;
    const owned = new Set(problem.owned);
    const always = inTheMiddle ? [] : [...this.#always].filter((s) => owned.has(s));
    sometimes.sort((a, b) => a - b);
    const walking =
      known ??
      (team === 1 && !inTheMiddle
        ? leastWalkAlone(problem, always, sometimes)
        : leastWalkTogether(problem, always, sometimes));
    this.#free = walking.free;
    this.#bit = new Int32Array(geometry.stops.length);
    walking.free.forEach((s, b) => {
      this.#bit[s] = 1 << b;
    });
    const open = Float64Array.from({ length: 1 << walking.free.length }, (_, set) =>
      walking.free.reduce((sum, s, b) => sum + ((set & (1 << b)) === 0 ? 0 : (geometry.opening[s] ?? 0)), 0),
    );
    const together = fixed.reduce((sum, i) => sum + (isTogether(i) ? (tasks[i]?.minutes ?? 0) : 0), 0);
    this.#sets = inTheMiddle
      ? [open]
      : walking.minutes.map((sets, stay) =>
          sets.map((walk, set) => walk + (open[set] ?? 0) + stay * (minutes - together)),
        );
    for (const s of walking.uncounted) this.#always.add(s);
    let opened = 0;
    for (const s of this.#always)
      if (!begin.opened.has(s) && !walking.uncounted.includes(s)) opened += geometry.opening[s] ?? 0;
    this.room =
      team * minutes -
      begin.time.reduce((sum, t) => sum + t, 0) -
      fixed.reduce((sum, i) => sum + (this.cost[i] ?? 0), 0) -
      opened;
  }

  /** How many sets there are of the stops that may be entered or not. */
  get sets(): number {
    return 1 << this.#free.length;
  }

  /** Whether a stop is entered with this set of stops. */
  enters(set: number, stop: number): boolean {
    return this.#always.has(stop) || (set & (this.#bit[stop] ?? 0)) !== 0;
  }

  /** Walking and opening that one person can't do without to enter this set of stops. */
  walkFor(set: number): number {
    return this.#sets[0]?.[set] ?? 0;
  }

  /** The most that the pool earns at these values of checks and this price of a minute; sets `taken` to 1 for what is
   * done. */
  most(value: Float64Array, minutePrice: number, taken: Float64Array): number {
    const at = this.#at.fill(0);
    for (const i of this.#optional) {
      const gain = (value[i] ?? 0) - minutePrice * (this.cost[i] ?? 0);
      const stop = this.#stopOf[i] ?? 0;
      if (gain > 0) at[stop] = (at[stop] ?? 0) + gain;
    }
    let held = minutePrice * this.room;
    for (const s of this.#always) held += at[s] ?? 0;
    let best = 0;
    let bestSum = Number.NEGATIVE_INFINITY;
    for (let set = 0; set < 1 << this.#free.length; set++) {
      let gain = 0;
      for (let b = 0; b < this.#free.length; b++)
        if ((set & (1 << b)) !== 0) gain += at[this.#free[b] ?? 0] ?? 0;
      for (const sets of this.#sets) {
        const sum = gain - minutePrice * (sets[set] ?? 0);
        if (sum > bestSum) {
          bestSum = sum;
          best = set;
          this.spent = sets[set] ?? 0;
        }
      }
    }
    taken.fill(0);
    for (const i of this.#optional) {
      const pays =
        (value[i] ?? 0) > minutePrice * (this.cost[i] ?? 0) && this.enters(best, this.#stopOf[i] ?? 0);
      if (!pays) continue;
      taken[i] = 1;
      this.spent += this.cost[i] ?? 0;
    }
    return held + bestSum;
  }
}
