import { type Backward, backward, between } from './backward.ts';
import { type Evidence, hasEvidence, RecordSpan } from './evidence.ts';
import { type Kernels, NEGLIGIBLE, partialSteps } from './kernels.ts';

/** What one system is made of today, for a house built in one year. Tables are [material][year]. */
export interface Posterior {
  /** The hidden portion: material and year of its last renewal. Adds to 1. */
  hidden: Float64Array[];
  /** The reachable portion. Adds to 1. */
  reachable: Float64Array[];
  /** The part of `reachable` that is the same piece as the hidden portion. */
  same: Float64Array[];
  /** [hidden material][reachable material]: both portions at once. Adds to 1. */
  joint: Float64Array[];
  /** Likelihood of the evidence for this build year. */
  likelihood: number;
}

/** Exact posterior of both portions for a house built in year index `built` (docs/model.md, section 3).
 * The joint factors on the hidden portion's last renewal, so it is never tabulated over both years. */
export function posterior(
  kernels: Kernels,
  evidence: Evidence,
  built: number,
  ready: Backward | null = null,
): Posterior {
  const { last, ids, sNew, sRen, partial } = kernels;
  const partialStep = partialSteps(kernels);
  const informed = hasEvidence(evidence);
  const back = informed ? (ready ?? backward(kernels, evidence)) : null;
  const span = back?.span ?? new RecordSpan([], last);
  const likelihood = back === null ? 1 : (back.z[built] ?? 0);
  if (!(likelihood > 0))
    throw new RangeError(`the evidence is impossible for a house built in ${kernels.from + built}`);

  const table = () => ids.map(() => new Float64Array(last + 1));
  const result: Posterior = {
    hidden: table(),
    reachable: table(),
    same: table(),
    joint: ids.map(() => new Float64Array(ids.length)),
    likelihood,
  };
  const last1 = last + 1;
  const completeFlow = completeRenewals(kernels, built, back);
  const arriving = new Float64Array(last1);

  for (let h = 0; h < ids.length; h++) {
    const age = partial.byAge[h] as Float64Array;
    const year = partial.byYear[h] as Float64Array;
    arriving.fill(0);
    let mass = 0;
    for (let y = built; y <= last; y++) {
      const share = y === built ? (sNew[h]?.[y] ?? 0) : (sRen[h]?.[y] ?? 0);
      const flow = (completeFlow[y] as number) * share;
      if (flow < NEGLIGIBLE) continue;
      const weight = evidence.hidden === null ? 1 : (evidence.hidden[h]?.[y] ?? 0);
      const v = (flow * stays(kernels, h, y) * weight) / likelihood;
      if (v === 0) continue;
      mass += v;
      (result.hidden[h] as Float64Array)[y] = v * (back?.reachable[h]?.[y] ?? 1);
      // The same piece may still be within reach, or partial work came once or more.
      const scale = 1 / (year[y] as number);
      let before = v;
      for (let u = y + 1; u <= last; u++) {
        const now = v * (age[u - y] as number) * (year[u] as number) * scale;
        arriving[u] = (arriving[u] as number) + (before - now) * (span.silent ? 1 : span.toPartial(y, u));
        before = now;
      }
      const seen = evidence.reachable === null ? 1 : (evidence.reachable[h]?.[y] ?? 0);
      const kept = before * span.quiet(y, last) * seen;
      (result.same[h] as Float64Array)[y] = kept;
      add(result.reachable, h, y, kept);
      add(result.joint, h, h, kept);
    }
    if (mass > 0) spreadPartial(kernels, evidence, span, arriving, partialStep, built, h, result);
  }
  return result;
}

/** Follows partial renewals on: those arriving in each year take that year's renewal shares, and either stand
 * today or are renewed again. */
function spreadPartial(
  kernels: Kernels,
  evidence: Evidence,
  span: RecordSpan,
  arriving: Float64Array,
  partialStep: Float64Array,
  built: number,
  h: number,
  result: Posterior,
): void {
  const { last, ids, sRen, partial } = kernels;
  const width = last + 1;
  for (let u = built + 1; u <= last; u++) {
    const a = arriving[u] as number;
    if (a < NEGLIGIBLE) continue;
    for (let x = u + 1; x <= last; x++) {
      const step = a * (partialStep[u * width + x] as number);
      arriving[x] = (arriving[x] as number) + (span.silent ? step : step * span.toPartial(u, x));
    }
    for (let m = 0; m < ids.length; m++) {
      const share = sRen[m]?.[u] ?? 0;
      if (share < NEGLIGIBLE) continue;
      const age = partial.byAge[m] as Float64Array;
      const year = partial.byYear[m] as Float64Array;
      const stands = ((age[last - u] as number) * (year[last] as number)) / (year[u] as number);
      const seen = evidence.reachable === null ? 1 : (evidence.reachable[m]?.[u] ?? 0);
      const value = a * share * stands * span.quiet(u, last) * seen;
      add(result.reachable, m, u, value);
      add(result.joint, h, m, value);
    }
  }
}

/** Chance of a complete renewal in each year (1 in the year built), weighted by what the records say of it. */
export function completeRenewals(kernels: Kernels, built: number, back: Backward | null): Float64Array {
  const { last, ids, sNew, sRen, complete } = kernels;
  const flow = new Float64Array(last + 1);
  flow[built] = 1;
  for (let y = built; y <= last; y++) {
    if (back !== null && y > built) flow[y] = (flow[y] as number) * back.span.atComplete(y);
    const total = flow[y] as number;
    if (total < NEGLIGIBLE) continue;
    for (let m = 0; m < ids.length; m++) {
      const share = y === built ? (sNew[m]?.[y] ?? 0) : (sRen[m]?.[y] ?? 0);
      const f = total * share;
      if (f < NEGLIGIBLE) continue;
      const age = complete.byAge[m] as Float64Array;
      const year = complete.byYear[m] as Float64Array;
      const scale = f / (year[y] as number);
      let before = f;
      for (let u = y + 1; u <= last; u++) {
        const now = scale * (age[u - y] as number) * (year[u] as number);
        const step = before - now;
        if (step > 0)
          flow[u] =
            (flow[u] as number) +
            (back === null || back.span.silent
              ? step
              : step * between(back.untilRecord, back.recordYears, m, y, u));
        before = now;
      }
    }
  }
  return flow;
}

/** Chance that a portion renewed completely in year y into m has had no complete renewal since. */
function stays(kernels: Kernels, m: number, y: number): number {
  const age = kernels.complete.byAge[m] as Float64Array;
  const year = kernels.complete.byYear[m] as Float64Array;
  return ((age[kernels.last - y] as number) * (year[kernels.last] as number)) / (year[y] as number);
}

function add(table: Float64Array[], row: number, column: number, value: number): void {
  const values = table[row];
  if (values !== undefined) values[column] = (values[column] ?? 0) + value;
}
