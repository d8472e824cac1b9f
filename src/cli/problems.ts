import type { Problem } from '../../planner/house/resolve.ts';
import { refusal } from './usage-error.ts';

/** An input that the planner refuses, as a line that names the option. */
export function problemLine(problem: Problem): string {
  return refusal(`--${problem.option}`, problem.value, problem.accepted, problem.nearest);
}
