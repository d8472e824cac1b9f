import { type Backward, backward } from './backward.ts';
import { completeRenewals } from './complete-renewals.ts';
import { type Evidence, hasEvidence, SILENT } from './evidence.ts';
import { FlatTables } from './flat-tables.ts';
import { type Kernels, survival, UNSEEN } from './kernels.ts';
import { partialRenewals } from './partial-renewals.ts';
import { scratch } from './scratch.ts';

/** What one system is made of today. Tables are [material][year]. */
export interface Posterior {
  /** The hidden portion: material and year of its last renewal. Adds to 1. */
  hidden: Float64Array[];
  /** The reachable portion. Adds to 1. */
  reachable: Float64Array[];
  /** The part of `reachable` that is the same piece as the hidden portion. */
  same: Float64Array[];
  /** [hidden material][reachable material]: both portions at once. Adds to 1. */
  joint: Float64Array[];
}

/** Exact posterior of both portions for a house built in year index `built` (docs/model.md, section 3). */
export function posterior(
  kernels: Kernels,
  evidence: Evidence,
  built: number,
  ready: Backward | null = null,
): Posterior {
  const back = hasEvidence(evidence) ? (ready ?? backward(kernels, evidence)) : null;
  const likelihood = back === null ? 1 : (back.z[built] ?? 0);
  if (!(likelihood > 0))
    throw new RangeError(`the evidence is impossible for a house built in ${kernels.from + built}`);
  return forward(kernels, evidence, [built], [1 / likelihood], back).rows();
}

/** What stands today of houses that were built in one of `years`, each with a weight: the odds of the year over the
 * likelihood of the evidence for it. The passes are linear in the weights, so that one serves all years the house may
 * have been built in. The joint factors on the hidden portion's last renewal, so it is never tabulated over both
 * years; pieces are followed as what is left of them, by which an event costs one multiplication. */
export function forward(
  kernels: Kernels,
  evidence: Evidence,
  years: number[],
  weights: number[],
  back: Backward | null,
): FlatTables {
  const { last, ids, complete, partial } = kernels;
  const width = last + 1;
  const span = back?.span ?? SILENT;
  const tables = new FlatTables(ids.length, width);
  const { put, first } = completeRenewals(kernels, years, weights, back);
  // Pieces that stand in the hidden portion today.
  const standing = scratch(7, ids.length * width);
  for (let h = 0; h < ids.length; h++)
    for (let y = first; y <= last; y++) {
      const x = put[h * width + y] as number;
      if (x === 0) continue;
      const seenHidden = evidence.hidden === null ? 1 : (evidence.hidden[h]?.[y] ?? 0);
      const v = x * survival(complete, h, y, last) * seenHidden;
      if (v < UNSEEN) continue;
      standing[h * width + y] = v;
      const seen = evidence.reachable === null ? 1 : (evidence.reachable[h]?.[y] ?? 0);
      const same = v * survival(partial, h, y, last) * span.quiet(y, last) * seen;
      tables.setHidden(h, y, v * (back?.reachable[h]?.[y] ?? 1), same);
    }
  partialRenewals(kernels, evidence, span, standing, first, tables);
  return tables;
}
