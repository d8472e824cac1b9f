import { type Geometry, walkMinutes } from './geometry.ts';
import type { Task } from './tasks.ts';

/** A task at its time. */
export interface Slot {
  task: number;
  person: number;
  stop: number;
  start: number;
  end: number;
  /** Minutes of opening the stop that this task's start pays for (first task there). */
  opening: number;
}

export interface Schedule {
  slots: Slot[];
  /** Minutes from arrival until everybody is done. */
  length: number;
}

/** Everything about the house that a schedule needs and that choosing checks doesn't change. */
export interface Setting {
  geometry: Geometry;
  tasks: Task[];
  team: number;
  /** Order of the stops in the quick start-up round and in the main walk. */
  startOrder: number[];
  mainOrder: number[];
}

interface Step {
  task: number;
  stop: number;
  /** Everyone is there for it: arrival and closing; or the first two people. */
  together: 'no' | 'pair' | 'all';
}

/** Times every chosen task: arrival together, the start-up round, the main walk with each stop entered once,
 * dirty and low work last, closing together. Waits are kept by standing idle, if the order leaves no other way.
 * Returns null where the tasks wait for each other. */
export function schedule(setting: Setting, chosen: readonly number[]): Schedule | null {
  const routes = makeRoutes(setting, chosen);
  return simulate(setting, chosen, routes);
}

function makeRoutes(setting: Setting, chosen: readonly number[]): Step[][] {
  const { tasks, team, geometry } = setting;
  const byStop = (phases: string[], people: 1 | 2): Map<number, number[]> => {
    const map = new Map<number, number[]>();
    for (const i of chosen) {
      const check = tasks[i]?.check;
      if (check === undefined || !phases.includes(check.phase) || (check.people === 2) !== (people === 2)) continue;
      const stop = geometry.at.get(check.stop) ?? 0;
      map.set(stop, [...(map.get(stop) ?? []), i]);
    }
    return map;
  };
  const steps = (stop: number, list: number[] | undefined, together: Step['together'] = 'no'): Step[] =>
    ordered(tasks, list ?? []).map((task) => ({ task, stop, together }));

  const arrival = byStop(['arrival'], 1);
  const closing = byStop(['closing'], 1);
  const starts = byStop(['start-up'], 1);
  const main = byStop(['main', 're-read'], 1);
  const last = byStop(['last'], 1);
  const pair = byStop(['start-up', 'main', 're-read', 'last'], 2);

  const routes: Step[][] = Array.from({ length: team }, () => [...arrival].flatMap(([s, l]) => steps(s, l, 'all')));
  const lead = routes[0] as Step[];
  const suited = routes[team - 1] as Step[];
  for (const stop of setting.startOrder) lead.push(...steps(stop, starts.get(stop)));
  const owner = shareStops(setting, main, minutesOf(tasks, starts), minutesOf(tasks, last));
  for (const stop of setting.mainOrder) routes[owner.get(stop) ?? 0]?.push(...steps(stop, main.get(stop)));
  if (team > 1)
    for (const [stop, list] of pair)
      for (const route of routes.slice(0, 2)) route.push(...steps(stop, list, 'pair'));
  for (const [stop, list] of last) suited.push(...steps(stop, list));
  for (const route of routes) for (const [s, l] of closing) route.push(...steps(s, l, 'all'));
  return routes;
}

/** Tasks of one stop in an order that honours their needs; re-reads after the rest, else by id. */
function ordered(tasks: Task[], list: number[]): number[] {
  const left = [...list].sort((a, b) => {
    const late = (i: number): number => (tasks[i]?.check.phase === 're-read' ? 1 : 0);
    return late(a) - late(b) || a - b;
  });
  const result: number[] = [];
  while (left.length > 0) {
    const ready = left.findIndex((i) => before(tasks, i).every((need) => !left.includes(need)));
    result.push(...left.splice(Math.max(0, ready), 1));
  }
  return result;
}

