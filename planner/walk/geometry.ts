import type { Base } from '../../knowledge/schema/base.ts';

/** Walking minutes between the stops of a house. */
export interface Geometry {
  stops: string[];
  at: Map<string, number>;
  /** [from * n + to] shortest walking minutes. */
  minutes: Float64Array;
  /** Minutes to open each stop: suit, hatch, ladder. */
  opening: number[];
}

/** Shortest walks between stops, from the neighbours that stops.yaml names. */
export function makeGeometry(stops: Base['stops']): Geometry {
  const n = stops.length;
  const at = new Map(stops.map((s, i) => [s.id as string, i]));
  const minutes = new Float64Array(n * n).fill(60);
  stops.forEach((stop, i) => {
    minutes[i * n + i] = 0;
    for (const [id, walk] of Object.entries(stop.near)) {
      const j = at.get(id);
      if (j === undefined || walk === undefined) continue;
      minutes[i * n + j] = Math.min(minutes[i * n + j] ?? 60, walk);
      minutes[j * n + i] = Math.min(minutes[j * n + i] ?? 60, walk);
    }
  });
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const via = (minutes[i * n + k] ?? 60) + (minutes[k * n + j] ?? 60);
        if (via < (minutes[i * n + j] ?? 60)) minutes[i * n + j] = via;
      }
  return { stops: stops.map((s) => s.id), at, minutes, opening: stops.map((s) => s.opening) };
}

export function walkMinutes(geometry: Geometry, from: number, to: number): number {
  return geometry.minutes[from * geometry.stops.length + to] ?? 0;
}

/** Order of the nodes that walks least from `start` to `end` and honours `before` (pairs of node positions:
 * first before second). Exact, by dynamic programming over subsets; at most 14 nodes. Pairs that form a circle
 * are given up, last first. */
export function shortestOrder(
  geometry: Geometry,
  nodes: number[],
  start: number,
  end: number,
  before: [number, number][],
): number[] {
  for (let pairs = before.length; ; pairs--) {
    const order = orderWith(geometry, nodes, start, end, before.slice(0, pairs));
    if (order !== null) return order;
    if (pairs === 0) return nodes;
  }
}

function orderWith(
  geometry: Geometry,
  nodes: number[],
  start: number,
  end: number,
  before: [number, number][],
): number[] | null {
  const n = nodes.length;
  if (n === 0) return [];
  if (n > MOST_NODES) throw new RangeError(`a walk of ${n} stops is too many: at most ${MOST_NODES}`);
  const mustPrecede = new Int32Array(n);
  for (const [a, b] of before) mustPrecede[b] = (mustPrecede[b] ?? 0) | (1 << a);
  const size = 1 << n;
  const cost = new Float64Array(size * n).fill(Number.POSITIVE_INFINITY);
  const from = new Int8Array(size * n).fill(-1);
  const distance = (a: number, b: number): number => walkMinutes(geometry, nodes[a] ?? 0, nodes[b] ?? 0);
  for (let j = 0; j < n; j++)
    if (mustPrecede[j] === 0) cost[(1 << j) * n + j] = walkMinutes(geometry, start, nodes[j] ?? 0);
  for (let set = 1; set < size; set++)
    for (let j = 0; j < n; j++) {
      const here = cost[set * n + j] ?? Number.POSITIVE_INFINITY;
      if (here === Number.POSITIVE_INFINITY) continue;
      for (let k = 0; k < n; k++) {
        if ((set & (1 << k)) !== 0 || ((mustPrecede[k] ?? 0) & ~set) !== 0) continue;
        const next = (set | (1 << k)) * n + k;
        const through = here + distance(j, k);
        if (through < (cost[next] ?? 0) - 1e-9) {
          cost[next] = through;
          from[next] = j;
        }
      }
    }
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  const whole = size - 1;
  for (let j = 0; j < n; j++) {
    const total = (cost[whole * n + j] ?? Number.POSITIVE_INFINITY) + walkMinutes(geometry, nodes[j] ?? 0, end);
    if (total < least - 1e-9) {
      least = total;
      best = j;
    }
  }
  if (best < 0) return null;
  const order: number[] = [];
  for (let set = whole, j = best; j >= 0; ) {
    order.push(nodes[j] ?? 0);
    const previous = from[set * n + j] ?? -1;
    set &= ~(1 << j);
    j = previous;
  }
  return order.reverse();
}

const MOST_NODES = 14;
