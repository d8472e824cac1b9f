import type { ShareTable, System } from '../../knowledge/schema/system.ts';
import type { LossSlope } from './class-loss.ts';

export interface Process {
  shares: { new: ShareTable; renewal: ShareTable };
  lives: Record<string, number>;
  waves: System['waves'];
}

/** How freely a system's process is fitted: knots of the log-offsets of shares, and prior standard deviations. Offsets
 * are about the authored tables; `offset` is of a whole curve (its root mean square), `step` of the difference between
 * offsets ten years apart (docs/model.md, section 8). */
export interface Design {
  newKnots: readonly number[];
  renewalKnots: readonly number[];
  sd: {
    offset: number;
    step: number;
    renewalOffset: number;
    renewalStep: number;
    life: number;
    rate: number;
  };
}

const HIGHEST_RATE = 0.6;

/** What of a system's renewal process is fitted: log-offsets of shares at knots, log-factors of lives and of wave
 * rates. All zero gives the authored process, which is the centre of the priors. Shares authored as zero stay
 * zero: nothing is fitted outside the years in which a material was sold. */
export class Parameters {
  readonly #start: Process;
  readonly #design: Design;
  readonly #tables: OffsetTable[];
  readonly #ids: string[];

  constructor(start: Process, design: Design) {
    this.#start = start;
    this.#design = design;
    this.#ids = Object.keys(start.lives);
    const { offset, step, renewalOffset, renewalStep } = design.sd;
    this.#tables = [
      new OffsetTable(start.shares.new, design.newKnots, { offset, step }),
      new OffsetTable(start.shares.renewal, design.renewalKnots, {
        offset: renewalOffset,
        step: renewalStep,
      }),
    ];
  }

  get length(): number {
    return this.#sharesLength + this.#ids.length + this.#start.waves.length;
  }

  get #sharesLength(): number {
    return this.#tables.reduce((sum, table) => sum + table.length, 0);
  }

  /** The process that the parameters stand for. */
  apply(x: Float64Array): Process {
    const [fresh, renewal] = this.#split(x);
    let at = this.#sharesLength;
    return {
      shares: { new: this.#table(0).apply(fresh), renewal: this.#table(1).apply(renewal) },
      lives: Object.fromEntries(
        this.#ids.map((id) => [id, (this.#start.lives[id] ?? 1) * Math.exp(x[at++] ?? 0)]),
      ),
      waves: this.#start.waves.map((w) => ({
        ...w,
        rate: Math.min(HIGHEST_RATE, w.rate * Math.exp(x[at++] ?? 0)),
      })),
    };
  }

  /** Slope by the parameters, given that by the process (rows of `ids`, in years from `from` on). */
  slope(x: Float64Array, by: LossSlope, ids: readonly string[], from: number): Float64Array {
    const result = new Float64Array(x.length);
    const [fresh, renewal] = this.#split(x);
    result.set(this.#table(0).slope(fresh, rowsOf(by.sNew, ids), from), 0);
    result.set(this.#table(1).slope(renewal, rowsOf(by.sRen, ids), from), this.#table(0).length);
    let at = this.#sharesLength;
    for (const id of this.#ids) result[at++] = by.lives[ids.indexOf(id)] ?? 0;
    this.#start.waves.forEach((wave, w) => {
      const rate = wave.rate * Math.exp(x[at] ?? 0);
      result[at++] = rate < HIGHEST_RATE ? ((by.hazards[w] ?? 0) * rate) / (1 - rate) : 0;
    });
    return result;
  }

  /** Minus the log of the priors, up to a constant, and its slope. */
  penalty(x: Float64Array): { value: number; slope: Float64Array } {
    const slope = new Float64Array(x.length);
    let value = 0;
    let at = 0;
    for (const table of this.#tables) {
      value += table.penalty(x.subarray(at, at + table.length), slope.subarray(at, at + table.length));
      at += table.length;
    }
    const { life, rate } = this.#design.sd;
    for (; at < x.length; at++) {
      const sd = at < this.#sharesLength + this.#ids.length ? life : rate;
      value += 0.5 * ((x[at] ?? 0) / sd) ** 2;
      slope[at] = (x[at] ?? 0) / sd ** 2;
    }
    return { value, slope };
  }

  #split(x: Float64Array): [Float64Array, Float64Array] {
    const cut = this.#table(0).length;
    return [x.subarray(0, cut), x.subarray(cut, this.#sharesLength)];
  }

  #table(i: number): OffsetTable {
    const table = this.#tables[i];
    if (table === undefined) throw new RangeError(`no share table ${i}`);
    return table;
  }
}

/** A share table times the exponentials of offsets between knots, its columns made to add to 1. */
class OffsetTable {
  readonly length: number;
  readonly #source: ShareTable;
  readonly #knots: readonly number[];
  readonly #sd: { offset: number; step: number };
  readonly #ids: string[];
  readonly #years: number[];

