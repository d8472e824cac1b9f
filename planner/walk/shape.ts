import type { Geometry } from './geometry.ts';
import type { Problem, ProblemInput } from './problem.ts';

/** What a problem has besides its odds: how its tasks lie in blocks, orders and bundles. */
export type Shape = Pick<Problem, 'block' | 'sequence' | 'owned' | 'tasksAt' | 'closure' | 'dependents'>;

/** Shapes kept for each geometry, and things of a kind kept for each shape. */
const MOST_KEPT = 8;

const kept = new WeakMap<Geometry, Map<string, Shape>>();

/** The shape of a problem, made once for all that differ in odds alone: a clue moves what a check may find, seldom the
 * checks. */
export function shapeOf(input: ProblemInput, make: () => Shape): Shape {
  const shapes = kept.get(input.geometry) ?? new Map<string, Shape>();
  kept.set(input.geometry, shapes);
  const key = keyOf(input);
  const ready = shapes.get(key);
  if (ready !== undefined) return ready;
  if (shapes.size >= MOST_KEPT) shapes.clear();
  const shape = make();
  shapes.set(key, shape);
  return shape;
}

/** All that a shape follows from, as one text. */
function keyOf({ team, prefer, tasks }: ProblemInput): string {
  const parts: (string | number)[] = [team, prefer.join()];
  for (const t of tasks) {
    parts.push(t.stop, t.phase, t.minutes, t.people, t.fixed ? 1 : 0, t.finds.length);
    parts.push(t.needs.join(), t.follows.join());
    for (const w of t.waits) parts.push(w.after, w.minutes);
    parts.push(';');
  }
  return parts.join(' ');
}

/** Makes something of a problem once for all problems of its shape that begin at the door; `key` tells apart what else it
 * follows from. The tasks of a problem are never changed once it is made. */
export function onceForShape<T>(
  memory: WeakMap<Problem['sequence'], Map<string, T>>,
  problem: Problem,
  key: string,
  make: () => T,
): T {
  if (problem.begun) return make();
  const known = memory.get(problem.sequence) ?? new Map<string, T>();
  memory.set(problem.sequence, known);
  const ready = known.get(key);
  if (ready !== undefined) return ready;
  if (known.size >= MOST_KEPT) known.clear();
  const made = make();
  known.set(key, made);
  return made;
}
