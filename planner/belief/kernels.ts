import type { ShareTable, System } from '../../knowledge/schema/system.ts';
import { makeClocks } from './clocks.ts';

/** A material as the renewal process sees it. */
export interface RenewalMaterial {
  id: string;
  /** Years by which half have been renewed for wear; null: it does not wear (`none`). */
  life: number | null;
  shape: number;
  /** Part of the renewals for wear that reach the hidden portion. */
  whole: number;
}

/** Everything of a system's renewal process that depends on years alone, not on evidence: shares, and for each
 * of the two clocks the survival of each material by age and by calendar. Index 0 is year `from`. */
export interface Kernels {
  from: number;
  /** Index of the as-of year. */
  last: number;
  ids: string[];
  /** [material][year] shares among new houses and among renewals. */
  sNew: Float64Array[];
  sRen: Float64Array[];
  complete: Clock;
  partial: Clock;
}

/** Factors on materials' shares of new work and of renewal work, before they are made to add to 1. */
export interface ShareFactors {
  new: (id: string) => number;
  renewal: (id: string) => number;
}

/** Shares as the tables have them. */
export const AS_TABLED: ShareFactors = { new: () => 1, renewal: () => 1 };

/** Survival of one clock: S(t, u) = byAge[u - t] * byYear[u] / byYear[t]. */
export interface Clock {
  byAge: Float64Array[];
  byYear: Float64Array[];
}

/** Chance that a piece of material m put in year t has met no event of the clock by the end of year u. */
export function survival(clock: Clock, m: number, t: number, u: number): number {
  const age = clock.byAge[m];
  const year = clock.byYear[m];
  if (age === undefined || year === undefined) return 0;
  return ((age[u - t] ?? 0) * (year[u] ?? 0)) / (year[t] ?? 1);
}

/** Whether a piece of material m ever meets an event of the clock up to year index `last`, and whether by its age. */
export function acts(clock: Clock, m: number, last: number): boolean {
  return wears(clock, m, last) || (clock.byYear[m]?.[last] ?? 1) < 1;
}

function wears(clock: Clock, m: number, last: number): boolean {
  return (clock.byAge[m]?.[last] ?? 1) < 1;
}

/** The greatest age at which any of material m is left; null if it does not wear. */
export function reach(clock: Clock, m: number, last: number): number | null {
  if (!wears(clock, m, last)) return null;
  const byAge = clock.byAge[m] as Float64Array;
  let [some, none] = [0, last + 1];
  while (none - some > 1) {
    const middle = (some + none) >> 1;
    if ((byAge[middle] as number) > 0) some = middle;
    else none = middle;
  }
  return some;
}

/** Builds the kernels of a system from year `from` to year `asOf`. `renewing` multiplies both hazards, of
 * wear and of the calendar waves: how readily this house's owners renew, against the mean of 1. Those who put off
 * remodelling put off replacing what is worn, too: the records bear it out (docs/model.md, section 1). */
export function makeKernels(
  system: Pick<System, 'shares' | 'waves'>,
  materials: RenewalMaterial[],
  from: number,
  asOf: number,
  factors: ShareFactors = AS_TABLED,
  renewing = 1,
): Kernels {
  const [kernels] = kernelsByNode(system, materials, from, asOf, factors, [renewing]);
  if (kernels === undefined) throw new RangeError('no kernels were made');
  return kernels;
}

/** The same for several kinds of owner, who share the tables that do not depend on them. */
export function kernelsByNode(
  system: Pick<System, 'shares' | 'waves'>,
  materials: RenewalMaterial[],
  from: number,
  asOf: number,
  factors: ShareFactors,
  renewing: number[],
): Kernels[] {
  const last = asOf - from;
  const all = [...materials, { id: 'none', life: null, shape: 1, whole: 1 }];
  const ids = all.map((m) => m.id);
  const sNew = sharesByYear(system.shares.new, ids, from, last, factors.new);
  const sRen = sharesByYear(system.shares.renewal, ids, from, last, factors.renewal);
  const oldest = ids.map((_, m) => last - firstSold(sNew[m], sRen[m], last));
  return renewing.map((r) => ({
    from,
    last,
    ids,
    sNew,
    sRen,
    ...makeClocks(all, oldest, system.waves, from, last, r),
  }));
}

/** First year in which the material is put in; the year after the last if it never is. */
function firstSold(sNew: Float64Array | undefined, sRen: Float64Array | undefined, last: number): number {
  for (let t = 0; t <= last; t++) if ((sNew?.[t] ?? 0) > 0 || (sRen?.[t] ?? 0) > 0) return t;
  return last + 1;
}

/** Linear between the table's years, constant outside, factors applied, made to add to 1. */
export function sharesByYear(
  table: ShareTable,
  ids: string[],
  from: number,
  last: number,
  factor: (id: string) => number,
): Float64Array[] {
  const width = last + 1;
  const sums = new Float64Array(width);
  const all = new Float64Array(ids.length * width);
  const rows = ids.map((id, m) => {
    const row = all.subarray(m * width, (m + 1) * width);
    const values = table.rows[id];
    if (values === undefined) return row;
    fillBetween(row, table.years, values, from, factor(id));
    for (let t = 0; t <= last; t++) sums[t] = (sums[t] as number) + (row[t] as number);
    return row;
  });
  for (const row of rows)
    for (let t = 0; t <= last; t++) {
      const sum = sums[t] as number;
      if (sum > 0) row[t] = (row[t] as number) / sum;
    }
  return rows;
}

function fillBetween(
  row: Float64Array,
  years: number[],
  values: number[],
  from: number,
  factor: number,
): void {
  let right = 0;
  for (let t = 0; t < row.length; t++) {
    const year = from + t;
    while (right < years.length && (years[right] as number) < year) right++;
    const below = values[Math.max(0, right - 1)] as number;
    const above = values[Math.min(right, values.length - 1)] as number;
    if (below === above) row[t] = factor * below;
    else {
      const x0 = years[right - 1] as number;
      const w = (year - x0) / ((years[right] as number) - x0);
      row[t] = factor * ((1 - w) * below + w * above);
    }
  }
}

/** Shares below this are skipped: they cannot be seen in the result. */
export const NEGLIGIBLE = 1e-12;

/** Flows below this are not followed: they cannot be seen in the result. */
export const UNSEEN = 1e-16;
