/** The tables of a posterior in one piece of memory, so that mixing them is one loop. */
export class FlatTables {
  readonly values: Float64Array;
  readonly #materials: number;
  readonly #width: number;

  constructor(materials: number, width: number) {
    this.#materials = materials;
    this.#width = width;
    this.values = new Float64Array(materials * (3 * width + materials));
  }

  /** The tables given as rows, copied. */
  static of(rows: ReturnType<FlatTables['rows']>): FlatTables {
    const made = new FlatTables(rows.hidden.length, rows.hidden[0]?.length ?? 0);
    let at = 0;
    for (const table of [rows.hidden, rows.reachable, rows.same, rows.joint])
      for (const row of table) {
        made.values.set(row, at);
        at += row.length;
      }
    return made;
  }

  /** A piece that stands in the hidden portion; `same` of it is within reach too. */
  setHidden(m: number, y: number, hidden: number, same: number): void {
    const n = this.#materials;
    const w = this.#width;
    const { values } = this;
    const at = m * w + y;
    values[at] = hidden;
    values[n * w + at] = same;
    values[2 * n * w + at] = same;
    const both = 3 * n * w + m * n + m;
    values[both] = (values[both] as number) + same;
  }

  addReachable(m: number, y: number, p: number): void {
    const at = this.#materials * this.#width + m * this.#width + y;
    this.values[at] = (this.values[at] as number) + p;
  }

  /** Adds `p` times each reachable material's `odds`, hidden material h beside it. */
  addJoint(h: number, p: number, odds: Float64Array): void {
    const { values } = this;
    const n = this.#materials;
    const at = 3 * n * this.#width + h * n;
    for (let m = 0; m < n; m++) values[at + m] = (values[at + m] as number) + p * (odds[m] as number);
  }

  /** Adds another's values, each times `weight`. */
  add(other: FlatTables, weight: number): void {
    const to = this.values;
    const from = other.values;
    for (let i = 0; i < to.length; i++) to[i] = (to[i] as number) + weight * (from[i] as number);
  }

  /** Chance that material m is in either portion, or, if `both`, in both. */
  chanceOf(m: number, both = false): number {
    const [n, w] = [this.#materials, this.#width];
    const { values } = this;
    const together = values[3 * n * w + m * n + m] as number;
    if (both) return together;
    let sum = -together;
    for (let t = m * w; t < (m + 1) * w; t++) sum += (values[t] as number) + (values[n * w + t] as number);
    return Math.min(1, Math.max(0, sum));
  }

  /** Rows as views into the same memory. */
  rows(): { hidden: Float64Array[]; reachable: Float64Array[]; same: Float64Array[]; joint: Float64Array[] } {
    const [n, w] = [this.#materials, this.#width];
    const table = (from: number, width: number): Float64Array[] =>
      Array.from({ length: n }, (_, m) => this.values.subarray(from + m * width, from + (m + 1) * width));
    return {
      hidden: table(0, w),
      reachable: table(n * w, w),
      same: table(2 * n * w, w),
      joint: table(3 * n * w, n),
    };
  }
}
