import { walkMinutes } from './geometry.ts';
import { type LeastWalking, leadReaches, pathBySet } from './paths.ts';
import { fixedTasks, type Problem } from './problem.ts';
import { isOwned } from './routes.ts';
import { onceForShape } from './shape.ts';

/** The most that a team can earn from optional checks at given prices, when every stop of the main walk is one
 * person's and nobody has more than the minutes of the visit: each person's set of stops is weighed by its best checks
 * that fit, the last cut to fit, and the sets are shared out at best, by dynamic programming over sets of stops. The lead
 * has less room, for the start-up round; what two or all do together takes the lead's time alone. */
export class Shares {
  readonly #team: number;
  readonly #optional: number[];
  readonly #minutes: number[];
  /** Bit of each task's stop; 0 if it is the lead's wherever it is. */
  readonly #bit: Int32Array;
  /** Minutes that the lead, or another, with this set of stops has for optional checks; negative if its fixed work
   * doesn't fit. */
  readonly #room: Float64Array[];
  readonly #always: number;
  /** By the same: what the set earns. */
  readonly #alone: Float64Array[];
  /** What two others earn with a set, and what the lead and another. */
  readonly #two: Float64Array;
  readonly #withLead: Float64Array;
  /** Walking that the team can't do without: at least one walk through all, cut where each person leaves. */
  readonly walking: LeastWalking;

  private constructor(problem: Problem, minutes: number, optional: number[]) {
    const { tasks, team } = problem;
    const frame = onceForShape(framesMade, problem, `${minutes}`, () =>
      makeFrame(problem, minutes, optional),
    );
    this.#team = team;
    this.#optional = optional;
    this.#minutes = tasks.map((t) => t.minutes);
    this.#bit = frame.bit;
    this.#always = frame.always;
    this.#room = frame.room;
    this.walking = frame.walking;
    const sets = 1 << problem.owned.length;
    this.#alone = frame.room.map(() => new Float64Array(sets));
    this.#two = new Float64Array(team > 2 ? sets : 0);
    this.#withLead = new Float64Array(team > 3 && frame.room.length > 1 ? sets : 0);
  }

  /** Null where minutes can't be held set by set: one person, more stops than `mostStops`, a walk begun already. */
  static of(problem: Problem, minutes: number, optional: number[], mostStops: number): Shares | null {
    const { team, owned, begin } = problem;
    return team < 2 || owned.length > mostStops || begin.done.size > 0
      ? null
      : new Shares(problem, minutes, optional);
  }

