import { walkMinutes } from './geometry.ts';
import { fixedTasks, type Problem } from './problem.ts';
import { onceForShape } from './shape.ts';

/** Walking minutes of each person through any set of their own stops, in the order that the walk keeps, and what opening
 * each stop costs them. Worked out when first asked for. */
export class Routes {
  /** Position of each stop among the owned ones in the order of the walk, as a bit; 0 if nobody owns it. */
  readonly bit: Int32Array;
  /** Stop at each position. */
  readonly #order: number[];
  readonly #problem: Problem;
  /** By person: where they set out for their own stops. */
  readonly #from: number[];
  readonly #known: Float64Array[];
  /** By person and stop: minutes of opening it. */
  readonly #opening: Float64Array;

  constructor(problem: Problem) {
    const { team, geometry, begin, tasks, block } = problem;
    const n = geometry.stops.length;
    this.#problem = problem;
    this.#order = [
      ...new Set(problem.sequence.filter((i) => isOwned(problem, i)).map((i) => stopOf(problem, i))),
    ];
    this.bit = new Int32Array(n);
    this.#order.forEach((stop, b) => {
      this.bit[stop] = 1 << b;
    });
    const fixed = new Set(fixedTasks(problem));
    const round = problem.sequence.filter(
      (i) => fixed.has(i) && (block[i] === 'first' || block[i] === 'start-up'),
    );
    const left = round.at(-1);
    this.#from = Array.from({ length: team }, (_, w) =>
      w === 0 && left !== undefined ? stopOf(problem, left) : (begin.stop[w] ?? problem.door),
    );
    // People who set out from one stop share what is known of its routes.
    const tables = new Map<number, Float64Array>();
    this.#known = this.#from.map((from) => {
      const table = tables.get(from) ?? new Float64Array(1 << this.#order.length).fill(-1);
      tables.set(from, table);
      return table;
    });
    this.#opening = new Float64Array(team * n);
    for (let w = 0; w < team; w++)
      for (let s = 0; s < n; s++) {
        const open = begin.opened.has(s) || (w === 0 && round.some((i) => tasks[i]?.stop === s));
        this.#opening[w * n + s] = open ? 0 : (geometry.opening[s] ?? 0);
      }
  }

  /** Minutes that person w walks through the stops whose bits are set. */
  walk(w: number, stops: number): number {
    const known = this.#known[w];
    if (known === undefined) return 0;
    const ready = known[stops] ?? -1;
    if (ready >= 0) return ready;
    const { geometry, end } = this.#problem;
    let at = this.#from[w] ?? 0;
    let minutes = 0;
    for (let b = 0; b < this.#order.length; b++) {
      if ((stops & (1 << b)) === 0) continue;
      const next = this.#order[b] ?? 0;
      minutes += walkMinutes(geometry, at, next);
      at = next;
    }
    minutes += walkMinutes(geometry, at, end);
    known[stops] = minutes;
    return minutes;
  }

  /** Minutes that opening a stop costs person w. */
  opening(w: number, stop: number): number {
    return this.#opening[w * this.#problem.geometry.stops.length + stop] ?? 0;
  }
}

/** The routes of a problem, what is known of them kept for all problems of its shape. */
export function routesOf(problem: Problem): Routes {
  return onceForShape(routesMade, problem, '', () => new Routes(problem));
}

const routesMade = new WeakMap<Problem['sequence'], Map<string, Routes>>();

/** Whether a task is done by whoever owns its stop. */
export function isOwned(problem: Problem, i: number): boolean {
  return problem.block[i] === 'main' || problem.block[i] === 'last';
}

function stopOf(problem: Problem, i: number): number {
  return problem.tasks[i]?.stop ?? 0;
}
