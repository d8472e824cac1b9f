import { between, recordYears } from './backward.ts';
import { type Evidence, RecordSpan } from './evidence.ts';
import type { Grid } from './grid.ts';
import { NEGLIGIBLE } from './kernels.ts';

/** Likelihood of the evidence along histories that never hold material `out` in either portion, for a house built at each
 * of the grid's build years; along all histories if `out` is null. Unlike in the plain backward pass, partial work before
 * a later complete renewal counts too: it must keep clear as well, so each span is weighed by the chance of that. */
export function avoiding(grid: Grid, evidence: Evidence, out: number | null): Float64Array {
  const { nodes, materials, built } = grid;
  const span =
    evidence.records.length === 0
      ? silent(nodes.length - 1)
      : new RecordSpan(onNodes(evidence, nodes), nodes.length - 1);
  const pass = new Pass(grid, evidence, span, out);
  for (let t = nodes.length - 1; t > 0; t--) {
    let mixed = 0;
    for (let i = 0; i < materials; i++) {
      const share = i === out ? 0 : (grid.renewal[i]?.[t] ?? 0);
      if (share >= NEGLIGIBLE) mixed += share * pass.from(i, t, t);
    }
    pass.afterComplete[t] = mixed * span.atComplete(t);
  }
  const z = new Float64Array(built.length);
  built.forEach((t, b) => {
    for (let i = 0; i < materials; i++) {
      const share = i === out ? 0 : (grid.first[i]?.[b] ?? 0);
      if (share >= NEGLIGIBLE) z[b] = (z[b] as number) + share * pass.from(i, nodes.length + b, t);
    }
  });
  return z;
}

/** One backward pass over the grid. */
class Pass {
  /** Likelihood of everything after a complete renewal at each node. */
  readonly afterComplete: Float64Array;
  /** Row v, column e: chance that the partial work from a partial renewal at v to the end of e keeps clear. */
  readonly #clear: Float64Array;
  /** Likelihood of the reachable portion's evidence after a partial renewal at each node. */
  readonly #seen: Float64Array;
  readonly #met: Float64Array;
  readonly #grid: Grid;
  readonly #evidence: Evidence;
  readonly #span: RecordSpan;
  readonly #recordYears: number[];

  constructor(grid: Grid, evidence: Evidence, span: RecordSpan, out: number | null) {
    const width = grid.nodes.length;
    this.#grid = grid;
    this.#evidence = evidence;
    this.#span = span;
    this.#recordYears = recordYears(evidence.records, grid.nodes[width - 1] as number);
    this.afterComplete = new Float64Array(width);
    this.#met = new Float64Array(width);
    this.#clear = new Float64Array(width * width);
    this.#seen = new Float64Array(width);
    const step = new Float64Array(width);
    for (let v = width - 1; v > 0; v--) this.#followPartial(v, out, step);
  }

  /** Chances after a partial renewal at node v, mixed over what is put in then. */
  #followPartial(v: number, out: number | null, step: Float64Array): void {
    const { nodes, materials, renewal, partial } = this.#grid;
    const span = this.#span;
    const width = nodes.length;
    const last = width - 1;
    const row = v * width;
    const clear = this.#clear;
    step.fill(0);
    let seen = 0;
    for (let i = 0; i < materials; i++) {
      const share = i === out ? 0 : (renewal[i]?.[v] ?? 0);
      if (share < NEGLIGIBLE) continue;
      const stays = partial[i] as Float64Array;
      seen += share * (stays[row + last] as number) * this.#weight(this.#evidence.reachable, i, v);
      let before = share;
      for (let e = v; e <= last; e++) {
        const now = share * (stays[row + e] as number);
        clear[row + e] = (clear[row + e] as number) + now;
        step[e] = (step[e] as number) + before - now;
        before = now;
      }
    }
    if (!span.silent) seen *= span.quiet(v, last);
    if (!span.silent)
      for (let e = v; e <= last; e++) clear[row + e] = (clear[row + e] as number) * span.quiet(v, e);
    for (let x = v + 1; x <= last; x++) {
      const chance = (step[x] as number) * (span.silent ? 1 : span.toPartial(v, x));
      if (chance < NEGLIGIBLE) continue;
      seen += chance * (this.#seen[x] as number);
      for (let e = x; e <= last; e++)
        clear[row + e] = (clear[row + e] as number) + chance * (clear[x * width + e] as number);
    }
    this.#seen[v] = seen;
  }

  /** Likelihood of everything from work in both portions with material i at node t. `row` tells work of a renewal from
   * that of the year built. */
  from(i: number, row: number, t: number): number {
    const { nodes, complete, partial } = this.#grid;
    const span = this.#span;
    const width = nodes.length;
    const last = width - 1;
    const at = row * width;
    const whole = complete[i] as Float64Array;
    const stays = partial[i] as Float64Array;
    const met = this.#met;
    const place = row < width ? t : row;
    let sum = 0;
    for (let u = t + 1; u <= last; u++) {
      const event = (whole[at + u - 1] as number) - (whole[at + u] as number);
      met[u] = event * (this.afterComplete[u] as number) * this.#ofStay(i, place, u);
      sum += (met[u] as number) * (stays[at + u - 1] as number) * (span.silent ? 1 : span.quiet(t, u - 1));
    }
    let today =
      (stays[at + last] as number) *
      (span.silent ? 1 : span.quiet(t, last)) *
      this.#weight(this.#evidence.reachable, i, place);
    for (let v = t + 1; v <= last; v++) {
      const event = (stays[at + v - 1] as number) - (stays[at + v] as number);
      const step = event * (span.silent ? 1 : span.toPartial(t, v));
      if (step < NEGLIGIBLE) continue;
      today += step * (this.#seen[v] as number);
      let clear = 0;
      const offset = v * width - 1;
      for (let u = v + 1; u <= last; u++) clear += (met[u] as number) * (this.#clear[offset + u] as number);
      sum += step * clear;
    }
    return sum + (whole[at + last] as number) * this.#weight(this.#evidence.hidden, i, place) * today;
  }

  /** What records say of a stay with material i that began with the work of a row and ended at node u. */
  #ofStay(i: number, row: number, u: number): number {
    const { stays } = this.#evidence;
    if (stays === undefined) return 1;
    const { nodes, since, until } = this.#grid;
    const done = ((since[row] as number) + (until[row] as number)) >> 1;
    return between(stays, this.#recordYears, i, done, nodes[u] as number);
  }

  /** Mean weight of the evidence over the years that a row of the grid stands for. */
  #weight(weights: Float64Array[] | null, i: number, row: number): number {
    const own = weights?.[i];
    if (own === undefined) return 1;
    const from = this.#grid.since[row] as number;
    const to = this.#grid.until[row] as number;
    let sum = 0;
    for (let y = from; y <= to; y++) sum += own[y] as number;
    return sum / (to - from + 1);
  }
}

/** Records by the node whose years hold theirs. */
function onNodes(evidence: Evidence, nodes: Int32Array): Evidence['records'] {
  return evidence.records.map((r) => {
    const at = nodes.findIndex((year) => year >= r.year);
    return { ...r, year: at };
  });
}

/** The span without records, for each length of grid. */
function silent(last: number): RecordSpan {
  const ready = silences[last] ?? new RecordSpan([], last);
  silences[last] = ready;
  return ready;
}

const silences: RecordSpan[] = [];
