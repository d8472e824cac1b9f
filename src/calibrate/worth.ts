import { oddsVariance } from '../../planner/belief/ranges.ts';
import type { Group } from './groups.ts';
import { normalOddsCount } from './predictive.ts';

const CANDIDATES = Array.from({ length: 49 }, (_, i) => 10 * 10 ** (i / 16));

/** Before the records are asked: about this many houses, give or take a factor of e (practice). A few dozen groups hardly
 * tell 500 houses from 10,000. */
const USUAL = 150;

/** How many houses a fit's odds are worth: the count under which the groups' classes, forecast by fits that had not seen
 * them, are likeliest, given a weak prior. 10 to 10,000. */
export function worthOf(groups: readonly Group[]): number {
  const likelihood = (worth: number): number =>
    groups.reduce(
      (sum, { chance, n, k }) => {
        const variance = oddsVariance(chance, { worth, besides: 0 });
        return sum + Math.log(Math.max(normalOddsCount(chance, variance, n, k), 1e-12));
      },
      -0.5 * Math.log(worth / USUAL) ** 2,
    );
  const scored = CANDIDATES.map((worth) => ({ worth, value: likelihood(worth) }));
  const best = scored.reduce((a, b) => (b.value > a.value ? b : a));
  return Math.round(best.worth);
}
