import { random } from '../numerics/sampling.ts';
import type { Choice, Search } from './search.ts';

/** How much the order of adding is swayed in a step: factors of worth per minute lie in 1 - SWAY .. 1 + SWAY. */
const SWAY = 0.35;

/** Checks taken out at random in a step, at most. */
const MOST_OUT = 4;

/** Large-neighbourhood search: undo a part of the walk, fill it again in a swayed order, keep what is better. A fixed
 * number of steps from a fixed seed, never a clock. Returns a choice at least as good. */
export function searchAround(
  search: Search,
  start: Choice,
  budget: number,
  steps: number,
  seed: number,
): Choice {
  const next = random(seed);
  const { tasks } = search.problem;
  const noise = new Float64Array(tasks.length);
  let best = start;
  let bestValue = search.value(best);
  for (let step = 0; step < steps; step++) {
    const trial = copy(best);
    for (let i = 0; i < noise.length; i++) noise[i] = 1 + SWAY * (2 * next() - 1);
    if (!undoPart(search, trial, budget, next, noise)) continue;
    search.fill(trial, budget, noise);
    if (trial.length > budget + 1e-9) continue;
    const value = search.value(trial);
    const shorter = value > bestValue - 1e-9 && trial.length < best.length - 1e-9;
    if (value > bestValue + 1e-9 || shorter) {
      best = trial;
      bestValue = value;
    }
  }
  return best;
}

export function copy(choice: Choice): Choice {
  return { ...choice, chosen: choice.chosen.slice(), owner: choice.owner.slice() };
}

/** Takes something out, puts something else in, or hands a stop over. False if that can't be. */
function undoPart(
  search: Search,
  trial: Choice,
  budget: number,
  next: () => number,
  noise: Float64Array,
): boolean {
  const { team, owned, tasks } = search.problem;
  const upTo = (n: number): number => Math.min(n - 1, Math.floor(next() * n));
  const kind = next();
  if (team > 1 && kind < HAND_OVER) {
    const a = owned[upTo(owned.length)] ?? 0;
    if (kind < HAND_OVER / 2) {
      trial.owner[a] = ((trial.owner[a] ?? 0) + 1 + upTo(team - 1)) % team;
    } else {
      const b = owned[upTo(owned.length)] ?? 0;
      const [mine, theirs] = [trial.owner[a] ?? 0, trial.owner[b] ?? 0];
      if (mine === theirs) return false;
      trial.owner[a] = theirs;
      trial.owner[b] = mine;
    }
    return search.dropUntilFits(trial, budget, noise, []);
  }
  if (kind < PUT_IN) return putIn(search, trial, budget, noise, upTo);
  const out = optionalOf(search, trial);
  if (out.length === 0) return false;
  if (kind < CLEAR) {
    const stop = tasks[out[upTo(out.length)] ?? 0]?.stop;
    for (const i of out) if (tasks[i]?.stop === stop) search.remove(trial.chosen, i);
    return true;
  }
  const count = 1 + upTo(MOST_OUT);
  for (let k = 0; k < count; k++) search.remove(trial.chosen, out[upTo(out.length)] ?? 0);
  return true;
}

/** Kinds of steps, by where a number in 0..1 falls: handing stops over (teams), putting a check in, clearing a stop; the
 * rest takes a few checks out. */
const HAND_OVER = 0.3;
const PUT_IN = 0.7;
const CLEAR = 0.8;

function optionalOf(search: Search, trial: Choice): number[] {
  const list: number[] = [];
  for (let i = 0; i < trial.chosen.length; i++)
    if (trial.chosen[i] === 1 && search.isOptional(i)) list.push(i);
  return list;
}

/** Puts a check in that the walk leaves out, with what it needs, and makes room for it. */
function putIn(
  search: Search,
  trial: Choice,
  budget: number,
  noise: Float64Array,
  upTo: (n: number) => number,
): boolean {
  const { tasks, closure, begin, team } = search.problem;
  const out = tasks.flatMap((_, i) => (trial.chosen[i] === 1 || begin.done.has(i) ? [] : [i]));
  const pick = out[upTo(out.length)];
  if (pick === undefined) return false;
  const bundle = (closure[pick] ?? []).filter((i) => !begin.done.has(i));
  for (const i of bundle) trial.chosen[i] = 1;
  const stop = tasks[pick]?.stop ?? 0;
  if (team > 1 && upTo(2) === 0) trial.owner[stop] = upTo(team);
  return search.dropUntilFits(trial, budget, noise, bundle);
}
