import { Worth } from '../value/worth.ts';
import { fixedTasks, type Problem } from './problem.ts';
import { Clock } from './simulate.ts';

/** A set of checks, who owns each stop, and what comes of it. */
export interface Choice {
  chosen: Uint8Array;
  /** Person to whom each stop of the main walk belongs. */
  owner: Int8Array;
  worth: number;
  /** Minutes from arrival until everybody is done. */
  length: number;
}

/** A walk that is shown already: each shown check that goes and each stop that changes hands costs `price` in worth. */
export interface Shown {
  chosen: Uint8Array;
  owner: Int8Array;
  price: number;
}

/** Minutes that a further check costs besides its own, on average: a step aside (practice). */
const DETOUR = 0.5;

/** Choosing for one problem: adding what is worth most per minute, and the moves that improve on it. */
export class Search {
  readonly problem: Problem;
  readonly clock: Clock;
  readonly fixed: number[];
  readonly #isFixed: Uint8Array;
  readonly #worth: Worth;
  readonly #done: number[];
  readonly #shown: Shown | null;
  readonly #rates: Float64Array;
  readonly #busy: Float64Array;
  readonly #opened: Uint8Array;

  constructor(problem: Problem, shown: Shown | null = null) {
    this.problem = problem;
    this.clock = new Clock(problem);
    this.fixed = fixedTasks(problem);
    this.#isFixed = new Uint8Array(problem.tasks.length);
    for (const i of this.fixed) this.#isFixed[i] = 1;
    this.#worth = new Worth(problem.targets, problem.tasks);
    this.#done = [...problem.begin.done.keys()];
    this.#shown = shown;
    this.#rates = new Float64Array(problem.tasks.length);
    this.#busy = new Float64Array(problem.team);
    this.#opened = new Uint8Array(problem.geometry.stops.length);
  }

