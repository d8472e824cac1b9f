import type { Check } from '../../knowledge/schema/check.ts';
import type { Geometry } from './geometry.ts';
import { shortestOrder } from './order.ts';
import { type Shape, shapeOf } from './shape.ts';

/** One thing to do on the walk. */
export interface Task {
  id: string;
  /** Stop at which it is done: index into the geometry. */
  stop: number;
  /** When in the walk it stands: the check's phase, but the door comes first, the crawl last. */
  phase: Check['phase'];
  minutes: number;
  people: 1 | 2;
  /** Has a hazard that the trainees are not signed off for. */
  guided: boolean;
  /** Always done: usual scope, it guards life, or the person pinned it. */
  fixed: boolean;
  /** Tasks that must be in the walk and end before this one starts. */
  needs: number[];
  /** Tasks that, if they are in the walk, end before this one starts. */
  follows: number[];
  /** Tasks that, if they are in the walk, ended so many minutes before. */
  waits: { after: number; minutes: number }[];
  /** Failure modes it may bring to light: index into the targets, and chance. */
  finds: { target: number; chance: number }[];
}

/** A failure mode of the house with what it is worth to bring it to light. */
export interface Target {
  failure: string;
  worth: number;
}

/** Where everybody stands when the plan begins: at the door at minute 0, or in the middle of a walk. */
export interface Begin {
  /** Minute at which each person is free, and the stop they are at. */
  time: number[];
  stop: number[];
  /** End of each task that is done already. */
  done: Map<number, number>;
  /** Stops that are open already. */
  opened: Set<number>;
}

/** When in a person's route a task stands. `first` is before any water runs; `pair` takes the first two people. */
export const BLOCKS = ['arrival', 'first', 'start-up', 'main', 'pair', 'last', 'closing'] as const;
export type Block = (typeof BLOCKS)[number];

/** A walk to be chosen and timed: everything about the house and the day that the choice doesn't change. */
export interface Problem {
  team: number;
  /** [stop * team + person] 1 if the stop may belong to the person: none to a trainee where a guided task stands. */
  mayOwn: Uint8Array;
  geometry: Geometry;
  tasks: Task[];
  targets: Target[];
  begin: Begin;
  /** Whether the plan begins in the middle of a walk. */
  begun: boolean;
  door: number;
  end: number;
  block: Block[];
  /** All tasks in the order in which anybody would do them: by block, then stop, then rank. */
  sequence: number[];
  /** Stops that belong to one person: those of the main walk and of the low work. */
  owned: number[];
  /** Tasks at each stop. */
  tasksAt: number[][];
  /** Each task with everything that it needs, and everything that needs it. */
  closure: number[][];
  dependents: number[][];
}

export interface ProblemInput {
  team: number;
  /** How many of the team are trainees: the last ones. */
  trainees?: number;
  geometry: Geometry;
  tasks: Task[];
  targets: Target[];
  /** Stops that should come before others, given up from the last if they run in a circle. */
  prefer: [number, number][];
  begin?: Begin;
}

export function makeProblem(input: ProblemInput): Problem {
  const { geometry, team } = input;
  const door = geometry.at.get('arrival') ?? 0;
  return {
    team,
    mayOwn: ownersAllowed(input),
    geometry,
    tasks: input.tasks,
    targets: input.targets,
    begin: input.begin ?? {
      time: new Array<number>(team).fill(0),
      stop: new Array<number>(team).fill(door),
      done: new Map(),
      opened: new Set(),
    },
    begun: input.begin !== undefined,
    door,
    end: geometry.at.get('closing') ?? door,
    ...shapeOf(input, () => makeShape(input)),
  };
}

function makeShape(input: ProblemInput): Shape {
  const { tasks, geometry, team } = input;
  const door = geometry.at.get('arrival') ?? 0;
  const end = geometry.at.get('closing') ?? door;
  const block = tasks.map((task) => blockOf(task, door, team));
  const rank = rankTasks(tasks);
  const started = orderStops(input, ['start-up'], door, geometry.at.get('main-rooms') ?? end, []);
  const walked = orderStops(input, ['main', 're-read'], door, end, input.prefer);
  const place = (i: number): number =>
    (block[i] === 'start-up' ? started : walked).indexOf(tasks[i]?.stop ?? 0);
  const sequence = tasks
    .map((_, i) => ({ i, block: BLOCKS.indexOf(block[i] ?? 'main'), place: place(i), rank: rank[i] ?? 0 }))
    .sort((a, b) => a.block - b.block || a.place - b.place || a.rank - b.rank)
    .map((t) => t.i);
  const owned = [
    ...new Set(tasks.flatMap((t, i) => (block[i] === 'main' || block[i] === 'last' ? [t.stop] : []))),
  ].sort((a, b) => a - b);
  const needed: number[][] = tasks.map(() => []);
  tasks.forEach((t, j) => {
    for (const i of new Set(t.needs)) needed[i]?.push(j);
  });
  return {
    block,
    sequence,
    owned,
    tasksAt: geometry.stops.map((_, stop) => tasks.flatMap((t, i) => (t.stop === stop ? [i] : []))),
    closure: tasks.map((_, i) => reach([i], (t) => tasks[t]?.needs ?? [])),
    dependents: tasks.map((_, i) => reach([i], (t) => needed[t] ?? [])),
  };
}

