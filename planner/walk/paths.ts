import { type Geometry, walkMinutes } from './geometry.ts';

/** Walks over more stops than this are bounded by the walks over some of them: leaving stops out never lengthens one. */
const MOST_NODES = 11;

/** Walking minutes that a team can't do without, by the set of stops it enters. */
export interface LeastWalking {
  /** Stops that a set may hold or not; bit i of a set is stop `free[i]`. */
  free: number[];
  /** [people out - 1][set of the free stops], besides the stops always entered. */
  minutes: Float64Array[];
  /** Stops too many to be told apart in sets: their walking is not counted. */
  uncounted: number[];
}

/** Shortest walks from `door` to `end` through the stops always entered and each set of the others, shared out among
 * one person, two, and so on: paths by Held and Karp, shared out by splitting off the path that holds the first stop. */
export function leastWalking(
  geometry: Geometry,
  always: number[],
  sometimes: number[],
  ends: { door: number; end: number; team: number },
): LeastWalking {
  const { door, end, team } = ends;
  const free = sometimes.slice(0, MOST_NODES);
  const nodes = [...free, ...always.slice(0, MOST_NODES - free.length)];
  const dropped = always.length + sometimes.length - nodes.length;
  const path = pathBySet(geometry, nodes, door, end);
  const there = walkMinutes(geometry, door, end);
  const held = (path.length - 1) & ~((1 << free.length) - 1);
  // Exactly so many people with a stop of their own; who goes straight to the end walks `there`.
  const exactly = [path];
  for (let people = 2; people <= team; people++) exactly.push(splitOff(path, exactly.at(-1) ?? path));
  const minutes = Array.from({ length: team }, (_, p) =>
    Float64Array.from({ length: 1 << free.length }, (__, set) => {
      let least = Number.POSITIVE_INFINITY;
      // Somebody may enter only stops that were left out.
      for (let out = Math.max(0, p + 1 - dropped); out <= p + 1; out++) {
        const sole =
          out === 0
            ? (set | held) === 0
              ? 0
              : Number.POSITIVE_INFINITY
            : (exactly[out - 1]?.[set | held] ?? 0);
        least = Math.min(least, sole + (p + 1 - out) * there);
      }
      return least;
    }),
  );
  return { free, minutes, uncounted: sometimes.slice(MOST_NODES) };
}

/** Shortest path through every set of nodes; none through the empty set. */
export function pathBySet(geometry: Geometry, nodes: number[], door: number, end: number): Float64Array {
  const n = nodes.length;
  const size = 1 << n;
  const d = Float64Array.from({ length: n * n }, (_, k) =>
    walkMinutes(geometry, nodes[Math.floor(k / n)] ?? 0, nodes[k % n] ?? 0),
  );
  const home = nodes.map((node) => walkMinutes(geometry, node, end));
  const cost = new Float64Array(size * n).fill(Number.POSITIVE_INFINITY);
  const path = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  for (let j = 0; j < n; j++) cost[(1 << j) * n + j] = walkMinutes(geometry, door, nodes[j] ?? 0);
  for (let set = 1; set < size; set++)
    for (let j = 0; j < n; j++) {
      const here = cost[set * n + j] ?? Number.POSITIVE_INFINITY;
      if (here === Number.POSITIVE_INFINITY) continue;
      const whole = here + (home[j] ?? 0);
      if (whole < (path[set] ?? 0)) path[set] = whole;
      for (let k = 0; k < n; k++) {
        if ((set & (1 << k)) !== 0) continue;
        const next = (set | (1 << k)) * n + k;
        const through = here + (d[j * n + k] ?? 0);
        if (through < (cost[next] ?? 0)) cost[next] = through;
      }
    }
  return path;
}

/** One person more: the path with the set's first stop, and the rest as before. */
function splitOff(path: Float64Array, rest: Float64Array): Float64Array {
  const split = new Float64Array(path.length).fill(Number.POSITIVE_INFINITY);
  for (let set = 1; set < path.length; set++) {
    const first = set & -set;
    const others = set ^ first;
    let least = Number.POSITIVE_INFINITY;
    for (let part = (others - 1) & others; others !== 0; part = (part - 1) & others) {
      const sum = (path[part | first] ?? 0) + (rest[others ^ part] ?? 0);
      if (sum < least) least = sum;
      if (part === 0) break;
    }
    split[set] = least;
  }
  return split;
}
