import { random } from '../../../planner/numerics/sampling.ts';

const DRAWS = 10_000;

/** The chance that the mean of `ours` is above that of `theirs`, over questions drawn again with replacement, both
 * judged on the same ones. Seeded, so that a run can be repeated. */
export function chanceAhead(ours: readonly number[], theirs: readonly number[]): number {
  const differences = ours.map((mark, i) => mark - (theirs[i] ?? 0));
  const next = random(20261125);
  let ahead = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    let sum = 0;
    for (let i = 0; i < differences.length; i++)
      sum += differences[Math.floor(next() * differences.length)] ?? 0;
    if (sum > 0) ahead += 1;
  }
  return ahead / DRAWS;
}
