import type { Clock, Kernels } from '../../planner/belief/kernels.ts';

/** Slopes by cumulative hazard: [material][age] and [material][year]. */
export interface Span {
  age: Float64Array[];
  year: Float64Array[];
}

/** The backward pass for all classes at once, kept so that it can be run in reverse. */
export class ClassPass {
  /** [year index x class] chance of each class. */
  readonly z: Float64Array;
  readonly #k: Kernels;
  readonly #classes: number;
  readonly #member: boolean[][];
  readonly #e: Float64Array[];
  readonly #f: Float64Array[];
  readonly #g: Float64Array;
  readonly #w: Float64Array;

  constructor(kernels: Kernels, member: boolean[][]) {
    const { last, ids, partial, complete, sNew, sRen } = kernels;
    const classes = member[0]?.length ?? 0;
    const size = (last + 1) * classes;
    this.#k = kernels;
    this.#classes = classes;
    this.#member = member;
    this.#e = ids.map(() => new Float64Array(size));
    this.#f = ids.map(() => new Float64Array(size));
    this.#g = new Float64Array(size);
    this.#w = new Float64Array(size);
    this.z = new Float64Array(size);
    for (let t = last; t >= 0; t--) {
      for (let m = 0; m < ids.length; m++) {
        const ren = sRen[m]?.[t] ?? 0;
        const born = sNew[m]?.[t] ?? 0;
        if (ren <= 0 && born <= 0) continue;
        const e = this.#e[m] as Float64Array;
        const f = this.#f[m] as Float64Array;
        for (let c = 0; c < classes; c++) e[t * classes + c] = member[m]?.[c] ? 1 : 0;
        step(partial, m, t, last, classes, e, this.#g);
        for (let c = 0; c < classes; c++) {
          f[t * classes + c] = e[t * classes + c] as number;
          this.#g[t * classes + c] =
            (this.#g[t * classes + c] as number) + ren * (e[t * classes + c] as number);
        }
        step(complete, m, t, last, classes, f, this.#w);
        for (let c = 0; c < classes; c++) {
          const at = t * classes + c;
          this.#w[at] = (this.#w[at] as number) + ren * (f[at] as number);
          this.z[at] = (this.z[at] as number) + born * (f[at] as number);
        }
      }
    }
  }

  /** Adds the slopes by shares to `slope`, given those by z; gives those by cumulative hazard. */
  reverse(
    zSlope: Float64Array,
    slope: { sNew: Float64Array[]; sRen: Float64Array[] },
  ): { complete: Span; partial: Span } {
    const { last, ids, partial, complete, sNew, sRen } = this.#k;
    const classes = this.#classes;
    const span = (): Span => ({
      age: ids.map(() => new Float64Array(last + 1)),
      year: ids.map(() => new Float64Array(last + 1)),
    });
    const lambda = { complete: span(), partial: span() };
    const wBar = new Float64Array((last + 1) * classes);
    const gBar = new Float64Array((last + 1) * classes);
    const bar = new Float64Array(classes);
    const eBar = new Float64Array(classes);
    for (let t = 0; t <= last; t++) {
      for (let m = 0; m < ids.length; m++) {
        const ren = sRen[m]?.[t] ?? 0;
        const born = sNew[m]?.[t] ?? 0;
        if (ren <= 0 && born <= 0) continue;
        const f = this.#f[m] as Float64Array;
        const e = this.#e[m] as Float64Array;
        const newSlope = slope.sNew[m] as Float64Array;
        const renSlope = slope.sRen[m] as Float64Array;
        for (let c = 0; c < classes; c++) {
          const at = t * classes + c;
          const zs = zSlope[at] as number;
          const ws = wBar[at] as number;
          newSlope[t] = (newSlope[t] as number) + zs * (f[at] as number);
          renSlope[t] =
            (renSlope[t] as number) + ws * (f[at] as number) + (gBar[at] as number) * (e[at] as number);
          bar[c] = born * zs + ren * ws;
        }
        eBar.fill(0);
        reverseStep(
          complete,
          m,
          t,
          last,
          bar,
          eBar,
          (c) => e[t * classes + c] as number,
          this.#w,
          wBar,
          lambda.complete,
        );
        for (let c = 0; c < classes; c++)
          eBar[c] = (eBar[c] as number) + ren * (gBar[t * classes + c] as number);
        reverseStep(
          partial,
          m,
          t,
          last,
          eBar,
          null,
          (c) => (this.#member[m]?.[c] ? 1 : 0),
          this.#g,
          gBar,
          lambda.partial,
        );
      }
    }
    return lambda;
  }
}

/** value(t) <- S(t, last) value(t) + sum over u of K(t, u) after(u), for all classes. */
function step(
  clock: Clock,
  m: number,
  t: number,
  last: number,
  classes: number,
  value: Float64Array,
  after: Float64Array,
): void {
  const age = clock.byAge[m] as Float64Array;
  const year = clock.byYear[m] as Float64Array;
  const stands = ((age[last - t] as number) * (year[last] as number)) / (year[t] as number);
  if (stands === 1) return;
  const at = t * classes;
  for (let c = 0; c < classes; c++) value[at + c] = (value[at + c] as number) * stands;
  let before = 1;
  for (let u = t + 1; u <= last; u++) {
    const now = ((age[u - t] as number) * (year[u] as number)) / (year[t] as number);
    const event = before - now;
    before = now;
    if (event <= 0) continue;
    for (let c = 0; c < classes; c++)
      value[at + c] = (value[at + c] as number) + event * (after[u * classes + c] as number);
  }
}

/** The reverse of `step`: `bar` is the slope by its result. Adds to the slopes by what it started from (`startBar`), by
 * `after`, and by cumulative hazard. */
function reverseStep(
  clock: Clock,
  m: number,
  t: number,
  last: number,
  bar: Float64Array,
  startBar: Float64Array | null,
  start: (c: number) => number,
  after: Float64Array,
  afterBar: Float64Array,
  lambda: Span,
): void {
  const classes = bar.length;
  const age = clock.byAge[m] as Float64Array;
  const year = clock.byYear[m] as Float64Array;
  const byAge = lambda.age[m] as Float64Array;
  const byYear = lambda.year[m] as Float64Array;
  const scale = 1 / (year[t] as number);
  const stands = (age[last - t] as number) * (year[last] as number) * scale;
  let atEnd = 0;
  for (let c = 0; c < classes; c++) {
    atEnd += (bar[c] as number) * start(c);
    if (startBar !== null) startBar[c] = (startBar[c] as number) + stands * (bar[c] as number);
  }
  // Slope by S(t, u) is that by K(t, u + 1) less that by K(t, u); by cumulative hazard it is -S times that.
  let nextSlope = atEnd;
  let now = stands;
  for (let u = last; u > t; u--) {
    const before = u - 1 === t ? 1 : (age[u - 1 - t] as number) * (year[u - 1] as number) * scale;
    const event = before - now;
    let slope = 0;
    for (let c = 0; c < classes; c++) {
      const b = bar[c] as number;
      slope += b * (after[u * classes + c] as number);
      if (event > 0) afterBar[u * classes + c] = (afterBar[u * classes + c] as number) + event * b;
    }
    const byHazard = -now * (nextSlope - slope);
    byAge[u - t] = (byAge[u - t] as number) + byHazard;
    byYear[u] = (byYear[u] as number) + byHazard;
    byYear[t] = (byYear[t] as number) - byHazard;
    nextSlope = slope;
    now = before;
  }
}
