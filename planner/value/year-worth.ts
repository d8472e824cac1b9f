import type { Clue } from '../../knowledge/schema/clue.ts';
import { chanceIn } from '../belief/built-clues.ts';
import { CLAMP } from '../belief/evidence.ts';
import type { Condition } from '../condition/condition.ts';
import type { Odds } from '../house/house.ts';
import { clamp } from '../numerics/functions.ts';
import { stakeOf } from './stakes.ts';

/** By how much the chance of a failure mode moves, up or down, for each year that the expected build year moves: the mean
 * over failure modes by their stakes. Measured on the model itself, judging houses of ten vague years in four states by the
 * earlier and by the later half of their years: 0.0004 in houses of the 1870s to 0.0011 in those of the 1970s. */
export const MOVED_BY_A_YEAR = 0.0007;

/** What a look is worth that speaks of a vague build year itself, in stake-weighted odds moved. `years` are the odds of the
 * main block's year after all that was told. */
export function worthOfYears(
  clue: Clue,
  years: Odds<number>,
  conditions: readonly Condition[],
  client: readonly string[],
): number {
  const stakes = conditions.reduce((sum, c) => sum + c.applies * stakeOf(c.failure, client), 0);
  return yearsMoved(clue, years) * MOVED_BY_A_YEAR * stakes;
}

/** By how many years, on average over meeting a clue to the build year and not meeting it, the expected build year would
 * move; 0 for other clues and where the year is known. */
function yearsMoved({ built }: Clue, years: Odds<number>): number {
  if (built === undefined || years.length < 2) return 0;
  const most = Math.max(...built.chance);
  const expected = mean(years);
  let sum = 0;
  for (const met of [true, false]) {
    const after = years.map(({ value, p }) => {
      const chance = chanceIn(built, value);
      return { value, p: p * (met ? Math.max(chance, most / CLAMP) : clamp(1 - chance, 1 / CLAMP, 1)) };
    });
    const odds = after.reduce((total, y) => total + y.p, 0);
    if (odds > 0) sum += odds * Math.abs(mean(after) - expected);
  }
  return sum;
}

function mean(years: Odds<number>): number {
  const all = years.reduce((sum, y) => sum + y.p, 0);
  return all > 0 ? years.reduce((sum, y) => sum + y.p * y.value, 0) / all : 0;
}
