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
 * first before second). Exact, by dynamic programming over subsets; at most 14 nodes. A pair that would close a
 * circle with those before it in the list is given up. */
export function shortestOrder(
  geometry: Geometry,
  nodes: number[],
  start: number,
  end: number,
  before: [number, number][],
): number[] {
  const n = nodes.length;
  if (n === 0) return [];
  if (n > MOST_NODES) throw new RangeError(`a walk of ${n} stops is too many: at most ${MOST_NODES}`);
  const precede = precedence(n, before);
  const size = 1 << n;
  const cost = new Float64Array(size * n).fill(Number.POSITIVE_INFINITY);
  const from = new Int8Array(size * n).fill(-1);
  const distance = Float64Array.from({ length: n * n }, (_, k) =>
    walkMinutes(geometry, nodes[Math.floor(k / n)] ?? 0, nodes[k % n] ?? 0),
  );
  const reached = new Uint8Array(size);
  for (let j = 0; j < n; j++)
    if (precede[j] === 0) {
      cost[(1 << j) * n + j] = walkMinutes(geometry, start, nodes[j] ?? 0);
      reached[1 << j] = 1;
    }
  for (let set = 1; set < size; set++) {
    if (reached[set] !== 1) continue;
    for (let k = 0; k < n; k++) {
      if ((set & (1 << k)) !== 0 || ((precede[k] ?? 0) & ~set) !== 0) continue;
      const next = set | (1 << k);
      reached[next] = 1;
      for (let j = 0; j < n; j++) {
        const through = (cost[set * n + j] ?? Number.POSITIVE_INFINITY) + (distance[j * n + k] ?? 0);
        if (through < (cost[next * n + k] ?? 0) - 1e-9) {
          cost[next * n + k] = through;
          from[next * n + k] = j;
        }
      }
    }
  }
  return readBack(cost, from, nodes, (stop) => walkMinutes(geometry, stop, end));
}

const MOST_NODES = 14;

/** For each node the set of those that come before it, pairs that would close a circle left out. */
function precedence(n: number, before: [number, number][]): Int32Array {
  const precede = new Int32Array(n);
  for (const [a, b] of before) {
    if (a === b || ((precede[a] ?? 0) & (1 << b)) !== 0) continue;
    const added = (precede[a] ?? 0) | (1 << a);
    for (let k = 0; k < n; k++)
      if (k === b || ((precede[k] ?? 0) & (1 << b)) !== 0) precede[k] = (precede[k] ?? 0) | added;
  }
  return precede;
}

function readBack(
  cost: Float64Array,
  from: Int8Array,
  nodes: number[],
  home: (stop: number) => number,
): number[] {
  const n = nodes.length;
  const whole = (1 << n) - 1;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < n; j++) {
    const total = (cost[whole * n + j] ?? Number.POSITIVE_INFINITY) + home(nodes[j] ?? 0);
    if (total < least - 1e-9) {
      least = total;
      best = j;
    }
  }
  const order: number[] = [];
  for (let set = whole, j = best; j >= 0; ) {
    order.push(nodes[j] ?? 0);
    const previous = from[set * n + j] ?? -1;
    set &= ~(1 << j);
    j = previous;
  }
  return order.reverse();
}
