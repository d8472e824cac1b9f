import type { Clock, Kernels } from './kernels.ts';

/** A system's process laid out on a coarse grid of years. Node k stands for the years since node k - 1; work done then is
 * taken as done in the middle of them. Work of a year built is a row of its own, exact to the year. */
export interface Grid {
  /** Year index of each node, rising; the last is the as-of year. */
  nodes: Int32Array;
  materials: number;
  /** Node of each build year. */
  built: number[];
  /** Years that each row stands for: the nodes', then those built. */
  since: Int32Array;
  until: Int32Array;
  /** [material][node] mean share of renewal work. */
  renewal: Float64Array[];
  /** [material][build year] share of new work. */
  first: number[][];
  /** [material], one row for each node and then each build year, one column a node: chance that work of the row has met
   * no event of the clock by the end of the node. */
  complete: Float64Array[];
  partial: Float64Array[];
}

/** Years from one node to the one before it, by how many years ago it is. */
export type Step = (ago: number) => number;

/** A grid with nodes `step` apart back from the as-of year, and one in each of the years built (indices into the kernels'
 * years). The years in `apart` are nodes of their own: a record weighs its year, not the years around it. */
export function makeGrid(
  kernels: Kernels,
  built: readonly number[],
  step: Step,
  apart: readonly number[] = [],
): Grid {
  const nodes = nodesOf(kernels.last, built, step, apart);
  const width = nodes.length;
  const rows = width + built.length;
  const since = new Int32Array(rows);
  const until = new Int32Array(rows);
  for (let k = 0; k < width; k++) {
    until[k] = nodes[k] as number;
    since[k] = k === 0 ? (nodes[0] as number) : (nodes[k - 1] as number) + 1;
  }
  built.forEach((year, b) => {
    since[width + b] = year;
    until[width + b] = year;
  });
  const at = built.map((year) => nodes.indexOf(year));
  const starts = new Int32Array(rows);
  for (let r = 0; r < rows; r++) starts[r] = r < width ? r : (at[r - width] as number);
  const rowsOf = (clock: Clock): Float64Array[] =>
    kernels.ids.map((_, i) => survivals(clock, i, { nodes, starts, since, until }));
  return {
    nodes,
    materials: kernels.ids.length,
    built: at,
    since,
    until,
    renewal: kernels.sRen.map((row) => meansOver(row, since, until, width)),
    first: kernels.sNew.map((row) => built.map((year) => row[year] ?? 0)),
    complete: rowsOf(kernels.complete),
    partial: rowsOf(kernels.partial),
  };
}

function nodesOf(last: number, built: readonly number[], step: Step, apart: readonly number[]): Int32Array {
  const first = Math.min(last, ...built);
  const years = new Set(built);
  for (let year = last; year > first; year -= step(last - year)) years.add(year);
  for (const year of apart)
    for (const end of [year - 1, year]) if (end > first && end <= last) years.add(end);
  return Int32Array.from(years).sort();
}

interface Layout {
  nodes: Int32Array;
  starts: Int32Array;
  since: Int32Array;
  until: Int32Array;
}

/** Chance that work of each row has met no event by the end of each node. */
function survivals(clock: Clock, i: number, { nodes, starts, since, until }: Layout): Float64Array {
  const width = nodes.length;
  const age = clock.byAge[i] as Float64Array;
  const year = clock.byYear[i] as Float64Array;
  const table = new Float64Array(starts.length * width);
  for (let r = 0; r < starts.length; r++) {
    const done = ((since[r] as number) + (until[r] as number)) >> 1;
    const scale = 1 / (year[done] as number);
    const start = starts[r] as number;
    table[r * width + start] = 1;
    for (let k = start + 1; k < width; k++) {
      const then = nodes[k] as number;
      table[r * width + k] = (age[then - done] as number) * (year[then] as number) * scale;
    }
  }
  return table;
}

function meansOver(row: Float64Array, since: Int32Array, until: Int32Array, width: number): Float64Array {
  const means = new Float64Array(width);
  for (let k = 0; k < width; k++) {
    const from = since[k] as number;
    const to = until[k] as number;
    let sum = 0;
    for (let y = from; y <= to; y++) sum += row[y] as number;
    means[k] = sum / (to - from + 1);
  }
  return means;
}
