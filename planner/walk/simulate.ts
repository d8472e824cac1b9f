import type { Block, Problem } from './problem.ts';
import { onceForShape } from './shape.ts';

/** A task at its time. */
export interface Slot {
  task: number;
  person: number;
  stop: number;
  start: number;
  end: number;
  /** Minutes of opening the stop that this task's start pays for (first task there). */
  opening: number;
}

/** End of a task that the walk leaves out: nobody waits for it; and of one not done yet: who needs it, waits. */
const NOT_IN_WALK = Number.NEGATIVE_INFINITY;
const NOT_YET = Number.POSITIVE_INFINITY;

/** Who does a task: the lead, whoever owns its stop, the first two people, everybody. */
const LEAD = 1;
const OWNER = 2;
const PAIR = 3;
const ALL = 4;
/** Everybody, in the closing round. */
const CLOSE = 5;

/** Times walks of one problem. Searching asks for thousands, so that everything is laid out once and used again. */
export class Clock {
  /** Minutes from arrival until everybody is done, of the walk timed last; infinite if its tasks wait for each other. */
  length = 0;
  /** Minutes that each person walks, opens and works in the walk timed last, idling left out. */
  readonly busy: Float64Array;
  /** When each person could begin the closing round in the walk timed last; their end if there is none. */
  readonly ready: Float64Array;
  /** Minutes that each person stands idle before that. */
  readonly idle: Float64Array;
  /** Whether each stop was entered in the walk timed last. */
  readonly opened: Uint8Array;

  readonly #problem: Problem;
  readonly #stops: number;
  readonly #minutes: Float64Array;
  readonly #who: Uint8Array;
  /** What each task comes after, one list behind the other; task i's part starts at #from[i]. */
  readonly #before: Int32Array;
  readonly #lag: Float64Array;
  readonly #from: Int32Array;
  readonly #sequence: Int32Array;
  readonly #stop: Int32Array;
  readonly #taskMinutes: Float64Array;
  readonly #opening: Float64Array;
  readonly #ended: Float64Array;
  /** By person and place in the route, as many places as there are tasks. */
  readonly #route: Int32Array;
  readonly #routeLength: Int32Array;
  readonly #next: Int32Array;
  readonly #time: Float64Array;
  readonly #at: Int32Array;
  /** By person and stop: whether this person has entered it. */
  readonly #entered: Uint8Array;
  /** Whether the closing round has begun. */
  #closing = false;

