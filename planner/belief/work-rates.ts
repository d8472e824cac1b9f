import { NO_EVIDENCE } from './evidence.ts';
import { posterior } from './forward.ts';
import type { Kernels } from './kernels.ts';
import type { NodeKernels } from './system-kernels.ts';

/** Chance of complete and partial work in year index d with nothing else known, over all kinds of owners. */
export function workRates(
  nodes: NodeKernels[],
  built: number,
  d: number,
): { complete: number; partial: number } {
  const rates = { complete: 0, partial: 0 };
  for (const { kernels, weight } of nodes) {
    const one = ratesOf(kernels, built, d);
    rates.complete += weight * one.complete;
    rates.partial += weight * one.partial;
  }
  return rates;
}

/** The same for one kind of owner, for a house as it would stand the year before. */
function ratesOf(kernels: Kernels, built: number, d: number): { complete: number; partial: number } {
  if (d <= built + 1) return { complete: 1e-3, partial: 1e-3 };
  const before: Kernels = { ...kernels, last: d - 1 };
  const standing = posterior(before, NO_EVIDENCE, built);
  const rate = (table: Float64Array[], clock: Kernels['complete']): number => {
    let sum = 0;
    for (let m = 0; m < kernels.ids.length; m++) {
      const age = clock.byAge[m];
      const year = clock.byYear[m];
      if (age === undefined || year === undefined) continue;
      for (let t = built; t < d; t++) {
        const mass = table[m]?.[t] ?? 0;
        if (mass === 0) continue;
        const now = (age[d - t] ?? 0) * (year[d] ?? 0);
        const then = (age[d - 1 - t] ?? 0) * (year[d - 1] ?? 0);
        sum += then > 0 ? mass * (1 - now / then) : 0;
      }
    }
    return sum;
  };
  return {
    complete: rate(standing.hidden, kernels.complete),
    partial: rate(standing.reachable, kernels.partial),
  };
}
