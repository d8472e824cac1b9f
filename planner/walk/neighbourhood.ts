import { random } from '../numerics/sampling.ts';
import type { Draft } from './draft.ts';
import { EVEN, NONE, type Search, type Sway } from './search.ts';

/** How much worth per minute is swayed in a step: factors lie in 1 - SWAY .. 1 + SWAY. */
const SWAY = 0.35;

/** Checks taken out at random in a step, at most. */
const MOST_OUT = 4;

/** Kinds of steps, by where a number in 0..1 falls: handing stops over (teams), putting a check in, clearing a stop; the
 * rest takes a few checks out. */
const HAND_OVER = 0.3;
const PUT_IN = 0.7;
const CLEAR = 0.8;

/** Part of the steps that count idling as room, for work that fits where somebody waits. */
const DARING = 0.3;

/** Large-neighbourhood search: undo a part of the walk, fill it again in a swayed order, keep what is better. A fixed
 * number of steps from a fixed seed, never a clock. */
export class Neighbourhood {
  readonly #search: Search;
  readonly #best: Draft;
  /** The draft that steps set out from, a little worse than the best at most, and the step being tried. */
  readonly #now: Draft;
  readonly #trial: Draft;
  readonly #next: () => number;
  readonly #sway: Sway;
  #bestValue: number;
  #bestLength: number;
  #nowValue: number;