  /** The tasks that are always done, as early done as sharing out the stops allows. Null if they wait for each other. */
  least(): Choice | null {
    const chosen = new Uint8Array(this.problem.tasks.length);
    for (const i of this.fixed) chosen[i] = 1;
    const owner = this.#shown === null ? this.#shareStops() : this.#shown.owner.slice();
    const choice = { chosen, owner, worth: this.#count(chosen), length: this.clock.run(chosen, owner) };
    if (choice.length === Number.POSITIVE_INFINITY) return null;
    if (this.problem.team > 1 && this.#shown === null) this.#balance(choice);
    return choice;
  }

  /** Adds checks, best worth per minute first, until nothing more fits the budget. `noise` sways the order. A check
   * where somebody is anyway lengthens their day by its own minutes, so that it is added unseen and the walk timed at
   * the end; what then doesn't fit is put back, last first. Worth only shrinks as checks are added: a rate computed
   * earlier is an upper limit, and only the highest is computed again. */
  fill(choice: Choice, budget: number, noise: Float64Array | null = null): void {
    const { chosen, owner } = choice;
    this.#count(chosen);
    choice.length = this.clock.run(chosen, owner);
    this.#keep();
    const unseen: number[][] = [];
    this.#rateAll(choice, budget, noise);
    for (;;) {
      const best = highest(this.#rates);
      if (best < 0) break;
      const rate = this.#rateOf(best, choice, budget) * (noise?.[best] ?? 1);
      const stale = rate < (this.#rates[best] ?? 0) - 1e-12;
      this.#rates[best] = stale ? rate : 0;
      if (stale) continue;
      const bundle = this.#missing(best, chosen);
      if (bundle.every((b) => this.#opened[this.problem.tasks[b]?.stop ?? 0] === 1)) {
        for (const b of bundle) this.#addUnseen(b, choice);
        unseen.push(bundle);
      } else {
        this.#settle(choice, budget, unseen);
        if (this.#enter(choice, best, bundle, budget)) this.#rateAll(choice, budget, noise);
      }
    }
    this.#settle(choice, budget, unseen);
    choice.worth = this.#worth.total;
  }

  /** What the choice is worth, less what it changes of a walk that is shown. */
  value(choice: Choice): number {
    const shown = this.#shown;
    if (shown === null) return choice.worth;
    let changes = 0;
    for (let i = 0; i < shown.chosen.length; i++)
      if (shown.chosen[i] === 1 && choice.chosen[i] !== 1) changes++;
    for (const stop of this.problem.owned) if (shown.owner[stop] !== choice.owner[stop]) changes++;
    return choice.worth - shown.price * changes;
  }

  isOptional(i: number): boolean {
    return this.#isFixed[i] === 0;
  }

  /** Drops optional checks of whoever is busiest, least loss per minute first, until the walk fits. `noise` sways the
   * order; `kept` stay. False if that can't be. */
  dropUntilFits(choice: Choice, budget: number, noise: Float64Array, kept: readonly number[]): boolean {
    const { tasks, block } = this.problem;
    const { chosen, owner } = choice;
    for (;;) {
      if (this.clock.run(chosen, owner) <= budget + 1e-9) return true;
      const { busy } = this.clock;
      let busiest = 0;
      for (let w = 1; w < busy.length; w++) if ((busy[w] ?? 0) > (busy[busiest] ?? 0) + 1e-9) busiest = w;
      this.#count(chosen);
      let out = -1;
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i < chosen.length; i++) {
        if (chosen[i] !== 1 || this.#isFixed[i] === 1 || kept.includes(i)) continue;
        const whose = block[i] === 'main' || block[i] === 'last' ? (owner[tasks[i]?.stop ?? 0] ?? 0) : 0;
        if (whose !== busiest) continue;
        const rate = (this.#worth.loss(i) / (tasks[i]?.minutes ?? 1)) * (noise[i] ?? 1);
        if (rate < least) {
          least = rate;
          out = i;
        }
      }
      if (out < 0) return false;
      this.remove(chosen, out);
    }
  }

  /** Takes a check and all that needs it out of the walk, unless they are always done. */
  remove(chosen: Uint8Array, i: number): void {
    for (const d of this.problem.dependents[i] ?? []) if (this.#isFixed[d] === 0) chosen[d] = 0;
  }

  /** The task and what it needs, as far as they are neither chosen nor done. */
  #missing(i: number, chosen: Uint8Array): number[] {
    const { closure, begin } = this.problem;
    return (closure[i] ?? []).filter((b) => chosen[b] !== 1 && !begin.done.has(b));
  }

  #rateAll(choice: Choice, budget: number, noise: Float64Array | null): void {
    const { begin } = this.problem;
    for (let i = 0; i < this.#rates.length; i++)
      this.#rates[i] =
        choice.chosen[i] === 1 || begin.done.has(i) ? 0 : this.#rateOf(i, choice, budget) * (noise?.[i] ?? 1);
  }

  /** Worth per minute of a check with what it needs; 0 if whoever would do it has no room. */
  #rateOf(i: number, { chosen, owner }: Choice, budget: number): number {
    const minutes = this.#roomFor(i, owner, budget);
    if (minutes === null) return 0;
    let gain = this.#worth.gain(i);
    let cost = minutes + DETOUR;
    const closure = this.problem.closure[i];
    if (closure !== undefined && closure.length > 1)
      for (const b of this.#missing(i, chosen)) {
        if (b === i) continue;
        gain += this.#worth.gain(b);
        cost += (this.problem.tasks[b]?.minutes ?? 0) + DETOUR;
      }
    return gain > 1e-9 ? gain / cost : 0;
  }

  #addUnseen(i: number, { chosen, owner }: Choice): void {
    const { tasks, block, team } = this.problem;
    const task = tasks[i];
    if (task === undefined) return;
    chosen[i] = 1;
    this.#worth.add(i);
    const kind = block[i];
    const first = kind === 'main' || kind === 'last' ? (owner[task.stop] ?? 0) : 0;
    const last = kind === 'arrival' || kind === 'closing' ? team - 1 : kind === 'pair' ? 1 : first;
    for (let w = first; w <= last; w++) this.#busy[w] = (this.#busy[w] ?? 0) + task.minutes;
  }

  /** Times what was added unseen, and puts back what makes the walk too long. */
  #settle(choice: Choice, budget: number, unseen: number[][]): void {
    const { chosen, owner } = choice;
    if (unseen.length === 0) return;
    choice.length = this.clock.run(chosen, owner);
    let back = false;
    for (
      let bundle = unseen.pop();
      choice.length > budget + 1e-9 && bundle !== undefined;
      bundle = unseen.pop()
    ) {
      for (const b of bundle) chosen[b] = 0;
      choice.length = this.clock.run(chosen, owner);
      back = true;
    }
    unseen.length = 0;
    if (back) this.#count(chosen);
    this.#keep();
  }

  /** Adds a check at a stop that nobody enters yet, if the walk then fits. */
  #enter(choice: Choice, best: number, bundle: number[], budget: number): boolean {
    const { chosen, owner } = choice;
    const { tasks, team, block } = this.problem;
    if (this.#rateOf(best, choice, budget) === 0) return false;
    for (const b of bundle) chosen[b] = 1;
    const stop = tasks[best]?.stop ?? 0;
    const owned = block[best] === 'main' || block[best] === 'last';
    const was = owner[stop] ?? 0;
    if (team > 1 && owned && this.#opened[stop] === 0) owner[stop] = this.#leastBusy();
    const length = this.clock.run(chosen, owner);
    if (length <= budget + 1e-9) {
      for (const b of bundle) this.#worth.add(b);
      choice.length = length;
      this.#keep();
      return true;
    }
    for (const b of bundle) chosen[b] = 0;
    owner[stop] = was;
    return false;
  }

  /** Minutes that a task takes with opening its stop, or null if whoever would do it has no room for it. */
  #roomFor(i: number, owner: Int8Array, budget: number): number | null {
    const { tasks, geometry, block, team } = this.problem;
    const task = tasks[i];
    if (task === undefined) return null;
    const entered = this.#opened[task.stop] === 1;
    const minutes = task.minutes + (entered ? 0 : (geometry.opening[task.stop] ?? 0));
    let busy = this.#busy[0] ?? 0;
    switch (block[i]) {
      case 'main':
      case 'last':
        busy = this.#busy[entered ? (owner[task.stop] ?? 0) : this.#leastBusy()] ?? 0;
        break;
      case 'arrival':
      case 'closing':
        for (let w = 1; w < team; w++) busy = Math.max(busy, this.#busy[w] ?? 0);
        break;
      case 'pair':
        busy = Math.max(busy, this.#busy[1] ?? 0);
        break;
    }
    return busy + minutes > budget + 1e-9 ? null : minutes;
  }

  #leastBusy(): number {
    let least = 0;
    for (let w = 1; w < this.#busy.length; w++)
      if ((this.#busy[w] ?? 0) < (this.#busy[least] ?? 0) - 1e-9) least = w;
    return least;
  }

  /** Remembers the clock's reading, since the next timing overwrites it. */
  #keep(): void {
    this.#busy.set(this.clock.busy);
    this.#opened.set(this.clock.opened);
  }

  #count(chosen: Uint8Array): number {
    this.#worth.reset();
    for (const i of this.#done) this.#worth.add(i);
    for (let i = 0; i < chosen.length; i++) if (chosen[i] === 1) this.#worth.add(i);
    return this.#worth.total;
  }

  /** Longest stop to whoever has least to do. */
  #shareStops(): Int8Array {
    const { geometry, team, tasks, block, owned } = this.problem;
    const owner = new Int8Array(geometry.stops.length);
    const load = new Array<number>(team).fill(0);
    const minutes = new Array<number>(geometry.stops.length).fill(0);
    for (const i of this.fixed) {
      const task = tasks[i];
      if (task === undefined) continue;
      if (block[i] === 'start-up' || block[i] === 'first') load[0] = (load[0] ?? 0) + task.minutes;
      else minutes[task.stop] = (minutes[task.stop] ?? 0) + task.minutes;
    }
    const work = owned.map((stop) => ({
      stop,
      minutes: (minutes[stop] ?? 0) + (geometry.opening[stop] ?? 0),
    }));
    work.sort((a, b) => b.minutes - a.minutes || a.stop - b.stop);
    for (const { stop, minutes: m } of work) {
      const person = load.indexOf(Math.min(...load));
      owner[stop] = person;
      load[person] = (load[person] ?? 0) + m + 1;
    }
    return owner;
  }

  /** Moves stops to others and swaps them, as long as that ends the walk sooner. */
  #balance(choice: Choice): void {
    const { owned, team } = this.problem;
    const { chosen, owner } = choice;
    for (let better = true; better; ) {
      better = false;
      for (const a of owned) {
        const was = owner[a] ?? 0;
        for (let w = 0; w < team; w++) {
          if (w === owner[a]) continue;
          const kept = owner[a] ?? 0;
          owner[a] = w;
          const length = this.clock.run(chosen, owner);
          if (length < choice.length - 1e-9) choice.length = length;
          else owner[a] = kept;
        }
        better ||= owner[a] !== was;
        for (const b of owned) {
          const [mine, theirs] = [owner[a] ?? 0, owner[b] ?? 0];
          if (b <= a || mine === theirs) continue;
          owner[a] = theirs;
          owner[b] = mine;
          const length = this.clock.run(chosen, owner);
          if (length < choice.length - 1e-9) {
            choice.length = length;
            better = true;
          } else {
            owner[a] = mine;
            owner[b] = theirs;
          }
        }
      }
    }
  }
}

function highest(rates: Float64Array): number {
  let best = -1;
  let most = 1e-12;
  for (let k = 0; k < rates.length; k++)
    if ((rates[k] ?? 0) > most) {
      most = rates[k] ?? 0;
      best = k;
    }
  return best;
}
