import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { Walk, WalkCheck, WalkStop } from '../plan-types.ts';
import { AT_ONCE } from './choose.ts';
import type { Choice } from './draft.ts';
import { Neighbourhood } from './neighbourhood.ts';
import { pose } from './pose.ts';
import type { Begin, Problem } from './problem.ts';
import { Search } from './search.ts';
import type { Tasks } from './tasks.ts';
import { writeWalk } from './walk.ts';

/** A check that was done: by whom (1 is the lead), from when, for how long. Times in minutes from the planned arrival. */
export interface Done {
  check: string;
  person: number;
  start: number;
  minutes: number;
}

/** Where a walk stands. */
export interface WalkState {
  /** The walk as it is shown. */
  shown: Walk;
  /** When something last changed what can be planned: nothing new starts before. Who is in the middle of what is shown
   * is free when what they did last ended. */
  now: number;
  done: Done[];
  /** Checks that turned out to be impossible today, and why. */
  shut: { check: string; why: string }[];
}

/** What happened. A check that ran long is `done` with the minutes it took; after a clue the caller passes the house and
 * the odds that it leads to. */
export type WalkEvent =
  | ({ kind: 'done' } & Done)
  | { kind: 'closed'; check: string; at: number; why: string }
  | { kind: 'refused'; check: string; at: number }
  | { kind: 'late'; minutes: number }
  | { kind: 'clue'; at: number };

/** One thing that is now otherwise than shown. */
export interface Change {
  check: string;
  title: string;
  what: 'added' | 'left out' | 'handed over';
  why: string;
}

/** Worth that a change of what is shown has to bring (in the units of stakes; practice). */
const PRICE = 0.3;

/** Steps of the search around what is shown. */
const STEPS = 120;

const SEED = 2_900;

/** Plans the rest of a walk anew. What is done keeps its times and people; what is shown stays unless a change is worth
 * it; every change is listed with its reason. The visit ends when it was to end. */
export function replan(
  index: BaseIndex,
  house: House,
  conditions: Condition[],
  before: WalkState,
  events: readonly WalkEvent[],
): { state: WalkState; changes: Change[] } {
  const state = events.reduce(happen, before);
  const shut = new Map(state.shut.map((s) => [s.check, s.why]));
  const doneIds = new Set(state.done.map((d) => d.check));
  for (const id of doneIds) shut.delete(id);
  const { problem, made } = pose(index, house, conditions, shut, (tasks, at) =>
    beginOf(state, tasks, at, house.visit.team),
  );
  const { choice, search, feasible } = chooseRest(problem, state.shown, house.visit.minutes);
  const minutesNeeded = feasible ? state.shown.minutesNeeded : Math.ceil(choice.length - 1e-9);
  const rest = writeWalk({
    index,
    house,
    conditions,
    problem,
    made,
    search,
    chosen: {
      feasible,
      minutesNeeded,
      best: choice,
      curve: [{ minutes: Math.max(house.visit.minutes, minutesNeeded), worth: choice.worth }],
      longer: choice,
      ladder: null,
    },
    effort: AT_ONCE,
  });
  const walk: Walk = { ...rest, stops: [...doneStops(index, state), ...rest.stops] };
  return { state: { ...state, shown: walk }, changes: changesOf(before.shown, walk, state, events) };
}

function happen(state: WalkState, event: WalkEvent): WalkState {
  switch (event.kind) {
    case 'done': {
      const { kind: _, ...done } = event;
      return { ...state, done: [...state.done, done] };
    }
    case 'closed':
      return shutting(state, event.check, event.at, event.why);
    case 'refused':
      return shutting(state, event.check, event.at, 'leave was refused');
    case 'late':
      return { ...state, now: Math.max(state.now, event.minutes) };
    case 'clue':
      return { ...state, now: Math.max(state.now, event.at) };
  }
}

function shutting(state: WalkState, check: string, at: number, why: string): WalkState {
  return { ...state, shut: [...state.shut, { check, why }], now: Math.max(state.now, at) };
}

/** Where everybody stands: at the stop of what they did last, free when it ended but not before now. */
function beginOf(state: WalkState, made: Tasks, at: ReadonlyMap<string, number>, team: number): Begin {
  const door = at.get('arrival') ?? 0;
  const time = new Array<number>(team).fill(state.now);
  const stop = new Array<number>(team).fill(door);
  const last = new Array<number>(team).fill(Number.NEGATIVE_INFINITY);
  const done = new Map<number, number>();
  const opened = new Set<number>();
  for (const { check, person, start, minutes } of state.done) {
    const task = made.checks.findIndex((c) => c.id === check);
    const where = made.tasks[task]?.stop;
    if (where === undefined) continue;
    const end = start + minutes;
    done.set(task, end);
    opened.add(where);
    const w = person - 1;
    if (end <= (last[w] ?? 0)) continue;
    last[w] = end;
    stop[w] = where;
    time[w] = Math.max(state.now, end);
  }
  return { time, stop, done, opened };
}

