import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { Walk, WalkCheck, WalkStop } from '../plan-types.ts';
import { Worth } from '../value/worth.ts';
import { type Choice, chooseChecks, upperBound } from './choose.ts';
import { type Geometry, makeGeometry, shortestOrder } from './geometry.ts';
import { before, type Schedule, type Setting, type Slot } from './schedule.ts';
import { makeTasks, type Task, type Tasks } from './tasks.ts';

/** Outdoors at or above this the attic comes before the rest (F). */
const HOT = 80;

/** Chooses the checks for the visit and puts them in order. */
export function makeWalk(index: BaseIndex, house: House, conditions: Condition[]): Walk {
  const { minutes, team } = house.visit;
  const made = makeTasks(index, house, conditions);
  const setting = makeSetting(index, house, made);
  const chosen = chooseChecks(setting, made.targets, minutes);
  if (chosen === null) throw new RangeError('the checks of this house wait for each other: see the rule "order"');
  const { best, feasible, minutesNeeded, curve } = chosen;
  return {
    feasible,
    minutes,
    minutesNeeded,
    minutesUsed: Math.ceil(best.schedule.length - 1e-9),
    worth: round(best.worth, 3),
    bound: round(upperBound(setting, made.targets, best, Math.max(minutes, minutesNeeded)), 3),
    stops: stopsOf(index, setting, made, best.schedule),
    leftOut: leftOut(made, best),
    curve: curve.map((c) => ({ minutes: c.minutes, worth: round(c.worth, 3) })),
    tools: toolsOf(index, setting, best, team),
  };
}

export function makeSetting(index: BaseIndex, house: House, made: Tasks): Setting {
  const geometry = makeGeometry(index.base.stops);
  const { tasks } = made;
  const orderFor = (phases: string[], end: string, extra: [string, string][]): number[] => {
    const nodes = [
      ...new Set(
        tasks.filter((t) => phases.includes(t.check.phase)).map((t) => geometry.at.get(t.check.stop) ?? 0),
      ),
    ].sort((a, b) => a - b);
    const pairs = [...needPairs(tasks, phases, geometry), ...latePairs(tasks, phases, geometry, nodes)];
    for (const [first, second] of extra) pairs.push([geometry.at.get(first) ?? -1, geometry.at.get(second) ?? -1]);
    const position = new Map(nodes.map((stop, i) => [stop, i]));
    const local = pairs.flatMap(([a, b]): [number, number][] => {
      const [i, j] = [position.get(a), position.get(b)];
      return i === undefined || j === undefined || i === j ? [] : [[i, j]];
    });
    return shortestOrder(geometry, nodes, geometry.at.get('arrival') ?? 0, geometry.at.get(end) ?? 0, local);
  };
  const hot = (house.visit.outdoorF ?? 60) >= HOT;
  const outsideFirst: [string, string][] = INSIDE.flatMap((room): [string, string][] => [
    ['street', room],
    ['exterior', room],
  ]);
  const preferences: [string, string][] = hot
    ? [['attic', 'exterior'], ['attic', 'upper-rooms'], ['attic', 'main-rooms']]
    : [['street', 'exterior'], ['exterior', 'roof'], ...outsideFirst];
  return {
    geometry,
    tasks,
    team: house.visit.team,
    startOrder: orderFor(['start-up'], 'main-rooms', []),
    mainOrder: orderFor(['main', 're-read'], 'closing', preferences),
  };
}

const INSIDE = ['main-rooms', 'kitchen', 'baths', 'upper-rooms', 'attic', 'mechanical', 'panel', 'basement'];

/** Pairs of stops whose tasks need each other in this order. */
function needPairs(tasks: Task[], phases: string[], geometry: Geometry): [number, number][] {
  return tasks.flatMap((task, i) => {
    if (!phases.includes(task.check.phase)) return [];
    return before(tasks, i).flatMap((need): [number, number][] => {
      const other = tasks[need];
      if (other === undefined || !phases.includes(other.check.phase)) return [];
      return [[geometry.at.get(other.check.stop) ?? 0, geometry.at.get(task.check.stop) ?? 0]];
    });
  });
}

