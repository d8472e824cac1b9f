import type { Target, Task } from '../walk/problem.ts';
import { type Finds, findsOf } from './margins.ts';

/** Worth of a set of checks: each failure mode counts by the chance that at least one of them finds it, so a
 * check adds only what the others would miss. Keeps the chance that each target is still missed. */
export class Worth {
  total = 0;
  #worth: Float64Array;
  readonly #missed: Float64Array;
  readonly #finds: Finds;

  constructor(targets: Target[], tasks: Task[]) {
    this.#finds = findsOf(targets, tasks);
    this.#worth = this.#finds.worth;
    this.#missed = new Float64Array(targets.length).fill(1);
  }

  reset(): void {
    this.total = 0;
    this.#missed.fill(1);
  }

  /** Starts again with other worths of the targets, and with what is missed already of each. */
  resetWith(worth: Float64Array, missed: Float64Array): void {
    this.#worth = worth;
    this.total = 0;
    this.#missed.set(missed);
  }

  /** A copy of the chances that each target is still missed. */
  missedNow(): Float64Array {
    return this.#missed.slice();
  }

  /** What task i would add. */
  gain(i: number): number {
    const { from, target, chance } = this.#finds;
    const worth = this.#worth;
    const missed = this.#missed;
    const end = from[i + 1] ?? 0;
    let sum = 0;
    for (let k = from[i] ?? 0; k < end; k++) {
      const j = target[k] ?? 0;
      sum += (worth[j] ?? 0) * (missed[j] ?? 0) * (chance[k] ?? 0);
    }
    return sum;
  }

  /** What the chosen set would lose without task i, which is in it. */
  loss(i: number): number {
    const { from, target, chance } = this.#finds;
    const end = from[i + 1] ?? 0;
    let sum = 0;
    for (let k = from[i] ?? 0; k < end; k++) {
      const j = target[k] ?? 0;
      const found = chance[k] ?? 0;
      sum += ((this.#worth[j] ?? 0) * (this.#missed[j] ?? 0) * found) / Math.max(1e-9, 1 - found);
    }
    return sum;
  }

  add(i: number): void {
    this.total += this.gain(i);
    const { from, target, chance } = this.#finds;
    const missed = this.#missed;
    const end = from[i + 1] ?? 0;
    for (let k = from[i] ?? 0; k < end; k++) {
      const j = target[k] ?? 0;
      missed[j] = (missed[j] ?? 0) * (1 - (chance[k] ?? 0));
    }
  }

  /** Chance that a target is still missed. */
  missed(target: number): number {
    return this.#missed[target] ?? 1;
  }
}
