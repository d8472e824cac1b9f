import type { Pooled } from './pooled.ts';
import type { Problem } from './problem.ts';

/** A task that the walk may hold, with those that can be done only if it is. */
interface Root {
  task: number;
  stop: number;
  minutes: number;
  children: { task: number; stop: number; minutes: number }[];
}

/** The walk of one person in a relaxed problem, its minutes held: the checks worth most that fit, whole, each with what
 * it needs. Exact, by dynamic programming over minutes, for each set of stops that may be best. */
export class Alone {
  readonly #pooled: Pooled;
  readonly #roots: Root[];
  readonly #items: { task: number; stop: number; minutes: number }[];
  /** Best earnings by minutes spent, and the same with the root that is being weighed. */
  readonly #sum: Float64Array;
  readonly #with: Float64Array;
  /** Whether each item is taken, by minutes spent. */
  readonly #take: Uint8Array[];

  private constructor(problem: Problem, pooled: Pooled, optional: number[]) {
    const { tasks, closure } = problem;
    const item = (i: number) => ({ task: i, stop: tasks[i]?.stop ?? 0, minutes: tasks[i]?.minutes ?? 0 });
    const isOptional = new Set(optional);
    const needs = (i: number): number[] => (closure[i] ?? []).filter((b) => b !== i && isOptional.has(b));
    const rootOf = (i: number): number => {
      const [need, ...more] = needs(i);
      return need !== undefined && more.length === 0 && needs(need).length === 0 ? need : i;
    };
    this.#pooled = pooled;
    this.#items = optional.map(item);
    this.#roots = optional
      .filter((i) => rootOf(i) === i)
      .map((i) => ({ ...item(i), children: optional.filter((c) => c !== i && rootOf(c) === i).map(item) }));
    const most = Math.max(0, Math.floor(pooled.room + 1e-9)) + 1;
    this.#sum = new Float64Array(most);
    this.#with = new Float64Array(most);
    this.#take = tasks.map((_, i) => new Uint8Array(isOptional.has(i) ? most : 0));
  }

  /** Null for teams, and where checks don't take whole minutes. */
  static of(problem: Problem, pooled: Pooled, optional: number[]): Alone | null {
    const whole = optional.every((i) => Number.isInteger(problem.tasks[i]?.minutes));
    return problem.team === 1 && whole ? new Alone(problem, pooled, optional) : null;
  }

  /** The most that the person earns at these values of checks; sets `taken` to 1 for what is done. */
  most(value: Float64Array, taken: Float64Array): number {
    const sorted = this.#items
      .filter((t) => (value[t.task] ?? 0) > 0)
      .sort((a, b) => (value[b.task] ?? 0) / b.minutes - (value[a.task] ?? 0) / a.minutes || a.task - b.task);
    const sets = Array.from({ length: this.#pooled.sets }, (_, set) => ({
      set,
      atMost: this.#cutToFit(value, set, sorted),
    })).sort((a, b) => b.atMost - a.atMost || a.set - b.set);
    let best = 0;
    taken.fill(0);
    for (const { set, atMost } of sets) {
      if (atMost <= best + 1e-12) break;
      const sum = this.#whole(value, set);
      if (sum <= best) continue;
      best = sum;
      this.#readBack(set, taken);
    }
    return best;
  }

  /** What a set of stops earns if the last check that fits may be cut. */
  #cutToFit(
    value: Float64Array,
    set: number,
    sorted: { task: number; stop: number; minutes: number }[],
  ): number {
    let room = this.#minutes(set);
    let sum = room < 0 ? Number.NEGATIVE_INFINITY : 0;
    for (const { task, stop, minutes } of sorted) {
      if (room <= 0) break;
      if (!this.#pooled.enters(set, stop)) continue;
      sum += (value[task] ?? 0) * Math.min(1, room / minutes);
      room -= minutes;
    }
    return sum;
  }

  #minutes(set: number): number {
    return Math.floor(this.#pooled.room - this.#pooled.walkFor(set) + 1e-9);
  }

  #whole(value: Float64Array, set: number): number {
    const most = this.#minutes(set);
    const sum = this.#sum.fill(0);
    for (const root of this.#roots) {
      if (!this.#pooled.enters(set, root.stop)) continue;
      if (root.children.length === 0) this.#weigh(sum, root, value, most);
      else this.#weighTree(root, value, set, most);
    }
    return sum[most] ?? 0;
  }

  /** Lets an item be taken or not. */
  #weigh(
    sum: Float64Array,
    { task, minutes }: { task: number; minutes: number },
    value: Float64Array,
    most: number,
  ): void {
    const gain = value[task] ?? 0;
    const take = this.#take[task];
    if (take === undefined) return;
    take.fill(0);
    for (let m = most; m >= minutes; m--) {
      const other = (sum[m - minutes] ?? 0) + gain;
      if (other <= (sum[m] ?? 0)) continue;
      sum[m] = other;
      take[m] = 1;
    }
  }

  /** Lets a root be taken or not, and what needs it if it is. */
  #weighTree(root: Root, value: Float64Array, set: number, most: number): void {
    const own = this.#with;
    const gain = value[root.task] ?? 0;
    for (let m = 0; m <= most; m++)
      own[m] = m < root.minutes ? Number.NEGATIVE_INFINITY : (this.#sum[m - root.minutes] ?? 0) + gain;
    for (const child of root.children)
      if (this.#pooled.enters(set, child.stop)) this.#weigh(own, child, value, most);
    const take = this.#take[root.task];
    if (take === undefined) return;
    for (let m = 0; m <= most; m++) {
      take[m] = (own[m] ?? 0) > (this.#sum[m] ?? 0) ? 1 : 0;
      if (take[m] === 1) this.#sum[m] = own[m] ?? 0;
    }
  }

  #readBack(set: number, taken: Float64Array): void {
    taken.fill(0);
    let left = this.#minutes(set);
    for (let r = this.#roots.length - 1; r >= 0; r--) {
      const root = this.#roots[r];
      if (root === undefined || !this.#pooled.enters(set, root.stop) || this.#take[root.task]?.[left] !== 1)
        continue;
      for (let c = root.children.length - 1; c >= 0; c--) {
        const child = root.children[c];
        if (
          child === undefined ||
          !this.#pooled.enters(set, child.stop) ||
          this.#take[child.task]?.[left] !== 1
        )
          continue;
        taken[child.task] = 1;
        left -= child.minutes;
      }
      taken[root.task] = 1;
      left -= root.minutes;
    }
  }
}