/** Stops where something is read again come after the others, so that nobody has to come back for it. */
function latePairs(tasks: Task[], phases: string[], geometry: Geometry, nodes: number[]): [number, number][] {
  if (!phases.includes('re-read')) return [];
  const late = new Set(
    tasks.filter((t) => t.check.phase === 're-read').map((t) => geometry.at.get(t.check.stop) ?? 0),
  );
  const early = nodes.filter((n) => !late.has(n));
  return [...late].flatMap((b) => early.map((a): [number, number] => [a, b]));
}

function stopsOf(index: BaseIndex, setting: Setting, made: Tasks, schedule: Schedule): WalkStop[] {
  const titles = new Map<string, string>(index.base.stops.map((s) => [s.id, s.title]));
  const stops: (WalkStop & { end: number })[] = [];
  const current = new Map<number, WalkStop & { end: number }>();
  for (const slot of [...schedule.slots].sort((a, b) => a.start - b.start || a.person - b.person)) {
    const place = setting.geometry.stops[slot.stop] ?? '';
    let stop = current.get(slot.person);
    if (stop === undefined || stop.place !== place) {
      stop = {
        place,
        title: titles.get(place) ?? place,
        person: slot.person + 1,
        start: round(slot.start, 1),
        minutes: 0,
        checks: [],
        end: slot.end,
      };
      current.set(slot.person, stop);
      stops.push(stop);
    }
    stop.end = slot.end;
    stop.minutes = round(stop.end - stop.start, 1);
    stop.checks.push(walkCheck(made, slot));
  }
  return stops.map(({ end: _, ...stop }) => stop);
}

function walkCheck(made: Tasks, slot: Slot): WalkCheck {
  const task = made.tasks[slot.task];
  if (task === undefined) throw new RangeError(`no task ${slot.task}`);
  const { check } = task;
  const reasons = task.finds
    .map(({ target, chance }) => ({ target: made.targets[target], chance }))
    .flatMap(({ target, chance }) => (target === undefined ? [] : [{ id: target.failure, worth: target.worth * chance }]))
    .sort((a, b) => b.worth - a.worth || (a.id < b.id ? -1 : 1));
  return {
    check: check.id,
    title: check.title,
    start: round(slot.start + slot.opening, 1),
    minutes: task.minutes,
    for: reasons.slice(0, 5).map((r) => r.id),
    gate: check.gate,
    permission: check.permission ?? null,
    tools: check.tools,
    waits: task.check.waits.filter((w) => made.tasks.some((t) => t.check.id === w.after)),
    scope: check.scope,
    people: check.people,
  };
}

/** What the walk leaves out: the inspector's private list, most worth first. */
function leftOut(made: Tasks, best: Choice): Walk['leftOut'] {
  const inWalk = new Set(best.chosen);
  const worth = Worth.of(made.targets, made.tasks, best.chosen);
  const out = made.tasks.flatMap((task, i) =>
    inWalk.has(i)
      ? []
      : [
          {
            check: task.check.id,
            title: task.check.title,
            minutes: task.minutes,
            worth: round(worth.gain(task), 3),
            why: 'the minutes go further elsewhere',
          },
        ],
  );
  const notNow = made.notNow.map(({ check, why }) => ({
    check: check.id,
    title: check.title,
    minutes: check.minutes,
    worth: 0,
    why,
  }));
  return [...out.sort((a, b) => b.worth - a.worth || (a.check < b.check ? -1 : 1)), ...notNow];
}

function toolsOf(index: BaseIndex, setting: Setting, best: Choice, team: number): string[] {
  const tools = new Set<string>();
  const visited = new Set<string>();
  for (const i of best.chosen) {
    const check = setting.tasks[i]?.check;
    if (check === undefined) continue;
    visited.add(check.stop);
    for (const tool of check.tools) tools.add(tool);
  }
  for (const stop of index.base.stops) if (visited.has(stop.id)) for (const tool of stop.openingTools) tools.add(tool);
  if (team > 1) tools.add('a way to call each other');
  return [...tools].sort();
}