/** Starts from what is shown, drops what no longer fits, adds and trades where that pays for the change. */
function chooseRest(
  problem: Problem,
  shown: Walk,
  minutes: number,
): { choice: Choice; search: Search; feasible: boolean } {
  const chosen = new Uint8Array(problem.tasks.length);
  const owner = new Int8Array(problem.geometry.stops.length);
  const ids = new Set(shown.stops.flatMap((s) => s.checks.map((c) => c.check)));
  problem.tasks.forEach((task, i) => {
    if (ids.has(task.id) && !problem.begin.done.has(i)) chosen[i] = 1;
  });
  for (const stop of shown.stops) {
    const at = problem.geometry.at.get(stop.place) ?? 0;
    const person = Math.min(stop.person, problem.team) - 1;
    // A trainee joined since may not keep a stop with a hazard: the lead takes it.
    owner[at] = problem.mayOwn[at * problem.team + person] === 1 ? person : 0;
  }
  const search = new Search(problem, { chosen: chosen.slice(), owner: owner.slice(), price: PRICE });
  const least = search.least();
  if (least === null)
    throw new RangeError('the checks of this house wait for each other: see the rule "order"');
  if (least.length > minutes + 1e-9) return { choice: least, search, feasible: false };
  for (const i of search.fixed) chosen[i] = 1;
  const kept = search.draft({ chosen, owner, worth: 0, length: 0 }, minutes);
  const cut = search.settle(kept, minutes);
  const best = cut === null ? search.draft(least, minutes) : kept;
  const around = new Neighbourhood(search, best, cut ?? least.length, SEED);
  around.go(minutes, STEPS);
  return { choice: search.choice(best, around.length), search, feasible: true };
}

/** What is done, as stops with the times it took. */
function doneStops(index: BaseIndex, state: WalkState): WalkStop[] {
  const rows = new Map<string, { row: WalkCheck; stop: WalkStop }>();
  for (const stop of state.shown.stops) for (const row of stop.checks) rows.set(row.check, { row, stop });
  const stops: WalkStop[] = [];
  for (const { check, person, start, minutes } of [...state.done].sort(
    (a, b) => a.start - b.start || a.person - b.person,
  )) {
    const known = rows.get(check);
    const place = index.checks.get(check)?.stop;
    if (known === undefined || place === undefined) continue;
    const was = stops.findLast((s) => s.person === person);
    const row = { ...known.row, start, minutes };
    if (was !== undefined && was.place === place) {
      was.checks.push(row);
      was.minutes = round(start + minutes - was.start, 1);
    } else stops.push({ ...known.stop, place, person, start, minutes, waits: [], checks: [row] });
  }
  return stops;
}

function changesOf(was: Walk, now: Walk, state: WalkState, events: readonly WalkEvent[]): Change[] {
  const before = rowsOf(was);
  const after = rowsOf(now);
  const shut = new Map(state.shut.map((s) => [s.check, s.why]));
  const leftOut = new Map(now.leftOut.map((l) => [l.check, l.why]));
  const clue = events.some((e) => e.kind === 'clue');
  const done = new Set(state.done.map((d) => d.check));
  const changes: Change[] = [];
  for (const [check, { title, person }] of before) {
    const row = after.get(check);
    if (row === undefined)
      changes.push({
        check,
        title,
        what: 'left out',
        why: shut.get(check) ?? leftOut.get(check) ?? 'this house does not have it',
      });
    else if (row.person !== person && !done.has(check))
      changes.push({ check, title, what: 'handed over', why: `person ${row.person} is free for it sooner` });
  }
  for (const [check, { title }] of after)
    if (!before.has(check))
      changes.push({
        check,
        title,
        what: 'added',
        why: clue ? 'the clue raised what it is worth' : 'there is time for it now',
      });
  return changes.sort((a, b) => (a.check < b.check ? -1 : 1));
}

function rowsOf(walk: Walk): Map<string, { title: string; person: number }> {
  return new Map(
    walk.stops.flatMap((s) => s.checks.map((c) => [c.check, { title: c.title, person: s.person }] as const)),
  );
}
