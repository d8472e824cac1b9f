import { Worth } from '../value/worth.ts';
import type { Choice } from './draft.ts';
import type { Problem } from './problem.ts';

/** Checks of one failure mode whose subsets are weighed one by one; more are weighed in groups of this size, which
 * can only raise the bound. */
const MOST_TOGETHER = 8;

/** A failure mode, or a group of its checks: what is left of its worth, and the checks that may find it. */
interface Mode {
  left: number;
  checks: number[];
  chances: number[];
  /** Where in the list of prices those of its copies start. */
  from: number;
}

/** The failure modes of a relaxed walk, each with copies of the checks that find it, at a price a copy. */
export class Modes {
  /** Price of each copy, and by how much the bound moves with it. */
  readonly price: Float64Array;
  readonly slope: Float64Array;
  /** What the checks that are held are worth. */
  readonly base: number;
  readonly #modes: Mode[] = [];

  /** Prices start at what the choice itself pays at the margin. */
  constructor(problem: Problem, choice: Choice, held: Iterable<number>, optional: readonly number[]) {
    const { tasks, targets } = problem;
    const worth = new Worth(targets, tasks);
    for (const i of held) worth.add(i);
    this.base = worth.total;
    const finders: { i: number; chance: number }[][] = targets.map(() => []);
    for (const i of optional)
      for (const { target, chance } of tasks[i]?.finds ?? [])
        if (chance > 0) finders[target]?.push({ i, chance });
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
          from: start.length,
        });
        for (const f of part) {
          const others = choice.chosen[f.i] === 1 ? missedNow / Math.max(1e-9, 1 - f.chance) : missedNow;
          start.push(f.chance < 1 ? others * f.chance : left);
        }
      }
    });
    this.price = Float64Array.from(start);
    this.slope = new Float64Array(start.length);
  }

  /** Sums the prices of each check's copies into `value`. */
  sumPrices(value: Float64Array): void {
    value.fill(0);
    for (const { checks, from } of this.#modes)
      for (let k = 0; k < checks.length; k++) {
        const i = checks[k] ?? 0;
        value[i] = (value[i] ?? 0) + (this.price[from + k] ?? 0);
      }
  }

  /** What the modes are worth at their best at these prices, `base` included; sets the slopes for a walk that does the
   * part `taken` of each check. */
  most(taken: Float64Array): number {
    let sum = this.base;
    for (const mode of this.#modes) sum += this.#bestChecks(mode, taken);
    return sum;
  }

  /** The subset of a mode's checks worth most at their prices. */
  #bestChecks({ left, checks, chances, from }: Mode, taken: Float64Array): number {
    const n = checks.length;
    const missed = SUBSETS_MISSED;
    const paid = SUBSETS_PAID;
    missed[0] = 1;
    paid[0] = 0;
    let best = 0;
    let bestValue = 0;
    for (let k = 0, size = 1; k < n; k++, size *= 2) {
      const keep = 1 - (chances[k] ?? 0);
      const price = this.price[from + k] ?? 0;
      for (let z = 0; z < size; z++) {
        const m = (missed[z] ?? 1) * keep;
        const p = (paid[z] ?? 0) + price;
        missed[z + size] = m;
        paid[z + size] = p;
        const value = left * (1 - m) - p;
        if (value > bestValue) {
          bestValue = value;
          best = z + size;
        }
      }
    }
    for (let k = 0; k < n; k++) this.slope[from + k] = (taken[checks[k] ?? 0] ?? 0) - ((best >> k) & 1);
    return bestValue;
  }
}

const SUBSETS_MISSED = new Float64Array(1 << MOST_TOGETHER);
const SUBSETS_PAID = new Float64Array(1 << MOST_TOGETHER);
