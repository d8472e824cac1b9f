import type { Fit } from '../../knowledge/schema/fit.ts';
import type { ShareTable, System } from '../../knowledge/schema/system.ts';

/** What of a system's renewal process is fitted: log-offsets of shares at knots, log-factors of lives and of wave
 * rates. All zero gives the authored process, which is the centre of the priors. Shares authored as zero stay
 * zero: nothing is fitted outside the years in which a material was sold. */
export const NEW_KNOTS = [1880, 1900, 1912, 1922, 1932, 1941, 1949, 1956, 1963, 1971, 1980, 1990, 1998, 2006];
export const RENEWAL_KNOTS = [1905, 1930, 1945, 1955, 1965, 1975, 1987, 2000];

/** Prior standard deviations: offsets, their steps between knots, lives and rates (docs/model.md, section 8). */
const SD = { offset: 1.5, step: 0.8, life: 0.4, rate: 0.7 };

export interface Process {
  shares: { new: ShareTable; renewal: ShareTable };
  lives: Record<string, number>;
  waves: System['waves'];
}

export class Parameters {
  readonly #start: Process;
  readonly #ids: string[];
  readonly #newIds: string[];
  readonly #renewalIds: string[];

  constructor(start: Process) {
    this.#start = start;
    this.#ids = Object.keys(start.lives);
    this.#newIds = Object.keys(start.shares.new.rows);
    this.#renewalIds = Object.keys(start.shares.renewal.rows);
  }

  get length(): number {
    return (
      this.#newIds.length * NEW_KNOTS.length +
      this.#renewalIds.length * RENEWAL_KNOTS.length +
      this.#ids.length +
      this.#start.waves.length
    );
  }

  /** The process that the parameters stand for. */
  apply(x: Float64Array): Process {
    let at = 0;
    const table = (source: ShareTable, ids: string[], knots: number[]): ShareTable => {
      const years = [...new Set([...source.years, ...knots.filter((k) => k > (source.years[0] ?? 0))])].sort(
        (a, b) => a - b,
      );
      const rows = Object.fromEntries(
        ids.map((id) => {
          const offsets = Array.from(x.subarray(at, at + knots.length));
          at += knots.length;
          const row = source.rows[id] ?? [];
          return [id, years.map((y) => between(source.years, row, y) * Math.exp(between(knots, offsets, y)))];
        }),
      );
      return { ...source, years, rows: wholeColumns(rows) };
    };
    const shares = {
      new: table(this.#start.shares.new, this.#newIds, NEW_KNOTS),
      renewal: table(this.#start.shares.renewal, this.#renewalIds, RENEWAL_KNOTS),
    };
    const lives = Object.fromEntries(
      this.#ids.map((id) => [id, (this.#start.lives[id] ?? 1) * Math.exp(x[at++] ?? 0)]),
    );
    const waves = this.#start.waves.map((w) => ({
      ...w,
      rate: Math.min(0.6, w.rate * Math.exp(x[at++] ?? 0)),
    }));
    return { shares, lives, waves };
  }

  /** Minus the log of the priors, up to a constant. */
  penalty(x: Float64Array): number {
    let sum = 0;
    let at = 0;
    const curve = (knots: number): void => {
      for (let k = 0; k < knots; k++) {
        const value = x[at + k] ?? 0;
        sum += 0.5 * (value / SD.offset) ** 2;
        if (k > 0) sum += 0.5 * ((value - (x[at + k - 1] ?? 0)) / SD.step) ** 2;
      }
      at += knots;
    };
    for (const _ of this.#newIds) curve(NEW_KNOTS.length);
    for (const _ of this.#renewalIds) curve(RENEWAL_KNOTS.length);
    for (const _ of this.#ids) sum += 0.5 * ((x[at++] ?? 0) / SD.life) ** 2;
    for (const _ of this.#start.waves) sum += 0.5 * ((x[at++] ?? 0) / SD.rate) ** 2;
    return sum;
  }
}

/** Linear between knots, constant outside. */
export function between(years: readonly number[], values: readonly number[], year: number): number {
  let right = 0;
  while (right < years.length && (years[right] ?? 0) < year) right++;
  if (right === 0) return values[0] ?? 0;
  if (right === years.length) return values[right - 1] ?? 0;
  const x0 = years[right - 1] ?? 0;
  const w = (year - x0) / ((years[right] ?? 0) - x0);
  return (1 - w) * (values[right - 1] ?? 0) + w * (values[right] ?? 0);
}

/** Makes every column add to 1. */
function wholeColumns(rows: Record<string, number[]>): Record<string, number[]> {
  const ids = Object.keys(rows);
  const width = rows[ids[0] ?? '']?.length ?? 0;
  const sums = Array.from({ length: width }, (_, c) =>
    ids.reduce((sum, id) => sum + (rows[id]?.[c] ?? 0), 0),
  );
  return Object.fromEntries(
    ids.map((id) => [id, (rows[id] ?? []).map((v, c) => (sums[c] ? v / (sums[c] ?? 1) : v))]),
  );
}

export function roundedFit(process: Process, rest: Pick<Fit, 'system' | 'states' | 'made'>): Fit {
  const table = (t: ShareTable): ShareTable => ({
    ...t,
    grade: 'measured',
    source: [rest.made.source],
    rows: exactColumns(t.rows),
  });
  return {
    ...rest,
    shares: { new: table(process.shares.new), renewal: table(process.shares.renewal) },
    lives: Object.fromEntries(Object.entries(process.lives).map(([id, v]) => [id, Math.round(v * 10) / 10])),
    waves: process.waves.map((w) => ({ ...w, rate: Math.round(w.rate * 1e5) / 1e5 })),
  };
}

/** Four decimals in every column, the largest share taking up the rounding. */
function exactColumns(rows: Record<string, number[]>): Record<string, number[]> {
  const ids = Object.keys(rows);
  const result = Object.fromEntries(ids.map((id) => [id, (rows[id] ?? []).map((v) => Math.round(v * 1e4))]));
  const width = result[ids[0] ?? '']?.length ?? 0;
  for (let c = 0; c < width; c++) {
    const total = ids.reduce((sum, id) => sum + (result[id]?.[c] ?? 0), 0);
    const largest = ids.reduce((a, b) => ((result[a]?.[c] ?? 0) >= (result[b]?.[c] ?? 0) ? a : b));
    const row = result[largest];
    if (row !== undefined) row[c] = (row[c] ?? 0) + 10000 - total;
  }
  return Object.fromEntries(ids.map((id) => [id, (result[id] ?? []).map((v) => v / 1e4)]));
}
