import type { SystemState } from '../belief/believe.ts';
import { round } from '../numerics/functions.ts';
import type { Replaced } from '../plan-types.ts';

type Believed = Pick<SystemState, 'kernels' | 'tables' | 'years'>;

/** How much of a system was replaced, among houses that have it: exact sums over the tables of both portions. `having` are
 * the rows of materials that are the system, not the lack of it. Where the year built is vague, work of any of the years it
 * may be counts as first. */
export function replacedOdds(
  { kernels, tables, years }: Believed,
  having: ReadonlySet<number>,
): Replaced | null {
  const built = years.filter((y) => y.p > 0).map((y) => y.value - kernels.from);
  let there = 0;
  tables.joint.forEach((row, h) => {
    for (let r = 0; r < row.length; r++) if (having.has(h) || having.has(r)) there += row[r] as number;
  });
  if (there < 1e-6) return null;
  let [allFirst, hiddenFirst, onePiece, oneMaterial] = [0, 0, 0, 0];
  for (const m of having) {
    oneMaterial += tables.joint[m]?.[m] ?? 0;
    const same = tables.same[m];
    if (same !== undefined) for (let t = 0; t < same.length; t++) onePiece += same[t] as number;
    for (const t of built) {
      allFirst += same?.[t] ?? 0;
      hiddenFirst += tables.hidden[m]?.[t] ?? 0;
    }
  }
  const of = (p: number): number => round(Math.min(1, Math.max(0, p / there)), 6);
  return {
    allFirst: of(allFirst),
    partly: of(hiddenFirst - allFirst),
    allSince: of(there - hiddenFirst),
    twoAges: of(there - onePiece),
    twoMaterials: of(there - oneMaterial),
  };
}
