import { type Choice, Draft, Layout } from './draft.ts';
import { fixedTasks, type Problem } from './problem.ts';
import { onceForShape } from './shape.ts';
import { balance, shareStops } from './sharing.ts';
import { Clock } from './simulate.ts';

/** A walk that is shown already: each shown check that goes and each stop that changes hands costs `price` in worth. */
export interface Shown {
  chosen: Uint8Array;
  owner: Int8Array;
  price: number;
}

/** Factors by which the worth of each task is swayed in a step: those of a list that stand from a place on. */
export interface Sway {
  factors: Float64Array;
  from: number;
}

/** Choosing for one problem: drafts of its walk, adding what is worth most per minute, dropping what is worth least. */
export class Search {
  readonly problem: Problem;
  readonly clock: Clock;
  /** Tasks that are always done, and those that may be chosen. */
  readonly fixed: number[];
  readonly optional: number[];
  readonly #shown: Shown | null;
  readonly #layout: Layout;
  /** Each task with what it needs and that is optional; each task with what needs it and is optional. */
  readonly #needs: number[][];
  readonly #needed: number[][];
  /** Whether a task needs nothing else that is optional. */
  readonly #single: Uint8Array;
  readonly #minutes: Float64Array;
  readonly #kept: Uint8Array;
  /** Tasks that may still be added while a draft is filled, or dropped while room is made. */
  readonly #open: Int32Array;

  constructor(problem: Problem, shown: Shown | null = null) {
    const { tasks, closure, dependents, begin } = problem;
    this.problem = problem;
    this.clock = new Clock(problem);
    this.fixed = fixedTasks(problem);
    this.#shown = shown;
    this.#layout = new Layout(problem);
    const isFixed = new Set(this.fixed);
    const isOptional = (i: number): boolean => !isFixed.has(i) && !begin.done.has(i);
    this.optional = tasks.flatMap((_, i) => (isOptional(i) ? [i] : []));
    this.#needs = closure.map((list) => list.filter(isOptional));
    this.#needed = dependents.map((list) => list.filter(isOptional));
    this.#single = Uint8Array.from(this.#needs, (needs) => (needs.length === 1 ? 1 : 0));
    this.#minutes = this.#layout.minutes;
    this.#kept = new Uint8Array(tasks.length);
    this.#open = new Int32Array(tasks.length);
  }

  /** The tasks that are always done, as early done as sharing out the stops allows. Null if they wait for each other. */
  least(): Choice | null {
    const chosen = new Uint8Array(this.problem.tasks.length);
    for (const i of this.fixed) chosen[i] = 1;
    const { owner, length } = this.#shown === null ? this.#sharedOut(chosen) : this.#asShown(chosen);
    if (length === Number.POSITIVE_INFINITY) return null;
    return this.choice(this.draft({ chosen, owner, worth: 0, length }, length), length);
  }

