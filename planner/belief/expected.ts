import { NO_EVIDENCE } from './evidence.ts';
import { posterior } from './forward.ts';
import type { LikeForLike } from './like-for-like.ts';
import type { NodeKernels } from './system-kernels.ts';
import { workRates } from './work-rates.ts';

/** What a system of a house looks like with nothing else known, year by year (as indices): turns what people make of a
 * paper or a nameplate (odds after reading it) into its weight. */
export interface Expected {
  /** Rows of the materials that have no machine and no nameplate. */
  bare: ReadonlySet<number>;
  /** Chance of complete and of partial work in a year. */
  work(year: number): { complete: number; partial: number };
  /** Of houses that have the system: chance that what is within reach was put in in the year. */
  ofYear(year: number): number;
  /** Where machines follow each other like for like: chance that one was put in in the year, and that it stands today. */
  machine: ((year: number) => { put: number; standing: number }) | null;
}

/** For a house built in year index `built`. */
export function expected(
  nodes: NodeKernels[],
  follow: LikeForLike | null,
  bare: ReadonlySet<number>,
  built: number,
): Expected {
  let ready: Float64Array | null = null;
  const years = (): Float64Array => {
    ready ??= yearsToday(nodes, follow, bare, built);
    return ready;
  };
  const all = (): number => years().reduce((sum, p) => sum + p, 0);
  return {
    bare,
    work: (year) => workRates(nodes, built, year),
    ofYear: (year) => (years()[year] ?? 0) / Math.max(all(), 1e-9),
    machine:
      follow === null
        ? null
        : (year) => ({ put: putIn(nodes, follow, built, year), standing: years()[year] ?? 0 }),
  };
}

/** Chance, by year, that what is within reach today is a machine put in then. */
function yearsToday(
  nodes: NodeKernels[],
  follow: LikeForLike | null,
  bare: ReadonlySet<number>,
  built: number,
): Float64Array {
  const sum = new Float64Array((nodes[0]?.kernels.last ?? 0) + 1);
  for (const { kernels, weight } of nodes) {
    const tables = posterior(kernels, NO_EVIDENCE, built);
    const { reachable } = follow?.machines(tables) ?? tables;
    reachable.forEach((row, m) => {
      if (bare.has(m)) return;
      for (let t = 0; t < row.length; t++) sum[t] = (sum[t] as number) + weight * (row[t] as number);
    });
  }
  return sum;
}

/** Chance that a machine was put in in year index d, standing today or not. */
function putIn(nodes: NodeKernels[], follow: LikeForLike, built: number, d: number): number {
  if (d <= built) return 0;
  return nodes.reduce((sum, { kernels, weight }) => {
    const then = posterior({ ...kernels, last: d }, NO_EVIDENCE, built);
    return sum + weight * follow.putIn(then.reachable, d);
  }, 0);
}