  /** The most at these values of checks; sets `taken` to the part of each that is done. */
  most(value: Float64Array, taken: Float64Array): number {
    const items = this.#optional
      .filter((i) => (value[i] ?? 0) > 1e-12)
      .map((i) => ({ i, rate: (value[i] ?? 0) / (this.#minutes[i] ?? 1) }))
      .sort((a, b) => b.rate - a.rate || a.i - b.i)
      .map((item) => item.i);
    this.#alone.forEach((alone, who) => {
      this.#weighSets(alone, who, value, items);
      this.#letLeave(alone);
    });
    taken.fill(0);
    return this.#shareOut(items, taken);
  }

  /** What each set of stops earns one person alone. */
  #weighSets(alone: Float64Array, who: number, value: Float64Array, items: number[]): void {
    const lead = who === 0;
    const bits = Int32Array.from(items, (i) => this.#bit[i] ?? 0);
    const minutes = Float64Array.from(items, (i) => this.#minutes[i] ?? 1);
    const values = Float64Array.from(items, (i) => value[i] ?? 0);
    const rooms = this.#room[who];
    for (let set = 0; set < alone.length; set++) {
      let room = rooms?.[set] ?? 0;
      let sum = room < 0 ? Number.NEGATIVE_INFINITY : 0;
      for (let k = 0; k < bits.length && room > 0; k++) {
        const bit = bits[k] ?? 0;
        if (bit === 0 ? !lead : (bit & set) === 0) continue;
        const m = minutes[k] ?? 1;
        sum += room >= m ? (values[k] ?? 0) : ((values[k] ?? 0) * room) / m;
        room -= m;
      }
      alone[set] = sum;
    }
  }

  /** Lets a set leave out stops that need not be entered. */
  #letLeave(alone: Float64Array): void {
    for (let bit = 1; bit < alone.length; bit <<= 1) {
      if ((bit & this.#always) !== 0) continue;
      for (let set = 0; set < alone.length; set++)
        if ((set & bit) !== 0) alone[set] = Math.max(alone[set] ?? 0, alone[set ^ bit] ?? 0);
    }
  }

  /** Shares all stops out, and marks what is done. */
  #shareOut(items: number[], taken: Float64Array): number {
    const lead = this.#alone[0] ?? this.#two;
    const other = this.#alone.at(-1) ?? lead;
    if (this.#team > 2) shareAmong(other, other, this.#two);
    if (this.#team > 3 && lead !== other) shareAmong(lead, other, this.#withLead);
    const first = this.#team < 4 ? lead : lead === other ? this.#two : this.#withLead;
    const rest = this.#team === 2 ? other : this.#two;
    const whole = lead.length - 1;
    const { part, sum } = bestPart(whole, first, rest);
    const mark = (set: number, alone: Float64Array): void => this.#mark(set, alone, items, taken);
    const markTwo = (set: number, one: Float64Array): void => {
      const split = bestPart(set, one, other);
      mark(split.part, one);
      mark(set ^ split.part, other);
    };
    if (this.#team < 4) mark(part, lead);
    else markTwo(part, lead);
    if (this.#team === 2) mark(whole ^ part, other);
    else markTwo(whole ^ part, other);
    return sum;
  }

  /** Marks what one person does with a set of stops. */
  #mark(set: number, alone: Float64Array, items: number[], taken: Float64Array): void {
    const lead = alone === this.#alone[0];
    let mine = set;
    for (let bit = 1; bit < alone.length; bit <<= 1)
      if ((mine & bit & ~this.#always) !== 0 && (alone[mine ^ bit] ?? 0) >= (alone[mine] ?? 0)) mine ^= bit;
    let room = this.#room[this.#alone.indexOf(alone)]?.[mine] ?? 0;
    for (const i of items) {
      if (room <= 0) return;
      const bit = this.#bit[i] ?? 0;
      if ((bit === 0 ? !lead : (bit & mine) === 0) || taken[i] !== 0) continue;
      const minutes = this.#minutes[i] ?? 1;
      taken[i] = Math.min(1, room / minutes);
      room -= minutes;
    }
  }
}

/** What the sharing of a problem follows from besides odds: see the fields of `Shares`. */
interface Frame {
  bit: Int32Array;
  always: number;
  room: Float64Array[];
  walking: LeastWalking;
}

const framesMade = new WeakMap<Problem['sequence'], Map<string, Frame>>();

function makeFrame(problem: Problem, minutes: number, optional: readonly number[]): Frame {
  const { tasks, owned, geometry, team, block, door, end } = problem;
  const bitOf = new Map(owned.map((stop, b) => [stop, 1 << b]));
  const work = new Float64Array(owned.length);
  let together = 0;
  let round = 0;
  let always = 0;
  let leads = 0;
  for (const i of fixedTasks(problem)) {
    const task = tasks[i];
    if (task === undefined) continue;
    const bit = bitOf.get(task.stop) ?? 0;
    if (isOwned(problem, i)) {
      work[owned.indexOf(task.stop)] = (work[owned.indexOf(task.stop)] ?? 0) + task.minutes;
      always |= bit;
    } else if (block[i] === 'arrival' || block[i] === 'closing') together += task.minutes;
    else {
      round += task.minutes;
      leads |= bit;
    }
  }
  const { path, leadPath } = onceForShape(pathsMade, problem, '', () => makePaths(problem, round > 0));
  const unit = optional.every((i) => Number.isInteger(tasks[i]?.minutes)) ? 1 : 0;
  const room = (frame: number, walked: number, paths: Float64Array): Float64Array =>
    paths.map((walk, set) => {
      let left = minutes - frame - walk;
      for (let b = 0; b < owned.length; b++) {
        if ((set & (1 << b)) !== 0) left -= work[b] ?? 0;
        if (((set | walked) & (1 << b)) !== 0) left -= geometry.opening[owned[b] ?? 0] ?? 0;
      }
      return unit > 0 ? Math.floor(left + 1e-9) : left;
    });
  const alike = round === 0 && optional.every((i) => isOwned(problem, i));
  const free = owned.filter((_, b) => (always & (1 << b)) === 0);
  const back = (team - 1) * walkMinutes(geometry, end, door);
  const least = Float64Array.from({ length: 1 << free.length }, (_, set) => {
    const bits = free.reduce((sum, s, b) => sum | ((set & (1 << b)) === 0 ? 0 : (bitOf.get(s) ?? 0)), always);
    return Math.max(0, (path[bits] ?? 0) - back);
  });
  return {
    bit: Int32Array.from(tasks, (t, i) => (isOwned(problem, i) ? (bitOf.get(t.stop) ?? 0) : 0)),
    always,
    room: alike
      ? [room(together, 0, path)]
      : [room(together + round, leads, leadPath), room(together, 0, path)],
    walking: { free, minutes: [least], uncounted: [] },
  };
}

/** Shortest walks through each set of the owned stops: of anybody, and of the lead, who comes from the start-up round if
 * there is one. */
function makePaths(problem: Problem, hasRound: boolean): { path: Float64Array; leadPath: Float64Array } {
  const { geometry, owned, door, end } = problem;
  const path = pathBySet(geometry, owned, door, end);
  path[0] = walkMinutes(geometry, door, end);
  if (!hasRound) return { path, leadPath: path };
  const reaches = leadReaches(problem);
  const leadPath = pathBySet(geometry, owned, door, end, reaches);
  leadPath[0] = reaches(end);
  return { path, leadPath };
}

const pathsMade = new WeakMap<Problem['sequence'], Map<string, ReturnType<typeof makePaths>>>();

/** What two people earn with each set at best; where both are alike, the first stop is the first one's. */
function shareAmong(one: Float64Array, other: Float64Array, both: Float64Array): void {
  for (let set = 0; set < both.length; set++) {
    const held = one === other ? set & -set : 0;
    const free = set ^ held;
    let most = Number.NEGATIVE_INFINITY;
    for (let part = free; ; part = (part - 1) & free) {
      const sum = (one[set ^ part] ?? 0) + (other[part] ?? 0);
      if (sum > most) most = sum;
      if (part === 0) break;
    }
    both[set] = most;
  }
}

/** The part of a set for `one`, the rest being the other's, that earns most. */
function bestPart(set: number, one: Float64Array, other: Float64Array): { part: number; sum: number } {
  let best = 0;
  let most = Number.NEGATIVE_INFINITY;
  for (let part = set; ; part = (part - 1) & set) {
    const sum = (one[part] ?? 0) + (other[set ^ part] ?? 0);
    if (sum > most) {
      most = sum;
      best = part;
    }
    if (part === 0) return { part: best, sum: most };
  }
}