/** Every task that must come before task i. */
export function before(tasks: Task[], i: number): number[] {
  const task = tasks[i];
  return task === undefined ? [] : [...task.needs, ...task.waits.map((w) => w.after)];
}

/** Gives each stop of the main walk to one person: longest stop to whoever has least to do. */
function shareStops(
  setting: Setting,
  main: Map<number, number[]>,
  leadMinutes: number,
  lastMinutes: number,
): Map<number, number> {
  const { tasks, team, geometry } = setting;
  const owner = new Map<number, number>();
  if (team === 1) return owner;
  const load = new Array<number>(team).fill(0);
  load[0] = leadMinutes;
  load[team - 1] = (load[team - 1] ?? 0) + lastMinutes;
  const work = [...main].map(([stop, list]) => ({
    stop,
    minutes: list.reduce((sum, i) => sum + (tasks[i]?.minutes ?? 0), 0) + (geometry.opening[stop] ?? 0) + 1,
  }));
  work.sort((a, b) => b.minutes - a.minutes || a.stop - b.stop);
  for (const { stop, minutes } of work) {
    const person = load.indexOf(Math.min(...load));
    owner.set(stop, person);
    load[person] = (load[person] ?? 0) + minutes;
  }
  return owner;
}

function minutesOf(tasks: Task[], stops: Map<number, number[]>): number {
  let sum = 0;
  for (const list of stops.values()) for (const i of list) sum += tasks[i]?.minutes ?? 0;
  return sum;
}

/** Walks the routes in time: always the person who can start next soonest; who waits for another, waits. */
function simulate(setting: Setting, chosen: readonly number[], routes: Step[][]): Schedule | null {
  const { tasks, geometry } = setting;
  const inWalk = new Set(chosen);
  const ended = new Map<number, number>();
  const opened = new Set<number>();
  const slots: Slot[] = [];
  const door = geometry.at.get('arrival') ?? 0;
  const people = routes.map((route) => ({ route, next: 0, time: 0, stop: door }));

  const earliest = (step: Step, arrive: number): number | null => {
    const task = tasks[step.task];
    if (task === undefined) return null;
    let start = arrive;
    for (const need of task.needs) {
      if (!inWalk.has(need)) continue;
      const end = ended.get(need);
      if (end === undefined) return null;
      start = Math.max(start, end);
    }
    for (const wait of task.waits) {
      if (!inWalk.has(wait.after)) continue;
      const end = ended.get(wait.after);
      if (end === undefined) return null;
      start = Math.max(start, end + wait.minutes);
    }
    return start;
  };

  for (;;) {
    let best: { start: number; person: number } | null = null;
    people.forEach((p, person) => {
      const step = p.route[p.next];
      if (step === undefined) return;
      const group = step.together === 'all' ? people : step.together === 'pair' ? people.slice(0, 2) : [p];
      if (step.together !== 'no' && person !== 0) return;
      if (group.some((other) => other.route[other.next]?.task !== step.task)) return;
      const arrive = Math.max(...group.map((other) => other.time + walkMinutes(geometry, other.stop, step.stop)));
      const start = earliest(step, arrive);
      if (start !== null && (best === null || start < best.start - 1e-9)) best = { start, person };
    });
    if (best === null) break;
    const { start, person } = best as { start: number; person: number };
    const step = people[person]?.route[people[person]?.next ?? 0];
    if (step === undefined) break;
    const opening = opened.has(step.stop) ? 0 : (geometry.opening[step.stop] ?? 0);
    opened.add(step.stop);
    const end = start + opening + (tasks[step.task]?.minutes ?? 0);
    slots.push({ task: step.task, person, stop: step.stop, start, end, opening });
    ended.set(step.task, end);
    const group = step.together === 'all' ? people : step.together === 'pair' ? people.slice(0, 2) : [people[person]];
    for (const p of group) {
      if (p === undefined) continue;
      p.time = end;
      p.stop = step.stop;
      p.next++;
    }
  }
  if (people.some((p) => p.next < p.route.length)) return null;
  return { slots, length: Math.max(0, ...people.map((p) => p.time)) };
}
