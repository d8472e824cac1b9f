import { type Evidence, RecordSpan, type RecordWeight } from './evidence.ts';
import { type Kernels, NEGLIGIBLE, survival } from './kernels.ts';

/** Likelihood of the evidence, seen backward from today: for every year and material, how likely the evidence
 * is given that the portion was renewed then. One pass serves every build year (docs/model.md, section 2). */
export interface Backward {
  /** [material][year] likelihood of the reachable evidence, given a complete renewal into the material that year. */
  reachable: Float64Array[];
  /** For record k, [material][year]: likelihood of the partial work between that year and the record. */
  untilRecord: Float64Array[][];
  /** Years of the records, rising. */
  recordYears: number[];
  span: RecordSpan;
  /** Likelihood of all evidence for a house built in each year. */
  z: Float64Array;
}

export function backward(kernels: Kernels, evidence: Evidence): Backward {
  const { last, complete, sRen, sNew, ids } = kernels;
  const span = new RecordSpan(evidence.records, last);
  const years = recordYears(evidence.records, last);
  const reachable = partialHistory(kernels, evidence.reachable, span, last);
  const untilRecord = evidence.stays ?? years.map((d) => partialHistory(kernels, null, span, d));

  const w = new Float64Array(last + 1);
  const z = new Float64Array(last + 1);
  for (let t = last; t >= 0; t--) {
    let renewed = 0;
    let built = 0;
    for (let m = 0; m < ids.length; m++) {
      const sr = sRen[m]?.[t] ?? 0;
      const sn = sNew[m]?.[t] ?? 0;
      if (sr < NEGLIGIBLE && sn < NEGLIGIBLE) continue;
      const age = complete.byAge[m] as Float64Array;
      const year = complete.byYear[m] as Float64Array;
      const weigh = span.silent ? null : (u: number): number => between(untilRecord, years, m, t, u);
      const sum = eventsAhead(age, year, t, last, w, weigh);
      const hidden = evidence.hidden === null ? 1 : (evidence.hidden[m]?.[t] ?? 0);
      const h = survival(complete, m, t, last) * hidden * (reachable[m]?.[t] ?? 0) + sum;
      renewed += sr * h;
      built += sn * h;
    }
    w[t] = renewed * span.atComplete(t);
    z[t] = built;
  }
  return { reachable, untilRecord, recordYears: years, span, z };
}

/** Years of the records, rising, each once. */
export function recordYears(records: RecordWeight[], last: number): number[] {
  const years = new Set(records.map((r) => r.year).filter((y) => y >= 0 && y <= last));
  return [...years].sort((a, b) => a - b);
}

/** What follows after the next event, over the years it may come in: `after` each year, by the chance of the event for
 * a piece of year t, and by what records say of the step. */
function eventsAhead(
  age: Float64Array,
  year: Float64Array,
  t: number,
  end: number,
  after: Float64Array,
  weigh: ((u: number) => number) | null,
): number {
  let before = year[t] as number;
  let sum = 0;
  for (let u = t + 1; u <= end; u++) {
    const now = (age[u - t] as number) * (year[u] as number);
    const step = (before - now) * (after[u] as number);
    sum += weigh === null ? step : step * weigh(u);
    before = now;
  }
  return Math.max(0, sum) / (year[t] as number);
}

/** Weight of the partial work between a complete renewal in t and the next one in u, from the records between (the year t
 * itself with them: partial work in it there is none, but a stay begun then may be weighed by it). */
export function between(
  untilRecord: Float64Array[][],
  years: number[],
  m: number,
  t: number,
  u: number,
): number {
  let k = -1;
  while (k + 1 < years.length && (years[k + 1] as number) < u) k++;
  if (k < 0 || (years[k] as number) < t) return 1;
  return untilRecord[k]?.[m]?.[t] ?? 1;
}

/** Likelihood of what is known of the reachable portion at the end of year `end`, and of the records on the
 * way, for each material and year in which it is all that is known of the portion; 0 for years after `end` and in which
 * the material was not put in. Where renewal shares lack a material, histories that would take it count as
 * impossible. */
export function partialHistory(
  kernels: Kernels,
  weights: Float64Array[] | null,
  span: RecordSpan,
  end: number,
  sharesMayLack = false,
): Float64Array[] {
  const { partial, sNew, sRen, ids, last } = kernels;
  const width = last + 1;
  const memory = new Float64Array(ids.length * width);
  const result = ids.map((_, m) => memory.subarray(m * width, (m + 1) * width));
  if (weights === null && span.silent && !sharesMayLack) {
    memory.fill(1);
    return result;
  }
  const g = new Float64Array(width);
  for (let t = end; t >= 0; t--) {
    let mixed = 0;
    for (let m = 0; m < ids.length; m++) {
      // A material that nobody put in that year is never asked for.
      if ((sNew[m]?.[t] ?? 0) < NEGLIGIBLE && (sRen[m]?.[t] ?? 0) < NEGLIGIBLE) continue;
      const age = partial.byAge[m] as Float64Array;
      const year = partial.byYear[m] as Float64Array;
      const weigh = span.silent ? null : (u: number): number => span.toPartial(t, u);
      const sum = eventsAhead(age, year, t, end, g, weigh);
      const weight = weights === null ? 1 : (weights[m]?.[t] ?? 0);
      const value = survival(partial, m, t, end) * weight * span.quiet(t, end) + sum;
      (result[m] as Float64Array)[t] = value;
      mixed += (sRen[m]?.[t] ?? 0) * value;
    }
    g[t] = mixed;
  }
  return result;
}
