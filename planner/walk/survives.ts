import type { Condition } from '../condition/condition.ts';
import { exp } from '../numerics/functions.ts';
import { DRAWS, normalDraws } from '../numerics/sampling.ts';
import { stakeOf } from '../value/stakes.ts';
import { Worth } from '../value/worth.ts';
import { fixedTasks, type Problem } from './problem.ts';
import type { Choice } from './search.ts';

/** Standard deviation of the logarithm of a check's minutes: nine times in ten within a third less and half more
 * (practice). */
const MINUTES_SPREAD = 0.25;

/** A draw agrees if it would choose at least this part of what matters most in the plan (practice). */
const AGREES = 0.9;

/** Share of the draws in which the choice survives. In each draw odds and minutes are other values of their ranges; the
 * minutes that the plan spends on optional checks are filled anew by worth per minute, walking left out. The draw agrees
 * if of the better half of the plan's optional checks, by what each adds, at least AGREES would be chosen again. Null if
 * the plan chose nothing. */
export function survives(
  problem: Problem,
  choice: Choice,
  conditions: Condition[],
  client: string[],
): number | null {
  const { tasks, begin, closure } = problem;
  const held = new Set([...fixedTasks(problem), ...begin.done.keys()]);
  const optional = tasks.flatMap((_, i) => (held.has(i) ? [] : [i]));
  const chosen = optional.filter((i) => choice.chosen[i] === 1);
  if (chosen.length === 0) return null;
  const added = adding(problem, held, chosen);
  const half = [...chosen]
    .sort((a, b) => (added.get(b) ?? 0) - (added.get(a) ?? 0) || a - b)
    .slice(0, Math.ceil(chosen.length / 2));
  const slow = new Map(optional.map((i) => [i, slownessOf(tasks[i]?.id ?? '')]));
  const targetOf = new Map(problem.targets.map((t, j) => [t.failure, j]));
  const sources = conditions.flatMap((c) => {
    const target = targetOf.get(c.failure.id);
    return target === undefined ? [] : [{ target, draws: c.draws }];
  });
  const stakes = new Float64Array(problem.targets.length);
  for (const c of conditions) {
    const target = targetOf.get(c.failure.id);
    if (target !== undefined) stakes[target] = stakeOf(c.failure, client);
  }
  const bundles = optional.map((i) => (closure[i] ?? [i]).filter((b) => !held.has(b)));
  const worth = new Worth(problem.targets, tasks);
  const minutes = new Float64Array(tasks.length);
  let agreed = 0;
  for (let d = 0; d < DRAWS; d++) {
    for (const i of optional) minutes[i] = (tasks[i]?.minutes ?? 0) * (slow.get(i)?.[d] ?? 1);
    worth.resetWith(worthIn(stakes, sources, d));
    for (const i of held) worth.add(i);
    const again = refill(bundles, worth, minutes, spent(chosen, minutes));
    const kept = half.filter((i) => again.has(i)).length;
    if (kept >= AGREES * half.length - 1e-9) agreed++;
  }
  return agreed / DRAWS;
}

/** What each chosen check adds to all the others. */
function adding(problem: Problem, held: ReadonlySet<number>, chosen: number[]): Map<number, number> {
  const worth = new Worth(problem.targets, problem.tasks);
  return new Map(
    chosen.map((out) => {
      worth.reset();
      for (const i of held) worth.add(i);
      for (const i of chosen) if (i !== out) worth.add(i);
      return [out, worth.gain(out)];
    }),
  );
}

function spent(list: number[], minutes: Float64Array): number {
  let sum = 0;
  for (const i of list) sum += minutes[i] ?? 0;
  return sum;
}

/** By how much longer each draw takes over a check, the same in every plan. */
function slownessOf(id: string): Float64Array {
  const ready = slowness.get(id);
  if (ready !== undefined) return ready;
  const made = normalDraws(`${id} minutes`).map((z) => exp(MINUTES_SPREAD * z));
  slowness.set(id, made);
  return made;
}

const slowness = new Map<string, Float64Array>();

/** What the targets are worth with the odds of one draw: one target is there if any part of the house has it. */
function worthIn(
  stakes: Float64Array,
  sources: { target: number; draws: Float64Array }[],
  draw: number,
): Float64Array {
  const without = new Float64Array(stakes.length).fill(1);
  for (const { target, draws } of sources)
    without[target] = (without[target] ?? 1) * (1 - (draws[draw] ?? 0));
  return without.map((none, j) => (stakes[j] ?? 0) * (1 - none));
}

/** What filling the minutes by worth per minute would choose. Worth only shrinks as checks are added, so that a rate
 * computed earlier is an upper limit and only the highest has to be computed again. */
function refill(bundles: number[][], worth: Worth, minutes: Float64Array, room: number): Set<number> {
  const again = new Set<number>();
  const rateOf = (bundle: number[]): number => {
    let gain = 0;
    let cost = 0;
    for (const b of bundle) {
      if (again.has(b)) continue;
      gain += worth.gain(b);
      cost += minutes[b] ?? 0;
    }
    return cost > 0 ? gain / cost : 0;
  };
  const rates = Float64Array.from(bundles, rateOf);
  let left = room;
  for (;;) {
    let best = -1;
    for (;;) {
      best = highest(rates);
      if (best < 0) return again;
      const rate = rateOf(bundles[best] ?? []);
      const fresh = rate >= (rates[best] ?? 0) - 1e-12;
      rates[best] = rate;
      if (fresh) break;
    }
    const bundle = (bundles[best] ?? []).filter((b) => !again.has(b));
    rates[best] = 0;
    if (spent(bundle, minutes) > left + 1e-9) continue;
    left -= spent(bundle, minutes);
    for (const b of bundle) {
      again.add(b);
      worth.add(b);
    }
  }
}

function highest(rates: Float64Array): number {
  let best = -1;
  let most = 0;
  for (let k = 0; k < rates.length; k++)
    if ((rates[k] ?? 0) > most) {
      most = rates[k] ?? 0;
      best = k;
    }
  return best;
}
