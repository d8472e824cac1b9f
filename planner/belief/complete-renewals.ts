import { type Backward, between } from './backward.ts';
import { acts, type Kernels, reach, UNSEEN } from './kernels.ts';
import { scratch } from './scratch.ts';

/** What complete work, and building itself, put in: material m in year u at `m * (last + 1) + u`, weighted by what the
 * records say. `first` is the first year in which the house may have been built. In working memory. */
export interface CompleteWork {
  put: Float64Array;
  first: number;
}

/** Follows houses built in one of `years`, each with a weight, from one complete renewal to the next. */
export function completeRenewals(
  kernels: Kernels,
  years: number[],
  weights: number[],
  back: Backward | null,
): CompleteWork {
  const width = kernels.last + 1;
  const put = scratch(0, kernels.ids.length * width);
  const entry = scratch(8, width);
  let first = width;
  years.forEach((t, k) => {
    const weight = weights[k] ?? 0;
    if (!(weight > 0)) return;
    entry[t] = weight;
    first = Math.min(first, t);
  });
  if (back === null || back.span.silent) followUnrecorded(kernels, entry, first, put);
  else followRecorded(kernels, entry, first, back, put);
  return { put, first };
}

/** Without records: what is left of each material at the end of each year, and the year's events are the difference. */
function followUnrecorded(
  { last, ids, sNew, sRen, complete }: Kernels,
  entry: Float64Array,
  first: number,
  put: Float64Array,
): void {
  const width = last + 1;
  const left = scratch(1, ids.length * width);
  const acting = ids.flatMap((_, m) => (acts(complete, m, last) ? [m] : []));
  const reaches = ids.map((_, m) => reach(complete, m, last));
  for (let u = first; u <= last; u++) {
    let renewed = 0;
    if (u > first)
      for (const m of acting) {
        const year = complete.byYear[m] as Float64Array;
        const at = m * width + u;
        // What does not age is carried on from year to year.
        if (reaches[m] === null) left[at] = left[at - 1] as number;
        const gone =
          (year[u - 1] as number) * (left[at - 1] as number) - (year[u] as number) * (left[at] as number);
        if (gone > 0) renewed += gone;
      }
    const built = entry[u] as number;
    if (built + renewed < UNSEEN) continue;
    for (let m = 0; m < ids.length; m++) {
      const x =
        built * ((sNew[m] as Float64Array)[u] as number) + renewed * ((sRen[m] as Float64Array)[u] as number);
      if (x < UNSEEN) continue;
      const at = m * width + u;
      put[at] = x;
      const pieces = x / ((complete.byYear[m] as Float64Array)[u] as number);
      const ages = reaches[m] ?? 0;
      lay(left, at, pieces, complete.byAge[m] as Float64Array, Math.min(ages, last - u));
    }
  }
}

/** Adds what is left of `pieces`, at each age up to `oldest`, from place `at` on. */
export function lay(
  left: Float64Array,
  at: number,
  pieces: number,
  byAge: Float64Array,
  oldest: number,
): void {
  for (let age = 0; age <= oldest; age++)
    left[at + age] = (left[at + age] as number) + pieces * (byAge[age] as number);
}

/** With records: a step between two complete renewals carries the weight of the partial work in between, which
 * depends on the material, its year and how many records were passed. */
function followRecorded(
  { last, ids, sNew, sRen, complete }: Kernels,
  entry: Float64Array,
  first: number,
  back: Backward,
  put: Float64Array,
): void {
  const flow = scratch(1, last + 1);
  for (let y = first; y <= last; y++) {
    const built = entry[y] as number;
    const renewed = (flow[y] as number) * back.span.atComplete(y);
    if (built + renewed < UNSEEN) continue;
    for (let m = 0; m < ids.length; m++) {
      const x = built * (sNew[m]?.[y] ?? 0) + renewed * (sRen[m]?.[y] ?? 0);
      if (x < UNSEEN) continue;
      put[m * (last + 1) + y] = x;
      const age = complete.byAge[m] as Float64Array;
      const year = complete.byYear[m] as Float64Array;
      const scale = x / (year[y] as number);
      let before = x;
      for (let u = y + 1; u <= last; u++) {
        const now = scale * (age[u - y] as number) * (year[u] as number);
        const step = before - now;
        if (step > 0)
          flow[u] = (flow[u] as number) + step * between(back.untilRecord, back.recordYears, m, y, u);
        before = now;
      }
    }
  }
}
