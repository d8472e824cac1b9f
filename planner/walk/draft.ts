import { type Finds, findsOf, Margins } from '../value/margins.ts';
import type { Problem } from './problem.ts';
import { isOwned, type Routes, routesOf } from './routes.ts';
import type { Clock } from './simulate.ts';

/** A set of checks, who owns each stop, and what comes of it. */
export interface Choice {
  chosen: Uint8Array;
  /** Person to whom each stop of the main walk belongs. */
  owner: Int8Array;
  worth: number;
  /** Minutes from arrival until everybody is done. */
  length: number;
}

/** What all drafts of a problem share, laid out for speed. */
export class Layout {
  readonly problem: Problem;
  readonly routes: Routes;
  readonly finds: Finds;
  /** People whose time each task takes: first and last; the owner of its stop where first is -1. */
  readonly first: Int8Array;
  readonly last: Int8Array;
  readonly stop: Int32Array;
  readonly minutes: Float64Array;
  /** Whether somebody may stand idle for the task: it waits for others. */
  readonly waits: Uint8Array;

  constructor(problem: Problem) {
    const { tasks, targets, team, block } = problem;
    this.problem = problem;
    this.routes = routesOf(problem);
    this.finds = findsOf(targets, tasks);
    this.first = Int8Array.from(tasks, (_, i) => (isOwned(problem, i) ? -1 : 0));
    this.last = Int8Array.from(block, (b) =>
      b === 'arrival' || b === 'closing' ? team - 1 : b === 'pair' ? Math.min(1, team - 1) : 0,
    );
    this.stop = Int32Array.from(tasks, (t) => t.stop);
    this.minutes = Float64Array.from(tasks, (t) => t.minutes);
    this.waits = Uint8Array.from(tasks, (t) => (t.waits.length + t.follows.length > 0 ? 1 : 0));
  }
}

/** A walk being searched: it keeps what each check adds and how much room each person has, so that a change costs next
 * to nothing. Room counts work, openings and walking; idling stays what it was when the clock was read last. */
export class Draft {
  readonly chosen: Uint8Array;
  readonly owner: Int8Array;
  readonly margins: Margins;
  /** Minutes that each person has left. */
  readonly room: Float64Array;
  /** Minutes that each stood idle when the clock was read last: work may fit there that no room is left for. */
  readonly idle: Float64Array;
  readonly #problem: Problem;
  readonly #routes: Routes;
  readonly #first: Int8Array;
  readonly #last: Int8Array;
  readonly #stop: Int32Array;
  readonly #minutes: Float64Array;
  readonly #waits: Uint8Array;
  /** Chosen tasks of the owner at each stop. */
  readonly #at: Int16Array;
  /** Set of the stops that each person enters. */
  readonly #enters: Int32Array;

  constructor({ problem, routes, finds, first, last, stop, minutes, waits }: Layout) {
    const { tasks, team, geometry } = problem;
    this.#problem = problem;
    this.#routes = routes;
    this.#first = first;
    this.#last = last;
    this.#stop = stop;
    this.#minutes = minutes;
    this.#waits = waits;
    this.chosen = new Uint8Array(tasks.length);
    this.owner = new Int8Array(geometry.stops.length);
    this.margins = new Margins(finds);
    this.room = new Float64Array(team);
    this.idle = new Float64Array(team);
    this.#at = new Int16Array(geometry.stops.length);
    this.#enters = new Int32Array(team);
  }

