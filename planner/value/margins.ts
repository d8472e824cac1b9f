import type { Target, Task } from '../walk/problem.ts';

/** Which check finds what, laid out both ways for speed. */
export class Finds {
  readonly tasks: number;
  readonly worth: Float64Array;
  /** What a check may find: target[k], chance[k] for k from from[i] to from[i + 1]. */
  readonly from: Int32Array;
  readonly target: Int32Array;
  readonly chance: Float64Array;
  /** Who may find a target: finder[k], finderChance[k] for k from finderFrom[j] to finderFrom[j + 1]. */
  readonly finderFrom: Int32Array;
  readonly finder: Int32Array;
  readonly finderChance: Float64Array;

  constructor(targets: Target[], tasks: Task[]) {
    this.tasks = tasks.length;
    this.worth = Float64Array.from(targets, (t) => t.worth);
    this.from = starts(tasks.map((t) => t.finds.length));
    const count = this.from[tasks.length] ?? 0;
    this.target = new Int32Array(count);
    this.chance = new Float64Array(count);
    const finders = new Array<number>(targets.length).fill(0);
    tasks.forEach((t, i) => {
      let at = this.from[i] ?? 0;
      for (const { target, chance } of t.finds) {
        this.target[at] = target;
        this.chance[at++] = chance;
        finders[target] = (finders[target] ?? 0) + 1;
      }
    });
    this.finderFrom = starts(finders);
    this.finder = new Int32Array(count);
    this.finderChance = new Float64Array(count);
    const next = this.finderFrom.slice();
    tasks.forEach((t, i) => {
      for (const { target, chance } of t.finds) {
        const at = next[target] ?? 0;
        next[target] = at + 1;
        this.finder[at] = i;
        this.finderChance[at] = chance;
      }
    });
  }
}

/** Which of these checks finds which of these targets, laid out once for both lists. */
export function findsOf(targets: Target[], tasks: Task[]): Finds {
  const ready = laidOut.get(tasks);
  if (ready?.targets === targets) return ready.finds;
  const finds = new Finds(targets, tasks);
  laidOut.set(tasks, { targets, finds });
  return finds;
}

const laidOut = new WeakMap<Task[], { targets: Target[]; finds: Finds }>();

/** The worth of a set of checks that changes one check at a time (`Worth` says what worth is). Keeps what every check
 * adds to the others, in the set or not, so that the best check to add and the cheapest to drop are read off. */
export class Margins {
  /** What check i adds to the rest of the set: its gain if it is out, its loss if it is in. */
  readonly of: Float64Array;
  /** What the set is worth, added up change by change: for comparing, where the last digits don't matter. */
  sum = 0;
  readonly #finds: Finds;
  readonly #in: Uint8Array;
  /** Chance that each target is missed by the whole set. */
  readonly #missed: Float64Array;

  constructor(finds: Finds) {
    this.#finds = finds;
    this.#missed = new Float64Array(finds.worth.length).fill(1);
    this.#in = new Uint8Array(finds.tasks);
    this.of = new Float64Array(finds.tasks);
  }

  /** Makes this the set of the tasks marked 1. */
  load(members: Uint8Array): void {
    this.#in.set(members);
    for (let j = 0; j < this.#missed.length; j++) this.#miss(j);
    for (let i = 0; i < this.of.length; i++) this.#weigh(i);
    this.sum = this.total();
  }

  /** Becomes a copy of another set of the same tasks. */
  copy(other: Margins): void {
    this.of.set(other.of);
    this.sum = other.sum;
    this.#in.set(other.#in);
    this.#missed.set(other.#missed);
  }

  /** What another set of the same tasks, marked 1, is worth. */
  worthOf(members: Uint8Array): number {
    const { worth, finderFrom, finder, finderChance } = this.#finds;
    let sum = 0;
    for (let j = 0; j < worth.length; j++) {
      let missed = 1;
      for (let k = finderFrom[j] ?? 0, end = finderFrom[j + 1] ?? 0; k < end; k++)
        if (members[finder[k] ?? 0] === 1) missed *= keep(finderChance[k] ?? 0);
      sum += (worth[j] ?? 0) * (1 - missed);
    }
    return sum;
  }

  add(i: number): void {
    this.#turn(i, 1);
  }

  remove(i: number): void {
    this.#turn(i, 0);
  }

  /** What the set is worth, to the last digit. */
  total(): number {
    const { worth } = this.#finds;
    let sum = 0;
    for (let j = 0; j < worth.length; j++) sum += (worth[j] ?? 0) * (1 - (this.#missed[j] ?? 1));
    return sum;
  }

  #turn(i: number, on: 0 | 1): void {
    if (this.#in[i] === on) return;
    this.#in[i] = on;
    this.sum += on === 1 ? (this.of[i] ?? 0) : -(this.of[i] ?? 0);
    const { from, target } = this.#finds;
    const missed = this.#missed;
    const end = from[i + 1] ?? 0;
    for (let k = from[i] ?? 0; k < end; k++) {
      const j = target[k] ?? 0;
      const was = missed[j] ?? 1;
      this.#miss(j);
      this.#shift(j, i, was);
    }
  }

  /** Works anew the chance that a target is missed: a product of few chances, so that no error builds up. */
  #miss(j: number): void {
    const { finderFrom, finder, finderChance } = this.#finds;
    const members = this.#in;
    let missed = 1;
    const end = finderFrom[j + 1] ?? 0;
    for (let k = finderFrom[j] ?? 0; k < end; k++)
      if (members[finder[k] ?? 0] === 1) missed *= keep(finderChance[k] ?? 0);
    this.#missed[j] = missed;
  }

  /** Moves what the other finders of a target add, after its chance of being missed moved from `was`. */
  #shift(j: number, but: number, was: number): void {
    const { worth, finderFrom, finder, finderChance } = this.#finds;
    const change = (worth[j] ?? 0) * ((this.#missed[j] ?? 1) - was);
    const members = this.#in;
    const margins = this.of;
    const end = finderFrom[j + 1] ?? 0;
    for (let k = finderFrom[j] ?? 0; k < end; k++) {
      const i = finder[k] ?? 0;
      if (i === but) continue;
      const chance = finderChance[k] ?? 0;
      const added = members[i] === 1 ? (change * chance) / keep(chance) : change * chance;
      margins[i] = (margins[i] ?? 0) + added;
    }
  }

  #weigh(i: number): void {
    const { worth, from, target, chance } = this.#finds;
    let sum = 0;
    const end = from[i + 1] ?? 0;
    for (let k = from[i] ?? 0; k < end; k++) {
      const j = target[k] ?? 0;
      const found = chance[k] ?? 0;
      const missed = this.#in[i] === 1 ? (this.#missed[j] ?? 1) / keep(found) : (this.#missed[j] ?? 1);
      sum += (worth[j] ?? 0) * missed * found;
    }
    this.of[i] = sum;
  }
}

/** What a finder leaves of the chance that a target is missed; never nothing, so that it can be divided out again. */
function keep(chance: number): number {
  return Math.max(1e-9, 1 - chance);
}

/** Where each of the lists starts when they lie one behind the other. */
function starts(lengths: number[]): Int32Array {
  const from = new Int32Array(lengths.length + 1);
  lengths.forEach((n, i) => {
    from[i + 1] = (from[i] ?? 0) + n;
  });
  return from;
}
