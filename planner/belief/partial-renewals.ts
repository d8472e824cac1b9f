import { lay } from './complete-renewals.ts';
import type { Evidence, RecordSpan } from './evidence.ts';
import type { FlatTables } from './flat-tables.ts';
import { acts, type Kernels, reach, survival, UNSEEN } from './kernels.ts';
import { scratch } from './scratch.ts';

/** Follows the partial work in houses whose hidden portion still is what complete work put in: `standing` holds those
 * pieces, material h of year y at `h * (last + 1) + y`. Pieces of a year's partial work take that year's renewal
 * shares, and either stand today or are renewed again. Each hidden material is followed apart, for the joint. */
export function partialRenewals(
  kernels: Kernels,
  evidence: Evidence,
  span: RecordSpan,
  standing: Float64Array,
  first: number,
  tables: FlatTables,
): void {
  const { last, ids, sRen, partial } = kernels;
  const width = last + 1;
  const arriving = scratch(3, ids.length * width);
  const left = scratch(4, ids.length * width);
  const chains = ids.flatMap((_, h) =>
    acts(partial, h, last) && firstArrivals(kernels, span, standing, first, h, arriving) ? [h] : [],
  );
  if (chains.length === 0) return;
  const acting = ids.map((_, m) => (acts(partial, m, last) ? (reach(partial, m, last) ?? last) : null));
  const mixed = scratch(5, width);
  const stands = scratch(6, ids.length);
  for (let x = first + 1; x <= last; x++) {
    const arrive = span.arrive(x);
    let any = 0;
    for (const h of chains) {
      const at = h * width + x;
      const gone = (left[at - 1] as number) - (left[at] as number);
      const a = (arriving[at] as number) + (gone > 0 ? gone * arrive : 0);
      arriving[at] = a;
      any += a;
    }
    if (any < UNSEEN) continue;
    for (let m = 0; m < ids.length; m++) {
      const share = (sRen[m] as Float64Array)[x] as number;
      stands[m] = 0;
      if (share === 0) continue;
      const seen = evidence.reachable === null ? 1 : (evidence.reachable[m]?.[x] ?? 0);
      const q = share * survival(partial, m, x, last) * span.quiet(x, last) * seen;
      stands[m] = q;
      tables.addReachable(m, x, any * q);
    }
    mixSurvival(kernels, acting, x, mixed);
    const passed = span.passed(x);
    // Two chains at a time: reading `mixed` once for both is a third quicker.
    for (let i = 0; i < chains.length; i += 2) {
      const h = chains[i] as number;
      const a = arriving[h * width + x] as number;
      tables.addJoint(h, a, stands);
      const other = chains[i + 1];
      if (other === undefined) lay(left, h * width + x, a / passed, mixed, last - x);
      else {
        const b = arriving[other * width + x] as number;
        tables.addJoint(other, b, stands);
        layBoth(left, h * width + x, a / passed, other * width + x, b / passed, mixed, last - x);
      }
    }
  }
}

/** `lay` of two numbers of pieces at two places. */
function layBoth(
  left: Float64Array,
  at: number,
  pieces: number,
  otherAt: number,
  otherPieces: number,
  byAge: Float64Array,
  oldest: number,
): void {
  for (let age = 0; age <= oldest; age++) {
    const share = byAge[age] as number;
    left[at + age] = (left[at + age] as number) + pieces * share;
    left[otherAt + age] = (left[otherAt + age] as number) + otherPieces * share;
  }
}

/** Pieces of h, still within reach since they were put in, that meet their first partial renewal in each year; false
 * if there are none. */
function firstArrivals(
  { last, partial }: Kernels,
  span: RecordSpan,
  standing: Float64Array,
  first: number,
  h: number,
  arriving: Float64Array,
): boolean {
  const from = h * (last + 1);
  const left = scratch(2, last + 1);
  const age = partial.byAge[h] as Float64Array;
  const year = partial.byYear[h] as Float64Array;
  const ages = reach(partial, h, last);
  let any = false;
  for (let u = first; u <= last; u++) {
    if (any) {
      // What does not age is carried on from year to year.
      if (ages === null) left[u] = left[u - 1] as number;
      const gone =
        (year[u - 1] as number) * (left[u - 1] as number) - (year[u] as number) * (left[u] as number);
      if (gone > 0) arriving[from + u] = gone * span.arrive(u);
    }
    const v = standing[from + u] as number;
    if (v === 0) continue;
    any = true;
    lay(left, u, v / ((year[u] as number) * span.passed(u)), age, Math.min(ages ?? 0, last - u));
  }
  return any;
}

/** Chance that a partial renewal of year x is followed by no other up to each later year, by the years since, mixed
 * over renewal shares. */
function mixSurvival(
  { last, sRen, partial }: Kernels,
  acting: (number | null)[],
  x: number,
  mixed: Float64Array,
): void {
  let lasting = 0;
  for (let m = 0; m < sRen.length; m++)
    if (acting[m] === null) lasting += (sRen[m] as Float64Array)[x] as number;
  mixed.fill(lasting, 0, last - x + 1);
  for (let m = 0; m < sRen.length; m++) {
    const share = (sRen[m] as Float64Array)[x] as number;
    const ages = acting[m];
    if (share === 0 || ages === null || ages === undefined) continue;
    const byAge = partial.byAge[m] as Float64Array;
    const byYear = partial.byYear[m] as Float64Array;
    const pieces = share / (byYear[x] as number);
    const oldest = Math.min(ages, last - x);
    for (let age = 0; age <= oldest; age++)
      mixed[age] = (mixed[age] as number) + pieces * (byAge[age] as number) * (byYear[x + age] as number);
  }
}