  constructor(problem: Problem) {
    const { tasks, team, geometry } = problem;
    const frame = onceForShape(framesMade, problem, '', () => frameOf(problem));
    this.#problem = problem;
    this.#stops = geometry.stops.length;
    this.#minutes = geometry.minutes;
    this.#who = frame.who;
    this.#from = frame.from;
    this.#before = frame.before;
    this.#lag = frame.lag;
    this.#sequence = frame.sequence;
    this.#stop = frame.stop;
    this.#taskMinutes = frame.minutes;
    this.#opening = Float64Array.from(geometry.opening);
    this.#ended = new Float64Array(tasks.length);
    this.#route = new Int32Array(team * tasks.length);
    this.#routeLength = new Int32Array(team);
    this.#next = new Int32Array(team);
    this.#time = new Float64Array(team);
    this.#at = new Int32Array(team);
    this.#entered = new Uint8Array(team * this.#stops);
    this.busy = new Float64Array(team);
    this.ready = new Float64Array(team);
    this.idle = new Float64Array(team);
    this.opened = new Uint8Array(this.#stops);
  }

  /** Times the chosen tasks: together at the door, the lead's start-up round, each person's own stops, low work
   * last, closing together. Waits are kept by standing idle where the order leaves no other way; whoever enters a
   * stop for the first time opens it (suit, hatch, ladder). Tasks are pushed to `slots` if it is given. */
  run(chosen: Uint8Array, owner: Int8Array, slots: Slot[] | null = null): number {
    const { team } = this.#problem;
    let left = this.#layRoutes(chosen, owner);
    this.#closing = false;
    for (let went = true; went && left > 0; ) {
      went = false;
      for (let w = 0; w < team; w++) {
        const done = this.#advance(w, slots);
        left -= done;
        went ||= done > 0;
      }
    }
    let length = left > 0 ? NOT_YET : 0;
    for (let w = 0; w < team; w++) length = Math.max(length, this.#time[w] ?? 0);
    if (!this.#closing)
      for (let w = 0; w < team; w++) {
        this.ready[w] = this.#time[w] ?? 0;
        this.idle[w] = (this.#time[w] ?? 0) - (this.busy[w] ?? 0);
      }
    this.length = length;
    return length;
  }

  /** Lets a person go on until they are through or what comes next waits for somebody who is not there yet. Returns
   * how many tasks were done. */
  #advance(w: number, slots: Slot[] | null): number {
    const n = this.#stops;
    const base = w * this.#taskMinutes.length;
    const length = this.#routeLength[w] ?? 0;
    let done = 0;
    for (let next = this.#next[w] ?? 0; next < length; next++) {
      const task = this.#route[base + next] ?? 0;
      const who = this.#who[task] ?? OWNER;
      const stop = this.#stop[task] ?? 0;
      const walk = this.#minutes[(this.#at[w] ?? 0) * n + stop] ?? 0;
      let start = (this.#time[w] ?? 0) + walk;
      if (who >= PAIR) start = w === 0 ? Math.max(start, this.#allThere(task, who, stop)) : NOT_YET;
      for (let k = this.#from[task] ?? 0; k < (this.#from[task + 1] ?? 0); k++) {
        const ready = (this.#ended[this.#before[k] ?? 0] ?? NOT_IN_WALK) + (this.#lag[k] ?? 0);
        if (ready > start) start = ready;
      }
      if (start === NOT_YET) break;
      if (who === CLOSE && !this.#closing) this.#noteReady(stop);
      const opening = this.#entered[w * n + stop] === 1 ? 0 : (this.#opening[stop] ?? 0);
      const end = start + opening + (this.#taskMinutes[task] ?? 0);
      this.#ended[task] = end;
      this.opened[stop] = 1;
      slots?.push({ task, person: w, stop, start, end, opening });
      const last = who >= ALL ? this.#problem.team - 1 : who === PAIR ? 1 : w;
      for (let p = w; p <= last; p++) {
        this.busy[p] =
          (this.busy[p] ?? 0) + (this.#minutes[(this.#at[p] ?? 0) * n + stop] ?? 0) + end - start;
        this.#time[p] = end;
        this.#at[p] = stop;
        this.#entered[p * n + stop] = 1;
        this.#next[p] = (this.#next[p] ?? 0) + 1;
      }
      done++;
    }
    return done;
  }

  /** Notes when each person could be where the closing round begins. */
  #noteReady(stop: number): void {
    this.#closing = true;
    for (let p = 0; p < this.ready.length; p++) {
      this.idle[p] = (this.#time[p] ?? 0) - (this.busy[p] ?? 0);
      this.ready[p] = (this.#time[p] ?? 0) + (this.#minutes[(this.#at[p] ?? 0) * this.#stops + stop] ?? 0);
    }
  }

  /** When everybody needed for a task done together can be there; never while one has something else to do first. */
  #allThere(task: number, who: number, stop: number): number {
    const last = who >= ALL ? this.#problem.team - 1 : 1;
    let start = 0;
    for (let p = 1; p <= last; p++) {
      const next = this.#next[p] ?? 0;
      if (next >= (this.#routeLength[p] ?? 0)) return NOT_YET;
      if (this.#route[p * this.#taskMinutes.length + next] !== task) return NOT_YET;
      const ready = (this.#time[p] ?? 0) + (this.#minutes[(this.#at[p] ?? 0) * this.#stops + stop] ?? 0);
      if (ready > start) start = ready;
    }
    return start;
  }

  /** Puts everybody where the walk begins and gives each their tasks in order; returns how many tasks there are. */
  #layRoutes(chosen: Uint8Array, owner: Int8Array): number {
    const { team, begin } = this.#problem;
    const tasks = this.#taskMinutes.length;
    this.#ended.fill(NOT_IN_WALK);
    this.#routeLength.fill(0);
    this.#next.fill(0);
    this.#entered.fill(0);
    this.opened.fill(0);
    for (let w = 0; w < team; w++) {
      this.#time[w] = begin.time[w] ?? 0;
      this.#at[w] = begin.stop[w] ?? 0;
      this.busy[w] = begin.time[w] ?? 0;
    }
    if (begin.done.size > 0) {
      for (const [task, end] of begin.done) this.#ended[task] = end;
      for (const stop of begin.opened) {
        this.opened[stop] = 1;
        for (let w = 0; w < team; w++) this.#entered[w * this.#stops + stop] = 1;
      }
    }
    let count = 0;
    for (let at = 0; at < this.#sequence.length; at++) {
      const task = this.#sequence[at] ?? 0;
      if (chosen[task] !== 1) continue;
      count++;
      this.#ended[task] = NOT_YET;
      const who = this.#who[task] ?? OWNER;
      const first = who === OWNER ? (owner[this.#stop[task] ?? 0] ?? 0) : 0;
      const last = who >= ALL ? team - 1 : who === PAIR ? 1 : first;
      for (let w = first; w <= last; w++) {
        const length = this.#routeLength[w] ?? 0;
        this.#route[w * tasks + length] = task;
        this.#routeLength[w] = length + 1;
      }
    }
    return count;
  }
}

/** What a clock reads of its problem and never writes. */
interface Frame {
  who: Uint8Array;
  from: Int32Array;
  before: Int32Array;
  lag: Float64Array;
  sequence: Int32Array;
  stop: Int32Array;
  minutes: Float64Array;
}

const framesMade = new WeakMap<Problem['sequence'], Map<string, Frame>>();

function frameOf({ tasks, block, sequence }: Problem): Frame {
  const lists = tasks.map((t) => [
    ...t.needs.map((after) => ({ after, minutes: 0 })),
    ...t.follows.map((after) => ({ after, minutes: 0 })),
    ...t.waits,
  ]);
  const from = new Int32Array(tasks.length + 1);
  lists.forEach((list, i) => {
    from[i + 1] = (from[i] ?? 0) + list.length;
  });
  return {
    who: Uint8Array.from(block, (b) => whoDoes(b)),
    from,
    before: Int32Array.from(lists.flat(), (b) => b.after),
    lag: Float64Array.from(lists.flat(), (b) => b.minutes),
    sequence: Int32Array.from(sequence),
    stop: Int32Array.from(tasks, (t) => t.stop),
    minutes: Float64Array.from(tasks, (t) => t.minutes),
  };
}

function whoDoes(block: Block): number {
  switch (block) {
    case 'arrival':
      return ALL;
    case 'closing':
      return CLOSE;
    case 'pair':
      return PAIR;
    case 'main':
    case 'last':
      return OWNER;
    default:
      return LEAD;
  }
}
