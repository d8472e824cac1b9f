import { Worth } from '../value/worth.ts';
import { type Schedule, type Setting, schedule } from './schedule.ts';
import type { Target, Task } from './tasks.ts';

/** A set of checks with its times and what it is worth. */
export interface Choice {
  chosen: number[];
  schedule: Schedule;
  worth: number;
}

/** Budgets are tried in steps of this many minutes; each starts from the one below, so that more time is never
 * worth less. */
const RUNG = 5;

/** Rungs above which nothing is left to add on any walk. */
const MOST_MINUTES = 960;

export interface Chosen {
  feasible: boolean;
  minutesNeeded: number;
  best: Choice;
  curve: { minutes: number; worth: number }[];
}

/** Required scope and life-safety checks always; of the rest the set worth most that fits the minutes. If the
 * fixed checks alone don't fit, they are all kept and the walk is not feasible: the house is never shaved. */
export function chooseChecks(setting: Setting, targets: Target[], minutes: number): Chosen | null {
  const { tasks } = setting;
  const fixed = closed(tasks, tasks.flatMap((task, i) => (task.fixed ? [i] : [])), () => true);
  let best = evaluate(setting, targets, fixed);
  if (best === null) return null;
  const minutesNeeded = Math.ceil(best.schedule.length);
  const curve = [{ minutes: minutesNeeded, worth: best.worth }];
  if (minutesNeeded > minutes) return { feasible: false, minutesNeeded, best, curve };

  for (let budget = minutesNeeded; budget <= Math.min(minutes, MOST_MINUTES); ) {
    best = improve(setting, targets, best, budget, fixed);
    if (curve.at(-1)?.minutes === budget) curve.pop();
    curve.push({ minutes: budget, worth: best.worth });
    if (best.chosen.length === tasks.length) break;
    budget = Math.floor(budget / RUNG + 1) * RUNG;
  }
  return { feasible: true, minutesNeeded, best, curve };
}

/** Fills the budget by worth per minute, then tries to trade one chosen check for others worth more. */
function improve(
  setting: Setting,
  targets: Target[],
  start: Choice,
  budget: number,
  fixed: readonly number[],
): Choice {
  let best = fill(setting, targets, start, budget, new Set());
  const held = new Set(fixed);
  for (const out of [...best.chosen]) {
    if (held.has(out) || best.chosen.some((i) => setting.tasks[i]?.needs.includes(out))) continue;
    const rest = best.chosen.filter((i) => i !== out);
    const without = evaluate(setting, targets, rest);
    if (without === null) continue;
    const traded = fill(setting, targets, without, budget, new Set([out]));
    if (traded.worth > best.worth + 1e-9) best = traded;
  }
  return best;
}

function fill(
  setting: Setting,
  targets: Target[],
  start: Choice,
  budget: number,
  barred: ReadonlySet<number>,
): Choice {
  const { tasks } = setting;
  let best = start;
  const tried = new Set<number>(barred);
  for (;;) {
    const inWalk = new Set(best.chosen);
    const worth = Worth.of(targets, tasks, best.chosen);
    const room = setting.team * budget - best.chosen.reduce((sum, i) => sum + (tasks[i]?.minutes ?? 0), 0);
    let pick: { bundle: number[]; rate: number } | null = null;
    for (let i = 0; i < tasks.length; i++) {
      if (inWalk.has(i) || tried.has(i)) continue;
      const bundle = closed(tasks, [i], (need) => !inWalk.has(need));
      if (bundle.some((b) => barred.has(b))) continue;
      const minutes = bundle.reduce((sum, b) => sum + (tasks[b]?.minutes ?? 0), 0);
      if (minutes > room) continue;
      const gain = bundle.reduce((sum, b) => sum + worth.gain(tasks[b] as Task), 0);
      const rate = gain / (minutes + DETOUR);
      if (gain > 1e-9 && (pick === null || rate > pick.rate + 1e-12)) pick = { bundle, rate };
    }
    if (pick === null) return best;
    const bundle: number[] = pick.bundle;
    const next = evaluate(setting, targets, sorted([...best.chosen, ...bundle]));
    if (next !== null && next.schedule.length <= budget + 1e-9) best = next;
    else for (const i of bundle.slice(0, 1)) tried.add(i);
  }
}

/** Minutes that a further check costs besides its own, on average: a step aside. */
const DETOUR = 0.5;

/** The tasks with all that they need, most dependent first. */
function closed(tasks: Task[], start: number[], missing: (need: number) => boolean): number[] {
  const all = new Set(start);
  for (const i of all) for (const need of tasks[i]?.needs ?? []) if (missing(need)) all.add(need);
  for (const i of all)
    for (const wait of tasks[i]?.waits ?? []) if (missing(wait.after)) all.add(wait.after);
  return [...all];
}

function evaluate(setting: Setting, targets: Target[], chosen: number[]): Choice | null {
  const list = sorted(chosen);
  const times = schedule(setting, list);
  if (times === null) return null;
  return { chosen: list, schedule: times, worth: Worth.of(targets, setting.tasks, list).total };
}

function sorted(list: number[]): number[] {
  return [...list].sort((a, b) => a - b);
}

/** No walk of these minutes is worth more: by diminishing returns, anything beyond the chosen set adds at most
 * its gain now, and the team's minutes are shared as if walking cost nothing. */
export function upperBound(setting: Setting, targets: Target[], best: Choice, minutes: number): number {
  const { tasks, team } = setting;
  const all = Worth.of(targets, tasks, tasks.keys()).total;
  const boundFrom = (base: number[]): number => {
    const worth = Worth.of(targets, tasks, base);
    const fixedMinutes = tasks.reduce((sum, t) => sum + (t.fixed ? t.minutes : 0), 0);
    let room = Math.max(0, team * minutes - fixedMinutes);
    let bound = worth.total;
    const inBase = new Set(base);
    const rest = tasks
      .filter((_, i) => !inBase.has(i))
      .map((t) => ({ gain: worth.gain(t), minutes: t.minutes }))
      .sort((a, b) => b.gain / b.minutes - a.gain / a.minutes);
    for (const { gain, minutes: cost } of rest) {
      const part = Math.min(1, room / cost);
      bound += part * gain;
      room -= part * cost;
      if (room <= 0) break;
    }
    return bound;
  };
  const fixed = tasks.flatMap((t, i) => (t.fixed ? [i] : []));
  return Math.max(best.worth, Math.min(all, boundFrom(fixed), boundFrom(best.chosen)));
}
