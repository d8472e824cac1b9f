import type { SurveyParameters } from './survey-parameters.ts';
import type { Seen, SurveyProcess } from './survey-process.ts';
import type { SurveyRow } from './survey-rows.ts';
import { linkOf, type SurveySystem } from './survey-systems.ts';

/** Part of an answer that is taken to be at random: keeps a row of zeros from ruling a material out. */
const STRAY = 0.01;

/** Chance of each group, by place and by what is asked of the place. */
export type Chances = number[][][];

/** What the parameters say that the rows of the surveys would show. */
export class SurveyAnswers {
  readonly rows: readonly SurveyRow[];
  readonly #process: SurveyProcess;
  readonly #parameters: SurveyParameters;
  readonly #links: number[][][];
  /** What is asked of each place, and where in it each row's answer stands. */
  readonly #seen: Seen[][];
  readonly #parts: { place: number; at: number; weight: number }[][];

  constructor(
    process: SurveyProcess,
    parameters: SurveyParameters,
    tested: SurveySystem,
    rows: readonly SurveyRow[],
  ) {
    this.rows = rows;
    this.#process = process;
    this.#parameters = parameters;
    this.#links = rows.map((row) => linkOf(tested, row));
    this.#seen = parameters.places.map(() => []);
    this.#parts = rows.map((row) =>
      (row.states ?? [{ state: null, weight: 1 }]).map(({ state, weight }) => {
        const place = parameters.places.indexOf(state);
        const own = this.#seen[place] ?? [];
        let at = own.findIndex((s) => s.from === row.from && s.to === row.to && s.asOf === row.asOf);
        if (at < 0) at = own.push({ from: row.from, to: row.to, asOf: row.asOf }) - 1;
        return { place, at, weight };
      }),
    );
  }

  /** Rows in which a place has a part. */
  rowsOf(place: number): Set<number> {
    return new Set(
      this.#parts.flatMap((parts, r) => (parts.some((part) => part.place === place) ? [r] : [])),
    );
  }

  /** Chances in every place; `step` is that of the calendar. */
  chances(x: Float64Array, step = 1): Chances {
    const process = this.#process.process(x.subarray(0, this.#parameters.national));
    return this.#parameters.places.map((place, i) =>
      this.#process.chances(process, place, this.#parameters.offsets(x, i), this.#seen[i] ?? [], step),
    );
  }

  /** Chances in one place. */
  chancesIn(x: Float64Array, i: number, step: number): number[][] {
    const process = this.#process.process(x.subarray(0, this.#parameters.national));
    const place = this.#parameters.places[i] ?? null;
    return this.#process.chances(process, place, this.#parameters.offsets(x, i), this.#seen[i] ?? [], step);
  }

  /** Chance of each answer of a row, given the chances of each place. */
  of(r: number, chances: (place: number) => number[][] | undefined): number[] {
    const raw = (this.#links[r] ?? []).map((shares) =>
      (this.#parts[r] ?? []).reduce((sum, { place, at, weight }) => {
        const groups = chances(place)?.[at] ?? [];
        return sum + weight * shares.reduce((total, share, g) => total + share * (groups[g] ?? 0), 0);
      }, 0),
    );
    const all = raw.reduce((sum, p) => sum + p, 0);
    return raw.map((p) => ((1 - STRAY) * p) / Math.max(all, 1e-9) + STRAY / raw.length);
  }
}