  constructor(source: ShareTable, knots: readonly number[], sd: { offset: number; step: number }) {
    this.#source = source;
    this.#knots = knots;
    this.#sd = sd;
    this.#ids = Object.keys(source.rows);
    const first = source.years[0] ?? 0;
    this.#years = [...new Set([...source.years, ...knots.filter((k) => k > first)])].sort((a, b) => a - b);
    this.length = this.#ids.length * knots.length;
  }

  apply(x: Float64Array): ShareTable {
    const raw = this.#raw(x);
    const sums = this.#years.map((_, c) => raw.reduce((sum, row) => sum + (row[c] ?? 0), 0));
    const rows = Object.fromEntries(
      this.#ids.map((id, i) => [id, (raw[i] ?? []).map((v, c) => (sums[c] ? v / (sums[c] ?? 1) : v))]),
    );
    return { ...this.#source, years: this.#years, rows };
  }

  slope(x: Float64Array, byYear: Map<string, Float64Array>, from: number): Float64Array {
    const shares = this.apply(x).rows;
    const n = this.#knots.length;
    const result = new Float64Array(this.length);
    const byColumn = this.#ids.map((id) => gathered(this.#years, byYear.get(id), from));
    this.#years.forEach((year, c) => {
      const mean = this.#ids.reduce(
        (sum, id, i) => sum + (shares[id]?.[c] ?? 0) * (byColumn[i]?.[c] ?? 0),
        0,
      );
      const { left, right, w } = place(this.#knots, year);
      this.#ids.forEach((id, i) => {
        const byLog = (shares[id]?.[c] ?? 0) * ((byColumn[i]?.[c] ?? 0) - mean);
        result[i * n + left] = (result[i * n + left] ?? 0) + (1 - w) * byLog;
        result[i * n + right] = (result[i * n + right] ?? 0) + w * byLog;
      });
    });
    return result;
  }

  penalty(x: Float64Array, slope: Float64Array): number {
    const n = this.#knots.length;
    let value = 0;
    for (let at = 0; at < this.length; at++) {
      const k = at % n;
      const here = x[at] ?? 0;
      value += (0.5 * (here / this.#sd.offset) ** 2) / n;
      slope[at] = (slope[at] ?? 0) + here / this.#sd.offset ** 2 / n;
      if (k === 0) continue;
      const variance = (this.#sd.step ** 2 * ((this.#knots[k] ?? 0) - (this.#knots[k - 1] ?? 0))) / 10;
      const rise = here - (x[at - 1] ?? 0);
      value += (0.5 * rise ** 2) / variance;
      slope[at] = (slope[at] ?? 0) + rise / variance;
      slope[at - 1] = (slope[at - 1] ?? 0) - rise / variance;
    }
    return value;
  }

  #raw(x: Float64Array): number[][] {
    const n = this.#knots.length;
    return this.#ids.map((id, i) => {
      const row = this.#source.rows[id] ?? [];
      const offsets = x.subarray(i * n, (i + 1) * n);
      return this.#years.map((y) => {
        const { left, right, w } = place(this.#knots, y);
        const offset = (1 - w) * (offsets[left] ?? 0) + w * (offsets[right] ?? 0);
        return between(this.#source.years, row, y) * Math.exp(offset);
      });
    });
  }
}

function rowsOf(rows: Float64Array[], ids: readonly string[]): Map<string, Float64Array> {
  return new Map(rows.map((row, m) => [ids[m] ?? '', row]));
}

/** Slope by the values at `years`, given that by every year from `from` on. */
function gathered(years: readonly number[], byYear: Float64Array | undefined, from: number): Float64Array {
  const result = new Float64Array(years.length);
  byYear?.forEach((v, t) => {
    if (v === 0) return;
    const { left, right, w } = place(years, from + t);
    result[left] = (result[left] ?? 0) + (1 - w) * v;
    result[right] = (result[right] ?? 0) + w * v;
  });
  return result;
}

/** The knots on both sides of a year and the weight of the right one; outside, the end knot twice. */
function place(years: readonly number[], year: number): { left: number; right: number; w: number } {
  let right = 0;
  while (right < years.length && (years[right] ?? 0) < year) right++;
  if (right === 0) return { left: 0, right: 0, w: 0 };
  if (right === years.length) return { left: right - 1, right: right - 1, w: 0 };
  const x0 = years[right - 1] ?? 0;
  return { left: right - 1, right, w: (year - x0) / ((years[right] ?? 0) - x0) };
}

/** Linear between knots, constant outside. */
export function between(years: readonly number[], values: readonly number[], year: number): number {
  const { left, right, w } = place(years, year);
  return (1 - w) * (values[left] ?? 0) + w * (values[right] ?? 0);
}
