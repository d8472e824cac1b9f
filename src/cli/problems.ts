import type { Problem } from '../../planner/house/resolve.ts';
import { refusal } from './usage-error.ts';

/** An input that the planner refuses, as a line that names the option ("clue unit" is about an option too: --clue). */
export function problemLine(problem: Problem): string {
  return refusal(
    `--${problem.option.split(' ', 1).join()}`,
    problem.value,
    problem.accepted,
    problem.nearest,
  );
}
