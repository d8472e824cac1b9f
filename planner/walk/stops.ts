import type { Entry } from '../../knowledge/schema/base.ts';
import type { Check } from '../../knowledge/schema/check.ts';
import type { BaseIndex } from '../base-index.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { WalkCheck, WalkStop } from '../plan-types.ts';
import { meansToday } from './day.ts';
import { walkMinutes } from './geometry.ts';
import type { Problem } from './problem.ts';
import type { Slot } from './simulate.ts';
import type { Tasks } from './tasks.ts';

/** A stop being written: when its last check ends, and the checks done there. */
interface Open {
  stop: WalkStop;
  end: number;
  checks: Entry<Check>[];
}

/** Idling shorter than this is not worth a line (minutes). */
const LEAST_WAIT = 0.5;

/** The walk as it is read: for each person, stop after stop, with what each waits for and what the day changes. */
export function writeStops(
  index: BaseIndex,
  house: House,
  problem: Problem,
  made: Tasks,
  slots: Slot[],
): WalkStop[] {
  const titles = new Map<string, string>(index.base.stops.map((s) => [s.id, s.title]));
  const open: Open[] = [];
  const current = new Map<number, Open>();
  const ends = new Map(problem.begin.done);
  const free = [...problem.begin.time];
  const at = [...problem.begin.stop];
  for (const slot of slots) ends.set(slot.task, slot.end);
  for (const slot of [...slots].sort((a, b) => a.start - b.start || a.person - b.person)) {
    const place = problem.geometry.stops[slot.stop] ?? '';
    const check = made.checks[slot.task];
    if (check === undefined) throw new RangeError(`no check for task ${slot.task}`);
    const was = current.get(slot.person);
    const together = problem.block[slot.task] === 'arrival' || problem.block[slot.task] === 'closing';
    const idle =
      slot.start - (free[slot.person] ?? 0) - walkMinutes(problem.geometry, at[slot.person] ?? 0, slot.stop);
    for (let w = together ? 0 : slot.person; w <= (together ? problem.team - 1 : slot.person); w++) {
      free[w] = slot.end;
      at[w] = slot.stop;
      if (together && w !== slot.person) current.delete(w);
    }
    let now = was;
    if (now === undefined || now.stop.place !== place) {
      now = {
        stop: {
          place,
          title: titles.get(place) ?? place,
          person: slot.person + 1,
          start: round(slot.start, 1),
          minutes: 0,
          waits: [],
          today: [],
          checks: [],
        },
        end: slot.end,
        checks: [],
      };
      current.set(slot.person, now);
      open.push(now);
    }
    if (idle >= LEAST_WAIT)
      now.stop.waits.push({ minutes: round(idle, 1), why: waitsFor(problem, made, slot, ends) });
    now.end = slot.end;
    now.stop.minutes = round(slot.end - now.stop.start, 1);
    now.stop.checks.push(walkCheck(problem, made, slot));
    now.checks.push(check);
  }
  for (const { stop, checks, end } of open)
    stop.today = [...meansToday(stop.place, checks, house, end), ...forTrainees(house, stop.person, checks)];
  return open.map((o) => o.stop);
}

/** Where trainees go only beside a colleague, and where one goes alone. */
function forTrainees({ visit }: House, person: number, checks: Entry<Check>[]): string[] {
  if (visit.trainees === 0) return [];
  const hazards = new Set(checks.flatMap((c) => c.hazard ?? []).filter((h) => !visit.signedOff.includes(h)));
  if (hazards.size > 0)
    return [`Trainees come here only beside person ${person}: ${[...hazards].join(', ')} not signed off.`];
  return person > visit.team - visit.trainees
    ? [
        'A trainee walks this alone: what is met here that looks wrong is shown to a colleague before it is touched.',
      ]
    : [];
}

/** What a task stood idle for: the last to end of what it comes after. */
function waitsFor(problem: Problem, made: Tasks, slot: Slot, ends: Map<number, number>): string {
  const task = problem.tasks[slot.task];
  if (task === undefined) return '';
  let latest = Number.NEGATIVE_INFINITY;
  let why = 'until everybody is there';
  const note = (ready: number, words: string): void => {
    if (ready <= latest || ready < slot.start - 0.05) return;
    latest = ready;
    why = words;
  };
  for (const need of [...task.needs, ...task.follows])
    note(ends.get(need) ?? Number.NEGATIVE_INFINITY, `until "${made.checks[need]?.title ?? ''}" is done`);
  for (const wait of task.waits)
    note(
      (ends.get(wait.after) ?? Number.NEGATIVE_INFINITY) + wait.minutes,
      `${wait.minutes} minutes have to pass after "${made.checks[wait.after]?.title ?? ''}"`,
    );
  return why;
}

function walkCheck(problem: Problem, made: Tasks, slot: Slot): WalkCheck {
  const task = problem.tasks[slot.task];
  const check = made.checks[slot.task];
  if (task === undefined || check === undefined) throw new RangeError(`no task ${slot.task}`);
  const reasons = task.finds
    .map(({ target, chance }) => ({ target: made.targets[target], chance }))
    .flatMap(({ target, chance }) =>
      target === undefined ? [] : [{ id: target.failure, worth: target.worth * chance }],
    )
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
    waits: check.waits.filter((w) => made.checks.some((c) => c.id === w.after)),
    scope: check.scope,
    people: check.people,
  };
}
