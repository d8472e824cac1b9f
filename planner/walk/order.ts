import { type Geometry, walkMinutes } from './geometry.ts';

/** Stops that one order may hold. */
const MOST_NODES = 14;

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
  const tours = new Tours(geometry, nodes, { from: (stop) => walkMinutes(geometry, start, stop), before });
  return tours.order(tours.whole, (stop) => walkMinutes(geometry, stop, end));
}

export interface TourRules {
  /** Minutes until each stop is reached if it is the first. */
  from: (stop: number) => number;
  /** Pairs of node positions: first before second. */
  before: [number, number][];
  /** Set of the nodes that a tour need not enter; nothing waits for them. */
  free?: number;
}

/** Least walking through sets of nodes that honours what comes before what, by the set and its last node (Held and
 * Karp). */
export class Tours {
  /** Set of all nodes. */
  readonly whole: number;
  readonly #nodes: number[];
  readonly #cost: Float64Array;
  readonly #from: Int8Array;

  constructor(geometry: Geometry, nodes: number[], { from, before, free = 0 }: TourRules) {
    const n = nodes.length;
    if (n > MOST_NODES) throw new RangeError(`a walk of ${n} stops is too many: at most ${MOST_NODES}`);
    const size = 1 << n;
    this.whole = size - 1;
    this.#nodes = nodes;
    this.#cost = new Float64Array(size * n).fill(Number.POSITIVE_INFINITY);
    this.#from = new Int8Array(size * n).fill(-1);
    const precede = precedence(n, before).map((set) => set & ~free);
    const distance = Float64Array.from({ length: n * n }, (_, k) =>
      walkMinutes(geometry, nodes[Math.floor(k / n)] ?? 0, nodes[k % n] ?? 0),
    );
    const reached = new Uint8Array(size);
    for (let j = 0; j < n; j++)
      if (precede[j] === 0) {
        this.#cost[(1 << j) * n + j] = from(nodes[j] ?? 0);
        reached[1 << j] = 1;
      }
    for (let set = 1; set < size; set++)
      if (reached[set] === 1) this.#extend(set, precede, distance, reached);
  }

  /** Minutes of the least tour through a set that ends at the node at this position. */
  ending(set: number, at: number): number {
    return this.#cost[set * this.#nodes.length + at] ?? Number.POSITIVE_INFINITY;
  }

  /** Minutes of the least tour through a set, with the way home; infinite if the rules forbid the set. */
  least(set: number, home: (stop: number) => number): number {
    return this.#best(set, home).minutes;
  }

  /** The stops of the least tour through a set, in order. */
  order(set: number, home: (stop: number) => number): number[] {
    const n = this.#nodes.length;
    const order: number[] = [];
    for (let left = set, j = this.#best(set, home).last; j >= 0; ) {
      order.push(this.#nodes[j] ?? 0);
      const previous = this.#from[left * n + j] ?? -1;
      left &= ~(1 << j);
      j = previous;
    }
    return order.reverse();
  }

  #extend(set: number, precede: Int32Array, distance: Float64Array, reached: Uint8Array): void {
    const n = this.#nodes.length;
    for (let k = 0; k < n; k++) {
      if ((set & (1 << k)) !== 0 || ((precede[k] ?? 0) & ~set) !== 0) continue;
      const next = set | (1 << k);
      reached[next] = 1;
      for (let j = 0; j < n; j++) {
        const through = (this.#cost[set * n + j] ?? Number.POSITIVE_INFINITY) + (distance[j * n + k] ?? 0);
        if (through < (this.#cost[next * n + k] ?? 0) - 1e-9) {
          this.#cost[next * n + k] = through;
          this.#from[next * n + k] = j;
        }
      }
    }
  }

  #best(set: number, home: (stop: number) => number): { last: number; minutes: number } {
    let last = -1;
    let minutes = Number.POSITIVE_INFINITY;
    for (let j = 0; j < this.#nodes.length; j++) {
      const total = this.ending(set, j) + home(this.#nodes[j] ?? 0);
      if (total < minutes - 1e-9) {
        minutes = total;
        last = j;
      }
    }
    return { last, minutes };
  }
}

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