function ownersAllowed({ team, trainees = 0, geometry, tasks }: ProblemInput): Uint8Array {
  const allowed = new Uint8Array(geometry.stops.length * team).fill(1);
  for (const { stop, guided } of tasks)
    if (guided) allowed.fill(0, stop * team + team - trainees, (stop + 1) * team);
  return allowed;
}

/** The tasks that are always done, with all that they need and that is not done yet. */
export function fixedTasks({ tasks, closure, begin }: Problem): number[] {
  const fixed = tasks.flatMap((task, i) => (task.fixed ? (closure[i] ?? []) : []));
  return [...new Set(fixed)].filter((i) => !begin.done.has(i)).sort((a, b) => a - b);
}

/** People whose time a task takes: everybody at the door, two where safety asks, else one. */
export function peopleFor(problem: Problem, i: number): number {
  const block = problem.block[i];
  if (block === 'arrival' || block === 'closing') return problem.team;
  return block === 'pair' ? Math.min(2, problem.team) : 1;
}

function blockOf(task: Task, door: number, team: number): Block {
  if (task.phase === 'arrival') return task.stop === door ? 'arrival' : 'first';
  if (task.phase === 'closing') return 'closing';
  if (task.people === 2 && team > 1) return 'pair';
  return task.phase === 're-read' ? 'main' : task.phase;
}

/** Order of all tasks that honours what they follow; at equal standing re-reads come last and the usual scope first, what
 * others need before the rest, and a round that may show much before a look at one thing. */
function rankTasks(tasks: Task[]): number[] {
  const rank = new Array<number>(tasks.length).fill(-1);
  const needed = new Array<number>(tasks.length).fill(0);
  for (const t of tasks) for (const i of new Set(t.needs)) needed[i] = (needed[i] ?? 0) + 1;
  const left = tasks
    .map((task, i) => ({
      i,
      late: task.phase === 're-read' ? 1 : 0,
      extra: task.fixed ? 0 : 1,
      needed: needed[i] ?? 0,
      finds: task.finds.length,
    }))
    .sort(
      (a, b) => a.late - b.late || a.extra - b.extra || b.needed - a.needed || b.finds - a.finds || a.i - b.i,
    )
    .map((t) => t.i);
  for (let next = 0; left.length > 0; next++) {
    const ready = left.findIndex((i) => before(tasks[i]).every((need) => rank[need] !== -1));
    const [chosen] = left.splice(Math.max(0, ready), 1);
    if (chosen !== undefined) rank[chosen] = next;
  }
  return rank;
}

/** Every task that comes before this one where both are in the walk. */
function before(task: Task | undefined): number[] {
  return task === undefined ? [] : [...task.needs, ...task.follows, ...task.waits.map((w) => w.after)];
}

/** Shortest order of the stops of these phases. What tasks need of each other binds first, then stops where
 * something is read again come after the rest, then the preferences. */
function orderStops(
  { tasks, geometry }: ProblemInput,
  phases: string[],
  door: number,
  end: number,
  prefer: [number, number][],
): number[] {
  const own = tasks.filter((t) => phases.includes(t.phase));
  const nodes = [...new Set(own.map((t) => t.stop))].sort((a, b) => a - b);
  const late = new Set(own.filter((t) => t.phase === 're-read').map((t) => t.stop));
  const pairs: [number, number][] = own.flatMap((task) =>
    before(task).flatMap((need): [number, number][] => {
      const other = tasks[need];
      return other !== undefined && phases.includes(other.phase) ? [[other.stop, task.stop]] : [];
    }),
  );
  for (const b of late) for (const a of nodes) if (!late.has(a)) pairs.push([a, b]);
  pairs.push(...prefer);
  const position = new Map(nodes.map((stop, i) => [stop, i]));
  const local = pairs.flatMap(([a, b]): [number, number][] => {
    const [i, j] = [position.get(a), position.get(b)];
    return i === undefined || j === undefined || i === j ? [] : [[i, j]];
  });
  return shortestOrder(geometry, nodes, door, end, local);
}

function reach(from: number[], next: (i: number) => number[]): number[] {
  const all = new Set(from);
  for (const i of all) for (const j of next(i)) all.add(j);
  return [...all];
}
