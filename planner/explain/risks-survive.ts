import type { Condition } from '../condition/condition.ts';
import { round } from '../numerics/functions.ts';
import { DRAWS } from '../numerics/sampling.ts';
import type { RisksSurvive } from '../plan-types.ts';
import { priorityOf, stakeOf } from '../value/stakes.ts';

/** How many risks count as the top of the list. */
const FIRST = 5;

/** Whether the top of the list of risks survives the ranges: all figures behind the odds are drawn together, the same draws
 * that make the ranges, and the list is ranked anew in each. `ranked` is the list, most pressing first. */
export function risksSurvive(ranked: readonly Condition[], client: readonly string[]): RisksSurvive | null {
  if (ranked.length <= FIRST) return null;
  const n = ranked.length;
  // Draw by draw, the priorities of all.
  const priorities = new Float64Array(DRAWS * n);
  ranked.forEach(({ failure, draws }, i) => {
    const stake = stakeOf(failure, client);
    for (let d = 0; d < DRAWS; d++)
      priorities[d * n + i] = priorityOf(draws[d] as number, stake, failure.lifeSafety);
  });
  let same = 0;
  let stay = 0;
  for (let d = 0; d < DRAWS; d++) {
    const priority = priorities.subarray(d * n, (d + 1) * n);
    let kept = 0;
    for (let i = 0; i < FIRST; i++) if (above(priority, i) < FIRST) kept++;
    stay += kept;
    if (kept === FIRST) same++;
  }
  return { first: FIRST, same: same / DRAWS, stay: round(stay / DRAWS, 3) };
}

/** How many of the list rank above the i-th; of equals the earlier one does. Counted up to FIRST. */
function above(priority: Float64Array, i: number): number {
  const own = priority[i] as number;
  let count = 0;
  for (let k = 0; k < priority.length && count < FIRST; k++) {
    const other = priority[k] as number;
    if (other > own || (other === own && k < i)) count++;
  }
  return count;
}