  /** The stops shared out so that these tasks are done early: the same for all problems of one shape and crew. */
  #sharedOut(chosen: Uint8Array): Sharing {
    const { problem } = this;
    const key = problem.mayOwn.join('');
    return onceForShape(sharings, problem, key, () => {
      const owner = shareStops(problem, this.fixed);
      const length = this.clock.run(chosen, owner);
      if (problem.team === 1 || length === Number.POSITIVE_INFINITY) return { owner, length };
      return { owner, length: balance(problem, owner, () => this.clock.run(chosen, owner)) };
    });
  }

  #asShown(chosen: Uint8Array): Sharing {
    const owner = this.#shown?.owner.slice() ?? new Int8Array(this.problem.geometry.stops.length);
    return { owner, length: this.clock.run(chosen, owner) };
  }

  /** The same checks in no more minutes, the stops handed over and swapped where people then walk and wait less. */
  tidy(choice: Choice): Choice {
    const { clock, problem } = this;
    if (problem.team === 1) return choice;
    const owner = choice.owner.slice();
    balance(problem, owner, () => {
      const now = clock.run(choice.chosen, owner);
      return now > choice.length + 1e-9
        ? Number.POSITIVE_INFINITY
        : clock.ready.reduce((sum, ready) => sum + ready, 0);
    });
    return { ...choice, owner, length: clock.run(choice.chosen, owner) };
  }

  /** A draft of nothing, to copy others into. */
  blank(): Draft {
    return new Draft(this.#layout);
  }

  /** A draft of this choice with the rooms that it leaves of the budget. */
  draft(choice: Choice, budget: number): Draft {
    const draft = this.blank();
    draft.load(choice);
    draft.read(this.clock, budget);
    return draft;
  }

  /** What a draft has come to, its minutes being known. */
  choice(draft: Draft, length: number): Choice {
    return {
      chosen: draft.chosen.slice(),
      owner: draft.owner.slice(),
      worth: draft.margins.total(),
      length,
    };
  }

  /** What a draft is worth, less what it changes of a walk that is shown. */
  value(draft: Draft): number {
    const shown = this.#shown;
    const worth = draft.margins.sum;
    if (shown === null) return worth;
    let changes = 0;
    for (let i = 0; i < shown.chosen.length; i++)
      if (shown.chosen[i] === 1 && draft.chosen[i] !== 1) changes++;
    for (const stop of this.problem.owned) if (shown.owner[stop] !== draft.owner[stop]) changes++;
    return worth - shown.price * changes;
  }

  /** Adds checks, best worth per minute first, until nothing more has room. */
  fill(draft: Draft, sway: Sway): void {
    const { team } = this.problem;
    const { factors, from } = sway;
    const { chosen } = draft;
    const open = this.#open;
    const minutes = this.#minutes;
    const single = this.#single;
    const gains = draft.margins.of;
    let left = 0;
    for (const i of this.optional) if (chosen[i] === 0) open[left++] = i;
    for (;;) {
      let best = -1;
      let highest = 1e-12;
      let still = 0;
      const freest = team > 1 ? draft.freest() : 0;
      const most = draft.mostRoom() + 1e-9;
      for (let k = 0; k < left; k++) {
        const i = open[k] ?? 0;
        if (chosen[i] === 1) continue;
        if (team > 1) draft.offer(i, freest);
        // What nobody has the minutes for has no room wherever it lies; one person will not have them later.
        else if ((minutes[i] ?? 0) > most) continue;
        const rate = (minutes[i] ?? 0) > most ? 0 : this.#rate(draft, i, gains[i] ?? 0);
        // What has no room now has none later, unless what it needs or its stop comes in.
        if (rate === 0) {
          if (single[i] === 0 || !draft.isEntered(i)) open[still++] = i;
          continue;
        }
        open[still++] = i;
        const swayed = rate * (factors[from + i] ?? 1);
        if (swayed > highest) {
          highest = swayed;
          best = i;
        }
      }
      if (best < 0) return;
      left = still;
      this.put(draft, best);
    }
  }

  /** Drops optional checks of whoever has least room, least loss for the minutes they free, until all have room; `kept`
   * stay. False if that can't be. */
  makeRoom(draft: Draft, sway: Sway, kept: readonly number[]): boolean {
    for (const i of kept) this.#kept[i] = 1;
    const fits = this.#dropOthers(draft, sway);
    for (const i of kept) this.#kept[i] = 0;
    return fits;
  }

  /** Puts a check in with what it needs; they are returned. */
  put(draft: Draft, i: number): readonly number[] {
    const bundle = this.#needs[i] ?? [];
    for (const b of bundle) draft.add(b);
    return bundle;
  }

  /** Takes a check and all that needs it out. */
  take(draft: Draft, i: number): void {
    for (const d of this.#needed[i] ?? []) draft.remove(d);
  }

  /** Times a draft and drops what makes it too long after all. Its minutes, or null if it can't be made to fit. */
  settle(draft: Draft, budget: number): number | null {
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const length = draft.read(this.clock, budget);
      if (length <= budget + 1e-9) return length;
      if (length === Number.POSITIVE_INFINITY || !this.makeRoom(draft, EVEN, NONE)) return null;
    }
    return null;
  }

  #dropOthers(draft: Draft, { factors, from }: Sway): boolean {
    const { chosen } = draft;
    const losses = draft.margins.of;
    const open = this.#open;
    let left = 0;
    for (const i of this.optional) if (chosen[i] === 1 && this.#kept[i] === 0) open[left++] = i;
    for (;;) {
      const busiest = draft.busiest();
      const short = -(draft.room[busiest] ?? 0);
      if (short <= 1e-9) return true;
      let out = -1;
      let least = Number.POSITIVE_INFINITY;
      for (let k = 0; k < left; k++) {
        const i = open[k] ?? 0;
        if (chosen[i] !== 1 || !draft.takes(i, busiest)) continue;
        const freed = Math.min(short, draft.frees(i));
        const rate = ((losses[i] ?? 0) / freed) * (factors[from + i] ?? 1);
        if (rate < least) {
          least = rate;
          out = i;
        }
      }
      if (out < 0) return false;
      this.take(draft, out);
    }
  }

  /** Worth per minute of a check, whose own gain is given, with what it needs; 0 if whoever would do it has no room. */
  #rate(draft: Draft, i: number, own: number): number {
    let cost = draft.cost(i);
    let room = draft.roomFor(i) + 1e-9;
    if (cost > room) return 0;
    let gain = own;
    if (this.#single[i] === 0) {
      const bundle = this.#needs[i] ?? [];
      for (let k = 1; k < bundle.length; k++) {
        const b = bundle[k] ?? 0;
        if (draft.chosen[b] === 1) continue;
        gain += draft.margins.of[b] ?? 0;
        cost += this.#minutes[b] ?? 0;
        room = Math.min(room, draft.roomFor(b) + 1e-9);
      }
    }
    return cost > room || gain < 1e-9 ? 0 : gain / Math.max(LEAST_COST, cost);
  }
}

/** Who owns each stop, and the minutes that come of it. */
interface Sharing {
  owner: Int8Array;
  length: number;
}

const sharings = new WeakMap<Problem['sequence'], Map<string, Sharing>>();

/** No sway: every factor is 1. */
export const EVEN: Sway = { factors: new Float64Array(0), from: 0 };

/** No tasks. */
export const NONE: readonly number[] = [];

/** Times that a draft is cut and timed again before it is given up. */
const MOST_ROUNDS = 4;

/** Minutes below which a check counts as costing so much: a step aside takes no less (practice). */
const LEAST_COST = 0.5;
