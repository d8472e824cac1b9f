import type { Target, Task } from '../walk/problem.ts';

/** Worth of a set of checks: each failure mode counts by the chance that at least one of them finds it, so a
 * check adds only what the others would miss. Keeps the chance that each target is still missed. */
export class Worth {
  total = 0;
  #worth: Float64Array;
  readonly #missed: Float64Array;
  readonly #target: Int32Array[];
  readonly #chance: Float64Array[];

  constructor(targets: Target[], tasks: Task[]) {
    this.#worth = Float64Array.from(targets, (t) => t.worth);
    this.#missed = new Float64Array(targets.length).fill(1);
    this.#target = tasks.map((t) => Int32Array.from(t.finds, (f) => f.target));
    this.#chance = tasks.map((t) => Float64Array.from(t.finds, (f) => f.chance));
  }

  reset(): void {
    this.total = 0;
    this.#missed.fill(1);
  }

  /** Starts again with other worths of the targets. */
  resetWith(worth: Float64Array): void {
    this.#worth = worth;
    this.reset();
  }

  /** What task i would add. */
  gain(i: number): number {
    const target = this.#target[i];
    const chance = this.#chance[i];
    if (target === undefined || chance === undefined) return 0;
    let sum = 0;
    for (let k = 0; k < target.length; k++) {
      const j = target[k] ?? 0;
      sum += (this.#worth[j] ?? 0) * (this.#missed[j] ?? 0) * (chance[k] ?? 0);
    }
    return sum;
  }

  /** What the chosen set would lose without task i, which is in it. */
  loss(i: number): number {
    const target = this.#target[i];
    const chance = this.#chance[i];
    if (target === undefined || chance === undefined) return 0;
    let sum = 0;
    for (let k = 0; k < target.length; k++) {
      const j = target[k] ?? 0;
      const found = chance[k] ?? 0;
      sum += ((this.#worth[j] ?? 0) * (this.#missed[j] ?? 0) * found) / Math.max(1e-9, 1 - found);
    }
    return sum;
  }

  add(i: number): void {
    this.total += this.gain(i);
    const target = this.#target[i];
    const chance = this.#chance[i];
    if (target === undefined || chance === undefined) return;
    for (let k = 0; k < target.length; k++) {
      const j = target[k] ?? 0;
      this.#missed[j] = (this.#missed[j] ?? 0) * (1 - (chance[k] ?? 0));
    }
  }

  /** Chance that a target is still missed. */
  missed(target: number): number {
    return this.#missed[target] ?? 1;
  }
}
