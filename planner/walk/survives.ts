import type { Condition } from '../condition/condition.ts';
import { exp } from '../numerics/functions.ts';
import { DRAWS, normalDraws } from '../numerics/sampling.ts';
import { stakeOf } from '../value/stakes.ts';
import { Worth } from '../value/worth.ts';
import type { Choice } from './draft.ts';
import { fixedTasks, type Problem } from './problem.ts';

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
  const draws = {
    minutes: minutesByDraw(problem, optional),
    worth: worthByDraw(problem, conditions, client),
  };
  const bundles = optional.map((i) => (closure[i] ?? [i]).filter((b) => !held.has(b)));
  const worth = new Worth(problem.targets, tasks);
  for (const i of held) worth.add(i);
  const left = worth.missedNow();
  const again = new Uint8Array(tasks.length);
  const memory = { rates: new Float64Array(bundles.length), open: new Int32Array(bundles.length) };
  let agreed = 0;
  for (let d = 0; d < DRAWS; d++) {
    const minutes = rowOf(draws.minutes, d);
    worth.resetWith(rowOf(draws.worth, d), left);
    refill(bundles, worth, minutes, spent(chosen, minutes), again, memory);
    let kept = 0;
    for (const i of half) kept += again[i] ?? 0;
    if (kept >= AGREES * half.length - 1e-9) agreed++;
  }
  return agreed / DRAWS;
}

/** One draw's part of a table that holds one draw behind the other. */
function rowOf(table: Float64Array, draw: number): Float64Array {
  const width = table.length / DRAWS;
  return table.subarray(draw * width, (draw + 1) * width);
}

/** Minutes of each optional task, draw by draw. */
function minutesByDraw({ tasks }: Problem, optional: readonly number[]): Float64Array {
  const minutes = new Float64Array(DRAWS * tasks.length);
  for (const i of optional) {
    const usual = tasks[i]?.minutes ?? 0;
    const slow = slownessOf(tasks[i]?.id ?? '');
    for (let d = 0; d < DRAWS; d++) minutes[d * tasks.length + i] = usual * (slow[d] as number);
  }
  return minutes;
}

/** What the targets are worth with the odds of each draw: a target is there if any part of the house has it. */
function worthByDraw({ targets }: Problem, conditions: Condition[], client: string[]): Float64Array {
  const n = targets.length;
  const targetOf = new Map(targets.map((t, j) => [t.failure, j]));
  const stakes = new Float64Array(n);
  const worth = new Float64Array(DRAWS * n).fill(1);
  for (const { failure, draws } of conditions) {
    const j = targetOf.get(failure.id);
    if (j === undefined) continue;
    stakes[j] = stakeOf(failure, client);
    for (let d = 0; d < DRAWS; d++)
      worth[d * n + j] = (worth[d * n + j] as number) * (1 - (draws[d] as number));
  }
  for (let d = 0; d < DRAWS; d++)
    for (let j = 0; j < n; j++) worth[d * n + j] = (stakes[j] as number) * (1 - (worth[d * n + j] as number));
  return worth;
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

/** Marks in `again` what filling the minutes by worth per minute would choose. Worth only shrinks as checks are added, so
 * that a rate computed earlier is an upper limit and only the highest has to be computed again. */
function refill(
  bundles: number[][],
  worth: Worth,
  minutes: Float64Array,
  room: number,
  again: Uint8Array,
  { rates, open }: { rates: Float64Array; open: Int32Array },
): void {
  again.fill(0);
  for (let k = 0; k < bundles.length; k++) {
    rates[k] = rateOf(bundles[k] ?? [], worth, minutes, again);
    open[k] = k;
  }
  let left = room;
  let count = bundles.length;
  for (;;) {
    // The highest rate, those without any left out for good.
    let best = -1;
    let most = 0;
    let still = 0;
    for (let x = 0; x < count; x++) {
      const k = open[x] as number;
      const rate = rates[k] as number;
      if (rate <= 0) continue;
      open[still++] = k;
      if (rate <= most) continue;
      most = rate;
      best = k;
    }
    count = still;
    if (best < 0) return;
    const bundle = bundles[best] ?? [];
    const rate = rateOf(bundle, worth, minutes, again);
    const fresh = rate >= most - 1e-12;
    rates[best] = rate;
    if (!fresh) continue;
    rates[best] = 0;
    let cost = 0;
    for (const b of bundle) if (again[b] === 0) cost += minutes[b] ?? 0;
    if (cost > left + 1e-9) continue;
    left -= cost;
    for (const b of bundle) {
      if (again[b] === 1) continue;
      again[b] = 1;
      worth.add(b);
    }
  }
}

/** Worth per minute of a check with what it needs and that is not chosen yet. */
function rateOf(bundle: number[], worth: Worth, minutes: Float64Array, again: Uint8Array): number {
  let gain = 0;
  let cost = 0;
  for (let k = 0; k < bundle.length; k++) {
    const b = bundle[k] ?? 0;
    if (again[b] === 1) continue;
    gain += worth.gain(b);
    cost += minutes[b] ?? 0;
  }
  return cost > 0 ? gain / cost : 0;
}
