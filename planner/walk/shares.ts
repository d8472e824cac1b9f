import { pathBySet } from './paths.ts';
import { fixedTasks, type Problem } from './problem.ts';

/** Stops among which sharing out is weighed set by set. */
const MOST_SHARED = 12;

/** The most that a team can earn from optional checks at given prices, when every stop of the main walk is one
 * person's and nobody has more than the minutes of the visit: each person's set of stops is weighed by its best checks
 * that fit, cut to fit if need be, and the sets are shared out at best, by dynamic programming over sets of stops. */
export class Shares {
  readonly #team: number;
  readonly #optional: number[];
  readonly #minutes: number[];
  readonly #at: Int32Array;
  /** Minutes that a person with this set of stops has for optional checks; negative if its fixed work doesn't fit. */
  readonly #room: Float64Array;
  readonly #always: number;
  readonly #alone: Float64Array;
  readonly #best: Float64Array[] = [];

  private constructor(problem: Problem, minutes: number, optional: number[]) {
    const { tasks, owned, geometry, team, block } = problem;
    const fixed = fixedTasks(problem);
    const at = new Map(owned.map((stop, b) => [stop, b]));
    const work = owned.map((stop) => geometry.opening[stop] ?? 0);
    let together = 0;
    let always = 0;
    for (const i of fixed) {
      const task = tasks[i];
      if (task === undefined) continue;
      const b = at.get(task.stop);
      if (block[i] === 'arrival' || block[i] === 'closing') together += task.minutes;
      else if (b !== undefined) {
        work[b] = (work[b] ?? 0) + task.minutes;
        always |= 1 << b;
      }
    }
    this.#team = team;
    this.#optional = optional;
    this.#minutes = tasks.map((t) => t.minutes);
    this.#at = Int32Array.from(tasks, (t) => at.get(t.stop) ?? -1);
    this.#always = always;
    const path = pathBySet(geometry, owned, problem.door, problem.end);
    this.#room = path.map((walk, set) =>
      work.reduce((room, m, b) => ((set & (1 << b)) === 0 ? room : room - m), minutes - together - walk),
    );
    this.#room[0] = 0;
    this.#alone = new Float64Array(path.length);
    for (let people = 1; people <= team; people++) this.#best.push(new Float64Array(path.length));
  }

  /** Null where sharing out is not what binds: one person, too many stops, a walk begun already, or work that belongs
   * to no stop of somebody's own. */
  static of(problem: Problem, minutes: number, optional: number[]): Shares | null {
    const { team, owned, begin, block } = problem;
    const plain = block.every((b) => b === 'main' || b === 'last' || b === 'arrival' || b === 'closing');
    const ownWork = optional.every((i) => block[i] === 'main' || block[i] === 'last');
    if (team < 2 || owned.length > MOST_SHARED || begin.done.size > 0 || !plain || !ownWork) return null;
    return new Shares(problem, minutes, optional);
  }

  /** The most at these values of checks; sets `taken` to the part of each that is done. */
  most(value: Float64Array, taken: Float64Array): number {
    const items = this.#optional
      .filter((i) => (value[i] ?? 0) > 1e-12)
      .map((i) => ({ i, rate: (value[i] ?? 0) / (this.#minutes[i] ?? 1) }))
      .sort((a, b) => b.rate - a.rate || a.i - b.i)
      .map((item) => item.i);
    const stops = Int32Array.from(items, (i) => 1 << (this.#at[i] ?? 0));
    const minutes = Float64Array.from(items, (i) => this.#minutes[i] ?? 1);
    const values = Float64Array.from(items, (i) => value[i] ?? 0);
    for (let set = 1; set < this.#alone.length; set++) {
      let room = this.#room[set] ?? 0;
      let sum = room < -1e-9 ? Number.NEGATIVE_INFINITY : 0;
      for (let k = 0; k < items.length && room > 0; k++) {
        if (((stops[k] ?? 0) & set) === 0) continue;
        const part = Math.min(1, room / (minutes[k] ?? 1));
        sum += part * (values[k] ?? 0);
        room -= minutes[k] ?? 1;
      }
      this.#alone[set] = sum;
    }
    const whole = this.#shareOut();
    this.#readBack(whole, items, taken);
    return this.#best.at(-1)?.[whole] ?? 0;
  }

  /** Fills the tables of best shares for one person, two, and so on; returns the best set for the whole team. */
  #shareOut(): number {
    const size = this.#alone.length;
    this.#best[0]?.set(this.#alone);
    let whole = this.#always;
    for (let p = 1; p < this.#team; p++) {
      const [rest, best] = [this.#best[p - 1], this.#best[p]];
      if (rest === undefined || best === undefined) continue;
      const last = p === this.#team - 1;
      best.set(rest);
      for (let set = 1; set < size; set++) {
        if (last && (set & this.#always) !== this.#always) continue;
        const first = set & -set;
        const others = set ^ first;
        let most = best[set] ?? 0;
        for (let part = others; part !== 0; part = (part - 1) & others) {
          const sum = (this.#alone[set ^ part] ?? 0) + (rest[part] ?? 0);
          if (sum > most) most = sum;
        }
        best[set] = most;
        if (last && most > (best[whole] ?? 0)) whole = set;
      }
    }
    return whole;
  }

  #readBack(whole: number, items: number[], taken: Float64Array): void {
    taken.fill(0);
    let set = whole;
    for (let p = this.#team - 1; p >= 0 && set !== 0; p--) {
      const best = this.#best[p];
      const rest = this.#best[p - 1];
      let mine = set;
      if (rest !== undefined) {
        const goal = (best?.[set] ?? 0) - 1e-9;
        const first = set & -set;
        const others = set ^ first;
        if ((rest[set] ?? 0) >= goal) continue;
        for (let part = others; part !== 0; part = (part - 1) & others)
          if ((this.#alone[set ^ part] ?? 0) + (rest[part] ?? 0) >= goal) {
            mine = set ^ part;
            break;
          }
      }
      let room = this.#room[mine] ?? 0;
      for (const i of items) {
        if (room <= 0 || (mine & (1 << (this.#at[i] ?? 0))) === 0) continue;
        taken[i] = Math.min(1, room / (this.#minutes[i] ?? 1));
        room -= this.#minutes[i] ?? 1;
      }
      set ^= mine;
    }
  }
}
