import type { ShareTable, System, Wave } from '../../knowledge/schema/system.ts';
import { exp, log, pow } from '../numerics/functions.ts';

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

/** Builds the kernels of a system from year `from` to year `asOf`. */
export function makeKernels(
  system: Pick<System, 'shares' | 'waves'>,
  materials: RenewalMaterial[],
  from: number,
  asOf: number,
  factor: (id: string) => number = () => 1,
): Kernels {
  const last = asOf - from;
  const all = [...materials, { id: 'none', life: null, shape: 1, whole: 1 }];
  const ids = all.map((m) => m.id);
  return {
    from,
    last,
    ids,
    sNew: sharesByYear(system.shares.new, ids, from, last, factor),
    sRen: sharesByYear(system.shares.renewal, ids, from, last, factor),
    ...makeClocks(all, system.waves, from, last),
  };
}

/** Linear between the table's years, constant outside, region factors applied, made to add to 1. */
export function sharesByYear(
  table: ShareTable,
  ids: string[],
  from: number,
  last: number,
  factor: (id: string) => number,
): Float64Array[] {
  const rows = ids.map((id) => {
    const row = table.rows[id];
    return Float64Array.from({ length: last + 1 }, (_, t) =>
      row === undefined ? 0 : factor(id) * between(table.years, row, from + t),
    );
  });
  for (let t = 0; t <= last; t++) {
    const sum = rows.reduce((total, row) => total + (row[t] ?? 0), 0);
    if (sum > 0) for (const row of rows) row[t] = (row[t] ?? 0) / sum;
  }
  return rows;
}

function between(years: number[], values: number[], year: number): number {
  let right = 0;
  while (right < years.length && (years[right] ?? 0) < year) right++;
  if (right === 0) return values[0] ?? 0;
  if (right === years.length) return values[right - 1] ?? 0;
  const x0 = years[right - 1] ?? 0;
  const x1 = years[right] ?? 0;
  const w = (year - x0) / (x1 - x0);
  return (1 - w) * (values[right - 1] ?? 0) + w * (values[right] ?? 0);
}

function makeClocks(
  materials: RenewalMaterial[],
  waves: Wave[],
  from: number,
  last: number,
): { complete: Clock; partial: Clock } {
  const complete: Clock = { byAge: [], byYear: [] };
  const partial: Clock = { byAge: [], byYear: [] };
  const hazards = waves.map((w) => -log(1 - Math.min(w.rate, 0.9)));
  const survived = (hazard: number): number => exp(-Math.min(600, hazard));
  for (const m of materials) {
    const wear = Float64Array.from({ length: last + 1 }, (_, age) =>
      m.life === null ? 0 : Math.LN2 * pow(age / m.life, m.shape),
    );
    complete.byAge.push(wear.map((w) => survived(m.whole * w)));
    partial.byAge.push(wear.map((w) => survived((1 - m.whole) * w)));
    const whole = new Float64Array(last + 1);
    const part = new Float64Array(last + 1);
    waves.forEach((wave, i) => {
      if (!wave.of.includes(m.id) && (m.id === 'none' || !wave.of.includes('any'))) return;
      const hazard = hazards[i] ?? 0;
      let sum = 0;
      for (let t = Math.max(0, wave.from - from); t <= last; t++) {
        if (from + t <= wave.to) sum += hazard;
        whole[t] = (whole[t] ?? 0) + sum * wave.whole;
        part[t] = (part[t] ?? 0) + sum * (1 - wave.whole);
      }
    });
    complete.byYear.push(whole.map(survived));
    partial.byYear.push(part.map(survived));
  }
  return { complete, partial };
}

const stepCache = new WeakMap<Kernels, Float64Array>();

/** Chance that a partial renewal of year x meets the next one in year u, mixed over renewal shares: row x,
 * column u, `last + 1` wide. Made once for each kernels. */
export function partialSteps(kernels: Kernels): Float64Array {
  const ready = stepCache.get(kernels);
  if (ready !== undefined) return ready;
  const { last, sRen, partial } = kernels;
  const width = last + 1;
  const steps = new Float64Array(width * width);
  for (let m = 0; m < sRen.length; m++) {
    const share = sRen[m] as Float64Array;
    const age = partial.byAge[m] as Float64Array;
    const year = partial.byYear[m] as Float64Array;
    for (let x = 0; x < width; x++) {
      const s = share[x] as number;
      if (s < NEGLIGIBLE) continue;
      const scale = s / (year[x] as number);
      let before = s;
      for (let u = x + 1; u < width; u++) {
        const now = scale * (age[u - x] as number) * (year[u] as number);
        const at = x * width + u;
        steps[at] = (steps[at] as number) + before - now;
        before = now;
      }
    }
  }
  stepCache.set(kernels, steps);
  return steps;
}

/** Shares below this are skipped: they cannot be seen in the result. */
export const NEGLIGIBLE = 1e-12;
