import { type ProblemCell, type Share, shareOf } from './problem-cells.ts';
import type { ProblemItem } from './problem-items.ts';
import type { CellOdds } from './problem-odds.ts';

/** How an occupant's answer hangs on what an inspection would find:
 * P(yes) = reported * P(present) + unprompted * (1 - P(present)). */
export interface Link {
  item: string;
  /** Share of homes with one of the failure modes whose occupants say yes. At most 1: an answer is a floor. */
  reported: number;
  /** Share of the other homes whose occupants say yes all the same. */
  unprompted: number;
  /** By how much more the answers scatter than as many independent homes would: weights and years of the same unit. */
  design: number;
}

/** Of the homes where there is nothing to be seen, this share says yes (practice). What merely happens - a breaker that
 * trips on two kettles - is fitted instead. */
const MISTAKEN = 0.002;

export type Counted = Pick<ProblemCell, 'region' | 'decade' | 'item'>;

/** The planner's odds of an item over several cells, weighted as the survey's homes are. */
export function presentOver(cells: readonly ProblemCell[], odds: readonly CellOdds[]): number {
  const homes = cells.reduce((sum, c) => sum + c.homes, 0);
  return cells.reduce((sum, c) => sum + c.homes * presentIn(c, odds), 0) / homes;
}

function presentIn(cell: Counted, odds: readonly CellOdds[]): number {
  const found = odds.find((o) => o.region === cell.region && o.decade === cell.decade)?.items[cell.item];
  if (found === undefined) throw new Error(`no odds for ${cell.item} in ${cell.region}, ${cell.decade}`);
  return found;
}

export function expected(link: Link, present: number): number {
  return link.reported * present + link.unprompted * (1 - present);
}

/** Standard error of a share of so many answers if the share were `p`. */
export function errorAt(link: Link, p: number, answers: number): number {
  return Math.sqrt((link.design * p * (1 - p)) / answers);
}

/** The link of one item by greatest likelihood over the cells given, answers counted at their effective number. */
export function fitLink(item: ProblemItem, cells: readonly ProblemCell[], odds: readonly CellOdds[]): Link {
  const design = designEffect(cells);
  const rows = cells.map((cell) => ({
    n: cell.answers / design,
    share: cell.yes / cell.homes,
    present: presentIn(cell, odds),
  }));
  const likelihood = (reported: number, unprompted: number): number =>
    rows.reduce((sum, { n, share, present }) => {
      const p = Math.min(1 - 1e-9, Math.max(1e-9, reported * present + unprompted * (1 - present)));
      return sum + n * (share * Math.log(p) + (1 - share) * Math.log(1 - p));
    }, 0);
  if (item.kind === 'sight') {
    const reported = best(MISTAKEN, 1, (r) => likelihood(r, MISTAKEN));
    return { item: item.id, reported, unprompted: MISTAKEN, design };
  }
  const reportedAt = (u: number): number => best(u, 1, (r) => likelihood(r, u));
  const unprompted = best(0, 0.3, (u) => likelihood(reportedAt(u), u));
  return { item: item.id, reported: reportedAt(unprompted), unprompted, design };
}

/** Variance of the answers over that of as many independent homes, from the cells that have at least five who said yes:
 * the mean, weighted by answers. */
function designEffect(cells: readonly ProblemCell[]): number {
  const decades = [...new Set(cells.map((c) => c.decade))];
  let [sum, weight] = [0, 0];
  for (const decade of decades) {
    const found: Share | null = shareOf(cells.filter((c) => c.decade === decade));
    if (found === null || found.share * found.answers < 5) continue;
    const plain = (found.share * (1 - found.share)) / found.answers;
    sum += found.answers * ((found.error * found.error) / plain);
    weight += found.answers;
  }
  return weight > 0 ? Math.max(1, sum / weight) : 1.5;
}

/** Where a function with one peak is greatest between two bounds (golden section). */
function best(low: number, high: number, f: (x: number) => number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [from, to] = [low, high];
  for (let i = 0; i < 40; i++) {
    const [a, b] = [to - ratio * (to - from), from + ratio * (to - from)];
    if (f(a) < f(b)) from = a;
    else to = b;
  }
  return (from + to) / 2;
}