  /** Starts from a draft and its minutes; the draft is changed as better ones are found. */
  constructor(search: Search, best: Draft, length: number, seed: number) {
    this.#search = search;
    this.#best = best;
    this.#now = search.blank();
    this.#trial = search.blank();
    this.#bestValue = search.value(best);
    this.#nowValue = this.#bestValue;
    this.#bestLength = length;
    this.#next = random(seed);
    const factors = Float64Array.from({ length: SWAYS }, () => 1 + SWAY * (2 * this.#next() - 1));
    this.#sway = { factors, from: 0 };
  }

  get length(): number {
    return this.#bestLength;
  }

  get value(): number {
    return this.#bestValue;
  }

  /** Takes another draft to go on from. */
  restart(draft: Draft, length: number): void {
    this.#best.copy(draft);
    this.#bestLength = length;
    this.#bestValue = this.#search.value(draft);
  }

  /** Adds what has room, then takes so many steps within the budget; `best` had its rooms read for it. In some budgets a
   * team's stops are shared out anew, if they may be. */
  go(budget: number, steps: number, sharesAnew = true): void {
    this.#trial.copy(this.#best);
    this.#search.fill(this.#trial, EVEN);
    this.#nowValue = this.#bestValue;
    this.#weigh(budget, 0, false);
    this.#now.copy(this.#best);
    this.#nowValue = this.#bestValue;
    if (steps === 0) return;
    const strays = budget % STRAYING === 0;
    const afresh = sharesAnew && budget % STRAYING === 1 && this.#shareAnew(budget);
    for (let step = 0; step < steps; step++) {
      this.#trial.copy(this.#now);
      if (this.#next() < DARING) this.#trial.dare(this.#next());
      this.#sway.from = this.#upTo(SWAYS - this.#trial.chosen.length);
      if (!this.#undoPart(this.#sway)) continue;
      this.#search.fill(this.#trial, this.#sway);
      this.#weigh(budget, strays ? LEEWAY * (1 - step / steps) : 0, afresh);
    }
  }

  /** Keeps the trial if it is better than the best, goes on from it if it is hardly worse. */
  #weigh(budget: number, leeway: number, afresh: boolean): void {
    const least =
      (afresh ? Math.min(this.#nowValue, this.#bestValue) : this.#bestValue * (1 - leeway)) - 1e-9;
    const hoped = this.#search.value(this.#trial);
    if (hoped < least) return;
    const same = Math.abs(hoped - this.#nowValue) < 1e-9;
    if (same && this.#trial.leastRoom() < this.#now.leastRoom() + 1e-9) return;
    const length = this.#search.settle(this.#trial, budget);
    if (length === null) return;
    const value = this.#search.value(this.#trial);
    if (value < least) return;
    this.#now.copy(this.#trial);
    this.#nowValue = value;
    const shorter = value > this.#bestValue - 1e-9 && length < this.#bestLength - 1e-9;
    if (value <= this.#bestValue + 1e-9 && !shorter) return;
    this.#best.copy(this.#trial);
    this.#bestValue = value;
    this.#bestLength = length;
  }

  /** Sets out from the fixed checks with a few stops handed over at random, filled. False where that does not fit. */
  #shareAnew(budget: number): boolean {
    const { problem, optional } = this.#search;
    const trial = this.#trial;
    if (problem.team === 1) return false;
    trial.copy(this.#best);
    for (const i of optional) trial.remove(i);
    for (let k = 0; k < HANDED_ANEW; k++)
      trial.hand(problem.owned[this.#upTo(problem.owned.length)] ?? 0, this.#upTo(problem.team));
    if (trial.leastRoom() < 0) return false;
    this.#search.fill(trial, EVEN);
    if (this.#search.settle(trial, budget) === null) return false;
    this.#now.copy(trial);
    this.#nowValue = this.#search.value(trial);
    return true;
  }

  /** Takes something out, puts something else in, or hands a stop over. False if that can't be. */
  #undoPart(sway: Sway): boolean {
    const { problem, optional } = this.#search;
    const trial = this.#trial;
    const kind = this.#next();
    if (problem.team > 1 && kind < HAND_OVER) return this.#handOver(sway, kind < HAND_OVER / 2);
    const pick = this.#pick(kind < PUT_IN ? 0 : 1);
    if (pick < 0) return false;
    if (kind < PUT_IN) {
      const stop = problem.tasks[pick]?.stop ?? 0;
      if (problem.team > 1 && this.#next() < 0.5) trial.hand(stop, this.#upTo(problem.team));
      return this.#search.makeRoom(trial, sway, this.#search.put(trial, pick));
    }
    if (kind < CLEAR) {
      const stop = problem.tasks[pick]?.stop;
      for (const i of optional) if (problem.tasks[i]?.stop === stop) this.#search.take(trial, i);
      return true;
    }
    this.#search.take(trial, pick);
    for (let more = this.#upTo(MOST_OUT); more > 0; more--) {
      const other = this.#pick(1);
      if (other >= 0) this.#search.take(trial, other);
    }
    return true;
  }

  /** Hands a stop to another person, or swaps two stops. */
  #handOver(sway: Sway, alone: boolean): boolean {
    const { owned, team } = this.#search.problem;
    const trial = this.#trial;
    const a = owned[this.#upTo(owned.length)] ?? 0;
    const mine = trial.owner[a] ?? 0;
    if (alone) trial.hand(a, (mine + 1 + this.#upTo(team - 1)) % team);
    else {
      const b = owned[this.#upTo(owned.length)] ?? 0;
      const theirs = trial.owner[b] ?? 0;
      if (mine === theirs) return false;
      trial.hand(a, theirs);
      trial.hand(b, mine);
    }
    return this.#search.makeRoom(trial, sway, NONE);
  }

  /** An optional check that is in the trial (1) or out of it (0), -1 if there is none. */
  #pick(state: 0 | 1): number {
    const { optional } = this.#search;
    const { chosen } = this.#trial;
    const from = this.#upTo(optional.length);
    for (let k = 0; k < optional.length; k++) {
      const i = optional[(from + k) % optional.length] ?? 0;
      if (chosen[i] === state) return i;
    }
    return -1;
  }

  #upTo(n: number): number {
    return Math.min(n - 1, Math.floor(this.#next() * n));
  }
}

/** Every so many minutes, steps may set out from something worse than the best by this part of its value, less and less
 * towards the end: what can't be reached by steps that all gain is reached so. */
const STRAYING = 3;
const LEEWAY = 0.02;

/** Stops handed over where the stops are shared out anew. */
const HANDED_ANEW = 4;

/** Length of the list of sways that each step reads from somewhere. */
const SWAYS = 1024;
