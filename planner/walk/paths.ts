import { type Geometry, walkMinutes } from './geometry.ts';
import { Tours } from './order.ts';
import { fixedTasks, type Problem } from './problem.ts';
import { isOwned } from './routes.ts';
import { onceForShape } from './shape.ts';

/** Walks over more stops than this are bounded by the walks over some of them: leaving stops out never lengthens one. */
const MOST_NODES = 11;
/** The same for one person, whose stops need not be shared out. */
const MOST_ALONE = 14;

/** Walking minutes that a team can't do without, by the set of stops it enters. */
export interface LeastWalking {
  /** Stops that a set may hold or not; bit i of a set is stop `free[i]`. */
  free: number[];
  /** [people who stay at the door][set of the free stops], besides the stops always entered. */
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
  const minutes = Array.from({ length: team }, (_, stay) =>
    Float64Array.from({ length: 1 << free.length }, (__, set) => {
      const p = team - 1 - stay;
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

/** The same for the team of a problem, worked out once for its shape. */
export function leastWalkTogether(problem: Problem, always: number[], sometimes: number[]): LeastWalking {
  return onceForShape(walksTogether, problem, `${always} ${sometimes}`, () =>
    leastWalking(problem.geometry, always, sometimes, problem),
  );
}

const walksTogether = new WeakMap<Problem['sequence'], Map<string, LeastWalking>>();

/** Least walking of one person alone, the start-up round first, by the set of the stops that may be entered or not; what
 * the checks always done ask of the order is honoured as far as the walk honours it. */
export function leastWalkAlone(problem: Problem, always: number[], sometimes: number[]): LeastWalking {
  const key = `${always} ${sometimes}`;
  return onceForShape(walksAlone, problem, key, () => walkAlone(problem, always, sometimes));
}

const walksAlone = new WeakMap<Problem['sequence'], Map<string, LeastWalking>>();

function walkAlone(problem: Problem, always: number[], sometimes: number[]): LeastWalking {
  const { geometry, end } = problem;
  const reaches = leadReaches(problem);
  const free = sometimes.slice(0, MOST_ALONE);
  const nodes = [...free, ...always.slice(0, MOST_ALONE - free.length)];
  const position = new Map(nodes.map((stop, i) => [stop, i]));
  const tours = new Tours(geometry, nodes, {
    from: reaches,
    before: keptRules(problem).flatMap(([a, b]): [number, number][] => {
      const [i, j] = [position.get(a), position.get(b)];
      return i === undefined || j === undefined ? [] : [[i, j]];
    }),
    free: (1 << free.length) - 1,
  });
  const held = tours.whole & ~((1 << free.length) - 1);
  const home = (stop: number): number => walkMinutes(geometry, stop, end);
  const minutes = Float64Array.from({ length: 1 << free.length }, (_, set) =>
    (set | held) === 0 ? reaches(end) : tours.least(set | held, home),
  );
  return { free, minutes: [minutes], uncounted: sometimes.slice(MOST_ALONE) };
}

/** Least minutes that the lead walks to reach a stop through the start-up round, work there left out. */
export function leadReaches(problem: Problem): (stop: number) => number {
  const { geometry, door, tasks, block } = problem;
  const round = fixedTasks(problem).filter((i) => block[i] === 'first' || block[i] === 'start-up');
  const nodes = [...new Set(round.map((i) => tasks[i]?.stop ?? 0))];
  if (nodes.length === 0) return (stop) => walkMinutes(geometry, door, stop);
  const tours = new Tours(geometry, nodes, { from: (stop) => walkMinutes(geometry, door, stop), before: [] });
  return (stop) => tours.least(tours.whole, (last) => walkMinutes(geometry, last, stop));
}

/** Pairs of stops, the first entered before the second in every walk: what checks always done need of each other, things
 * read again after the rest, low work last. Only what the order of the walk honours. */
function keptRules(problem: Problem): [number, number][] {
  const { tasks, block, sequence } = problem;
  const fixed = fixedTasks(problem).filter((i) => isOwned(problem, i));
  const stopOf = (i: number): number => tasks[i]?.stop ?? 0;
  const stops = [...new Set(fixed.map(stopOf))];
  const late = new Set(fixed.filter((i) => tasks[i]?.phase === 're-read').map(stopOf));
  const low = new Set(fixed.filter((i) => block[i] === 'last').map(stopOf));
  const order = new Map<number, number>();
  sequence.forEach((i, at) => {
    if (isOwned(problem, i) && !order.has(stopOf(i))) order.set(stopOf(i), at);
  });
  const pairs: [number, number][] = fixed.flatMap((i) => {
    const task = tasks[i];
    const before =
      task === undefined ? [] : [...task.needs, ...task.follows, ...task.waits.map((w) => w.after)];
    return before.filter((b) => fixed.includes(b)).map((b): [number, number] => [stopOf(b), stopOf(i)]);
  });
  for (const a of stops)
    for (const b of stops)
      if ((late.has(b) && !late.has(a)) || (low.has(b) && !low.has(a))) pairs.push([a, b]);
  return pairs.filter(([a, b]) => (order.get(a) ?? 0) < (order.get(b) ?? 0));
}

/** Shortest path through every set of nodes; none through the empty set. */
export function pathBySet(
  geometry: Geometry,
  nodes: number[],
  door: number,
  end: number,
  from: (stop: number) => number = (stop) => walkMinutes(geometry, door, stop),
): Float64Array {
  const n = nodes.length;
  const size = 1 << n;
  const d = Float64Array.from({ length: n * n }, (_, k) =>
    walkMinutes(geometry, nodes[Math.floor(k / n)] ?? 0, nodes[k % n] ?? 0),
  );
  const home = nodes.map((node) => walkMinutes(geometry, node, end));
  const cost = new Float64Array(size * n);
  const path = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const members = new Int32Array(n);
  for (let set = 1; set < size; set++) {
    let count = 0;
    for (let j = 0; j < n; j++) if ((set & (1 << j)) !== 0) members[count++] = j;
    let whole = Number.POSITIVE_INFINITY;
    for (let b = 0; b < count; b++) {
      const last = members[b] ?? 0;
      const rest = (set ^ (1 << last)) * n;
      let least = count === 1 ? from(nodes[last] ?? 0) : Number.POSITIVE_INFINITY;
      for (let a = 0; a < count; a++) {
        if (a === b) continue;
        const j = members[a] ?? 0;
        const through = (cost[rest + j] ?? 0) + (d[j * n + last] ?? 0);
        if (through < least) least = through;
      }
      cost[set * n + last] = least;
      whole = Math.min(whole, least + (home[last] ?? 0));
    }
    path[set] = whole;
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
