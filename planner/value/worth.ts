import type { Target, Task } from '../walk/tasks.ts';

/** Worth of a set of checks: each failure mode counts by the chance that at least one of them finds it, so a
 * check adds only what the others would miss. Keeps the chance that each target is still missed. */
export class Worth {
  readonly #targets: Target[];
  readonly #missed: Float64Array;
  total = 0;

  constructor(targets: Target[]) {
    this.#targets = targets;
    this.#missed = new Float64Array(targets.length).fill(1);
  }

  /** What the task would add. */
  gain(task: Task): number {
    let sum = 0;
    for (const { target, chance } of task.finds)
      sum += (this.#targets[target]?.worth ?? 0) * (this.#missed[target] ?? 0) * chance;
    return sum;
  }

  add(task: Task): void {
    this.total += this.gain(task);
    for (const { target, chance } of task.finds)
      this.#missed[target] = (this.#missed[target] ?? 0) * (1 - chance);
  }

  static of(targets: Target[], tasks: Task[], chosen: Iterable<number>): Worth {
    const worth = new Worth(targets);
    for (const i of chosen) {
      const task = tasks[i];
      if (task !== undefined) worth.add(task);
    }
    return worth;
  }
}