  /** Becomes this choice; `done` tasks count for worth. The rooms are right after `read`. */
  load(choice: Choice): void {
    const { begin } = this.#problem;
    this.chosen.set(choice.chosen);
    this.owner.set(choice.owner);
    const members = choice.chosen.slice();
    for (const i of begin.done.keys()) members[i] = 1;
    this.margins.load(members);
    this.#at.fill(0);
    this.#enters.fill(0);
    for (let i = 0; i < this.chosen.length; i++) {
      if (this.chosen[i] !== 1 || this.#first[i] === 0) continue;
      const stop = this.#stop[i] ?? 0;
      const w = this.owner[stop] ?? 0;
      this.#at[stop] = (this.#at[stop] ?? 0) + 1;
      this.#enters[w] = (this.#enters[w] ?? 0) | (this.#routes.bit[stop] ?? 0);
    }
  }

  /** Becomes a copy of another draft of the same problem. */
  copy(other: Draft): void {
    this.chosen.set(other.chosen);
    this.owner.set(other.owner);
    this.margins.copy(other.margins);
    this.room.set(other.room);
    this.idle.set(other.idle);
    this.#at.set(other.#at);
    this.#enters.set(other.#enters);
  }

  /** Times this walk; the rooms then are what each person has left of the budget. Returns its minutes. */
  read(clock: Clock, budget: number): number {
    const length = clock.run(this.chosen, this.owner);
    const { ready } = clock;
    let latest = 0;
    for (let w = 0; w < ready.length; w++) latest = Math.max(latest, ready[w] ?? 0);
    for (let w = 0; w < ready.length; w++) this.room[w] = budget - length + latest - (ready[w] ?? 0);
    this.idle.set(clock.idle);
    return length;
  }

  /** Counts this part of what each stands idle as room, which only the clock can tell. */
  dare(part: number): void {
    for (let w = 0; w < this.room.length; w++)
      this.room[w] = (this.room[w] ?? 0) + part * (this.idle[w] ?? 0);
  }

  /** Lets everybody stay so many minutes longer. */
  extend(minutes: number): void {
    for (let w = 0; w < this.room.length; w++) this.room[w] = (this.room[w] ?? 0) + minutes;
  }

  /** Person with the least room. */
  busiest(): number {
    let least = 0;
    for (let w = 1; w < this.room.length; w++)
      if ((this.room[w] ?? 0) < (this.room[least] ?? 0) - 1e-9) least = w;
    return least;
  }

  /** Minutes by which this walk is expected to end before the budget. */
  leastRoom(): number {
    return this.room[this.busiest()] ?? 0;
  }

  /** Minutes that the person with the most room has left. */
  mostRoom(): number {
    let most = this.room[0] ?? 0;
    for (let w = 1; w < this.room.length; w++) most = Math.max(most, this.room[w] ?? 0);
    return most;
  }

  /** Person with the most room. */
  freest(): number {
    let most = 0;
    for (let w = 1; w < this.room.length; w++)
      if ((this.room[w] ?? 0) > (this.room[most] ?? 0) + 1e-9) most = w;
    return most;
  }

  /** Whether a task's stop is entered whether it is done or not, or is nobody's own. */
  isEntered(i: number): boolean {
    return this.#first[i] === 0 || (this.#at[this.#stop[i] ?? 0] ?? 0) > 0;
  }

  /** Gives the stop of a task to this person as long as nobody enters it. */
  offer(i: number, person: number): void {
    const stop = this.#stop[i] ?? 0;
    if (this.#at[stop] === 0 && this.#mayOwn(stop, person)) this.owner[stop] = person;
  }

  #mayOwn(stop: number, person: number): boolean {
    return this.#problem.mayOwn[stop * this.#problem.team + person] === 1;
  }

  /** Whether a task takes this person's time. */
  takes(i: number, person: number): boolean {
    if (this.#first[i] === -1) return this.owner[this.#stop[i] ?? 0] === person;
    return person <= (this.#last[i] ?? 0);
  }

  /** Minutes of room that adding this task takes, by opening and entering its stop too. */
  cost(i: number): number {
    const minutes = this.#minutes[i] ?? 0;
    const stop = this.#stop[i] ?? 0;
    if (this.#first[i] === 0 || (this.#at[stop] ?? 0) > 0) return minutes;
    return minutes + this.#entering(stop);
  }

  /** Room of whoever would do this task: of the one with the least where it takes several. */
  roomFor(i: number): number {
    if (this.#first[i] === -1) return this.room[this.owner[this.#stop[i] ?? 0] ?? 0] ?? 0;
    let room = this.room[0] ?? 0;
    for (let w = 1; w <= (this.#last[i] ?? 0); w++) room = Math.min(room, this.room[w] ?? 0);
    return room;
  }

  /** Minutes of room that removing this task frees, by not entering its stop and not standing idle for it too. */
  frees(i: number): number {
    const minutes = (this.#minutes[i] ?? 0) + this.#idleFor(i);
    const stop = this.#stop[i] ?? 0;
    return this.#first[i] === 0 || this.#at[stop] !== 1 ? minutes : minutes + this.#leaving(stop);
  }

  add(i: number): void {
    if (this.chosen[i] === 1) return;
    this.chosen[i] = 1;
    this.margins.add(i);
    if (this.#first[i] === 0) {
      this.#spend(i, 1);
      return;
    }
    const stop = this.#stop[i] ?? 0;
    const w = this.owner[stop] ?? 0;
    let minutes = this.#minutes[i] ?? 0;
    if (this.#at[stop] === 0) {
      minutes += this.#entering(stop);
      this.#enters[w] = (this.#enters[w] ?? 0) | (this.#routes.bit[stop] ?? 0);
    }
    this.#at[stop] = (this.#at[stop] ?? 0) + 1;
    this.room[w] = (this.room[w] ?? 0) - minutes;
  }

  remove(i: number): void {
    if (this.chosen[i] === 0) return;
    this.chosen[i] = 0;
    this.margins.remove(i);
    if (this.#first[i] === 0) {
      this.#spend(i, -1);
      return;
    }
    const stop = this.#stop[i] ?? 0;
    const w = this.owner[stop] ?? 0;
    let minutes = (this.#minutes[i] ?? 0) + this.#idleFor(i);
    if (this.#waits[i] === 1) this.idle[w] = 0;
    this.#at[stop] = (this.#at[stop] ?? 0) - 1;
    if (this.#at[stop] === 0) {
      minutes += this.#leaving(stop);
      this.#enters[w] = (this.#enters[w] ?? 0) & ~(this.#routes.bit[stop] ?? 0);
    }
    this.room[w] = (this.room[w] ?? 0) + minutes;
  }

  /** Gives a stop with all that is done there to a person, if it may be theirs. */
  hand(stop: number, person: number): void {
    const was = this.owner[stop] ?? 0;
    if (was === person || !this.#mayOwn(stop, person)) return;
    if (this.#at[stop] === 0) {
      this.owner[stop] = person;
      return;
    }
    let work = 0;
    for (const i of this.#problem.tasksAt[stop] ?? [])
      if (this.chosen[i] === 1 && this.#first[i] === -1) work += this.#minutes[i] ?? 0;
    const bit = this.#routes.bit[stop] ?? 0;
    this.room[was] = (this.room[was] ?? 0) + work + this.#leaving(stop);
    this.#enters[was] = (this.#enters[was] ?? 0) & ~bit;
    this.owner[stop] = person;
    this.room[person] = (this.room[person] ?? 0) - work - this.#entering(stop);
    this.#enters[person] = (this.#enters[person] ?? 0) | bit;
  }

  /** What its owner may be standing idle for this task: all that they stand idle, which only the clock can tell. */
  #idleFor(i: number): number {
    return this.#waits[i] === 1 && this.#first[i] === -1
      ? (this.idle[this.owner[this.#stop[i] ?? 0] ?? 0] ?? 0)
      : 0;
  }

  /** Minutes by which entering a stop lengthens its owner's day, besides the work there. */
  #entering(stop: number): number {
    const w = this.owner[stop] ?? 0;
    const enters = this.#enters[w] ?? 0;
    const walk = this.#routes.walk(w, enters | (this.#routes.bit[stop] ?? 0)) - this.#routes.walk(w, enters);
    return walk + this.#routes.opening(w, stop);
  }

  /** Minutes by which not entering a stop shortens its owner's day, besides the work there. */
  #leaving(stop: number): number {
    const w = this.owner[stop] ?? 0;
    const enters = this.#enters[w] ?? 0;
    const walk = this.#routes.walk(w, enters) - this.#routes.walk(w, enters & ~(this.#routes.bit[stop] ?? 0));
    return walk + this.#routes.opening(w, stop);
  }

  #spend(i: number, sign: 1 | -1): void {
    for (let w = 0; w <= (this.#last[i] ?? 0); w++)
      this.room[w] = (this.room[w] ?? 0) - sign * (this.#minutes[i] ?? 0);
  }
}
