import type { Base } from '../../knowledge/schema/base.ts';
import { solvePositive } from './linear.ts';
import type { Process } from './parameters.ts';
import { type Seen, SurveyProcess } from './survey-process.ts';
import type { SurveyRow } from './survey-rows.ts';
import { surveySpread } from './survey-spread.ts';
import { linkOf, type SurveySystem } from './survey-systems.ts';

/** What a system's fit to the energy surveys came to. */
export interface SurveyFit {
  /** Shares, lives and waves of the nation. */
  process: Process;
  /** Factor of each material in each state, on top of nothing: authored factor and fitted offset in one. */
  factors: Map<string, Record<string, number>>;
  /** Standard deviations of log-odds: states within a division, divisions, one survey against another. */
  spread: { state: number; division: number; survey: number };
  rows: number;
  /** Fitted and observed share of each answer of each row. */
  fitted: { row: SurveyRow; shares: number[] }[];
}

/** Part of an answer that is taken to be at random: keeps a row of zeros from ruling a material out. */
const STRAY = 0.01;
const ROUNDS = 6;
const STEP = 1e-3;
/** Years of a step of the coarse calendar. */
const COARSE = 4;
/** Spreads to begin with; they are estimated from the second round on. */
const START = { state: 0.5, division: 0.5, survey: 0.2 };

/** Fits national parameters, offsets of divisions and of states by penalised likelihood (Fisher scoring), the
 * spreads of the offsets by the expectation-maximisation step from the curvature, and the spread between surveys from
 * what misfit is left beyond sampling. Deterministic. */
export function fitSurveys(
  base: Base,
  tested: SurveySystem,
  rows: SurveyRow[],
  log: (line: string) => void,
): SurveyFit {
  const fit = new Fitting(base, tested, rows);
  for (let round = 0; round < ROUNDS; round++) {
    const { loss, step } = fit.improve();
    if (round > 0) fit.updateSpreads();
    const { state, division, survey } = fit.spread;
    log(
      `${tested.title}, round ${round + 1}: loss ${loss.toFixed(1)}, step ${step}, spreads ${[state, division, survey].map((v) => v.toFixed(2)).join(' ')}`,
    );
  }
  return fit.result();
}

class Fitting {
  spread = { ...START };
  readonly #process: SurveyProcess;
  readonly #rows: SurveyRow[];
  readonly #links: number[][][];
  /** States, the house of unknown place last. */
  readonly #places: (string | null)[];
  readonly #divisions: string[];
  readonly #divisionOf: number[];
  readonly #byState: boolean;
  readonly #groups: number;
  readonly #national: number;
  /** What is asked of each place, and where in it each row's answer stands. */
  readonly #seen: Seen[][];
  readonly #parts: { place: number; at: number; weight: number }[][];
  #x: Float64Array;
  #variance: Float64Array;

  constructor(base: Base, tested: SurveySystem, rows: SurveyRow[]) {
    const system = base.systems.find((s) => s.id === tested.system);
    if (system === undefined) throw new Error(`knowledge/systems/${tested.system}.mdx is not there`);
    this.#process = new SurveyProcess(base, system, tested.groups, tested.keepsKind);
    this.#rows = rows;
    this.#links = rows.map((row) => linkOf(tested, row));
    const states = base.places.states;
    this.#places = [...states.map((s) => s.code), null];
    this.#divisions = [...new Set(states.map((s) => s.division))].sort();
    this.#divisionOf = states.map((s) => this.#divisions.indexOf(s.division));
    this.#byState = tested.byState;
    this.#groups = this.#process.groups.length;
    this.#national = this.#process.length;
    const length =
      this.#national + (this.#divisions.length + (tested.byState ? states.length : 0)) * this.#groups;
    this.#x = new Float64Array(length);
    this.#variance = new Float64Array(length);
    this.#seen = this.#places.map(() => []);
    this.#parts = rows.map((row) =>
      (row.states ?? [{ state: null, weight: 1 }]).map(({ state, weight }) => {
        const place = this.#places.indexOf(state);
        const own = this.#seen[place] ?? [];
        let at = own.findIndex((s) => s.from === row.from && s.to === row.to && s.asOf === row.asOf);
        if (at < 0) at = own.push({ from: row.from, to: row.to, asOf: row.asOf }) - 1;
        return { place, at, weight };
      }),
    );
  }

  /** One round: the slope and curvature at x, then the step, halved until it helps. */
  improve(): { loss: number; step: number } {
    const x = this.#x;
    const here = this.#chances(x);
    const before = this.#loss(x, here);
    const { slope, curvature } = this.#curvature(x, here);
    const { x: move, variance } = solvePositive(curvature, slope);
    this.#variance = variance;
    for (let step = 1; step > 0.01; step /= 2) {
      const next = x.map((v, i) => v + step * Math.max(-1.5, Math.min(1.5, move[i] ?? 0)));
      const loss = this.#loss(next, this.#chances(next));
      if (loss < before) {
        this.#x = next;
        return { loss, step };
      }
    }
    return { loss: before, step: 0 };
  }

  updateSpreads(): void {
    const { state, division } = this.spread;
    const meanSquare = (from: number, to: number): number => {
      let sum = 0;
      for (let i = from; i < to; i++) sum += (this.#x[i] ?? 0) ** 2 + (this.#variance[i] ?? 0);
      return sum / Math.max(1, to - from);
    };
    const end = this.#national + this.#divisions.length * this.#groups;
    const chances = this.#chances(this.#x);
    this.spread = {
      division: Math.sqrt(meanSquare(this.#national, end)),
      state: this.#byState ? Math.sqrt(meanSquare(end, this.#x.length)) : state,
      survey: surveySpread(this.#rows, (r) => this.#answers(chances, r), this.#parametersSpent()),
    };
    if (!(this.spread.division > 0)) this.spread.division = division;
  }

  result(): SurveyFit {
    const chances = this.#chances(this.#x);
    return {
      process: this.#process.process(this.#x.subarray(0, this.#national)),
      factors: new Map(
        this.#places.flatMap((place, i): [string, Record<string, number>][] =>
          place === null ? [] : [[place, this.#process.factors(place, this.#offsets(this.#x, i))]],
        ),
      ),
      spread: { ...this.spread, state: this.#byState ? this.spread.state : 0 },
      rows: Math.round(this.#rows.reduce((sum, row) => sum + row.n, 0)),
      fitted: this.#rows.map((row, r) => ({ row, shares: this.#answers(chances, r) })),
    };
  }

  /** Log-offsets of the groups in a place: its division's and, where the survey is by state, its own. */
  #offsets(x: Float64Array, place: number): number[] {
    const d = this.#divisionOf[place];
    return Array.from({ length: this.#groups }, (_, g) => {
      if (d === undefined) return 0;
      const own = this.#byState ? (x[this.#stateAt(place) + g] ?? 0) : 0;
      return (x[this.#divisionAt(d) + g] ?? 0) + own;
    });
  }

  #divisionAt(d: number): number {
    return this.#national + d * this.#groups;
  }

  #stateAt(place: number): number {
    return this.#national + (this.#divisions.length + place) * this.#groups;
  }

  #chances(x: Float64Array, step = 1): number[][][] {
    const process = this.#process.process(x.subarray(0, this.#national));
    return this.#places.map((place, i) =>
      this.#process.chances(process, place, this.#offsets(x, i), this.#seen[i] ?? [], step),
    );
  }

  /** Chance of each answer of a row. */
  #answers(chances: number[][][], r: number): number[] {
    const link = this.#links[r] ?? [];
    const raw = link.map(
      (shares) =>
        (this.#parts[r] ?? []).reduce((sum, { place, at, weight }) => {
          const groups = chances[place]?.[at] ?? [];
          return sum + weight * shares.reduce((total, share, g) => total + share * (groups[g] ?? 0), 0);
        }, 0),
      0,
    );
    const all = raw.reduce((sum, p) => sum + p, 0);
    return raw.map((p) => ((1 - STRAY) * p) / Math.max(all, 1e-9) + STRAY / raw.length);
  }

  /** Households of a row once the spread between surveys is counted in: 1/n + spread^2 p (1 - p). */
  #effective(row: SurveyRow): number {
    const spreadOut = 1 - row.answers.reduce((sum, a) => sum + a.share ** 2, 0);
    return 1 / (1 / row.n + this.spread.survey ** 2 * Math.max(0.02, spreadOut / 2));
  }

  #loss(x: Float64Array, chances: number[][][]): number {
    let loss = 0;
    this.#rows.forEach((row, r) => {
      const n = this.#effective(row);
      const p = this.#answers(chances, r);
      row.answers.forEach((a, k) => {
        if (a.share > 0) loss -= n * a.share * Math.log(p[k] ?? 1e-9);
      });
    });
    let prior = 0;
    this.#prior((i, j, value) => {
      prior += 0.5 * value * (x[i] ?? 0) * (x[j] ?? 0);
    });
    return loss + prior;
  }

  #prior(add: (i: number, j: number, value: number) => void): void {
    this.#process.priorPrecision(add);
    const end = this.#national + this.#divisions.length * this.#groups;
    for (let i = this.#national; i < this.#x.length; i++)
      add(i, i, 1 / (i < end ? this.spread.division : this.spread.state) ** 2);
  }

  #curvature(x: Float64Array, here: number[][][]): { slope: Float64Array; curvature: Float64Array[] } {
    const slope = new Float64Array(x.length);
    const curvature = Array.from({ length: x.length }, () => new Float64Array(x.length));
    // Slopes come from a coarse calendar; what is fitted, and the step that is kept, from the exact one.
    const rough = this.#chances(x, COARSE);
    const moves = this.#moves(x, rough);
    const base = this.#rows.map((_, r) => this.#answers(here, r));
    const roughly = this.#rows.map((_, r) => this.#answers(rough, r));
    this.#rows.forEach((row, r) => {
      const n = this.#effective(row);
      const p = base[r] ?? [];
      const touched = moves.filter((move) => move.rows === null || move.rows.has(r));
      const slopes = touched.map((move) => this.#slopeOfRow(rough, move.chances, r, roughly[r] ?? []));
      row.answers.forEach((a, k) => {
        const pk = p[k] ?? 1e-9;
        touched.forEach((one, i) => {
          const ji = slopes[i]?.[k] ?? 0;
          if (ji === 0) return;
          for (const at of one.at) slope[at] = (slope[at] ?? 0) + (n * a.share * ji) / pk;
          touched.forEach((other, j) => {
            const jj = slopes[j]?.[k] ?? 0;
            if (jj === 0) return;
            const w = (n * ji * jj) / pk;
            for (const from of one.at)
              for (const to of other.at) {
                const line = curvature[from];
                if (line !== undefined) line[to] = (line[to] ?? 0) + w;
              }
          });
        });
      });
    });
    this.#prior((i, j, value) => {
      const line = curvature[i];
      if (line !== undefined) line[j] = (line[j] ?? 0) + value;
      slope[i] = (slope[i] ?? 0) - value * (x[j] ?? 0);
    });
    return { slope, curvature };
  }

  /** Chances with one parameter moved. A place's offset moves its own chances alone, and stands for the division's
   * and the state's parameter at once. */
  #moves(
    x: Float64Array,
    here: number[][][],
  ): { at: number[]; rows: Set<number> | null; chances: (place: number) => number[][] | undefined }[] {
    const national = Array.from({ length: this.#national }, (_, i) => {
      const moved = Float64Array.from(x);
      moved[i] = (moved[i] ?? 0) + STEP;
      const chances = this.#chances(moved, COARSE);
      return { at: [i], rows: null, chances: (place: number) => chances[place] };
    });
    const process = this.#process.process(x.subarray(0, this.#national));
    const local = this.#divisionOf.flatMap((d, place) => {
      const rows = new Set(
        this.#parts.flatMap((parts, r) => (parts.some((part) => part.place === place) ? [r] : [])),
      );
      if (rows.size === 0) return [];
      const offsets = this.#offsets(x, place);
      return offsets.map((_, g) => {
        const moved = offsets.map((v, k) => (k === g ? v + STEP : v));
        const own = this.#process.chances(
          process,
          this.#places[place] ?? null,
          moved,
          this.#seen[place] ?? [],
          COARSE,
        );
        const at = [this.#divisionAt(d) + g, ...(this.#byState ? [this.#stateAt(place) + g] : [])];
        return { at, rows, chances: (p: number) => (p === place ? own : here[p]) };
      });
    });
    return [...national, ...local];
  }

  #slopeOfRow(
    here: number[][][],
    moved: (place: number) => number[][] | undefined,
    r: number,
    p: number[],
  ): number[] {
    const chances: number[][][] = [];
    for (const { place } of this.#parts[r] ?? []) chances[place] = moved(place) ?? here[place] ?? [];
    return this.#answers(chances, r).map((v, k) => (v - (p[k] ?? 0)) / STEP);
  }

  /** Parameters that the rows, not the priors, settled: sum of 1 - variance x prior precision. */
  #parametersSpent(): number {
    const precision = new Float64Array(this.#x.length);
    this.#prior((i, j, value) => {
      if (i === j) precision[i] = (precision[i] ?? 0) + value;
    });
    return precision.reduce((sum, p, i) => sum + Math.max(0, 1 - p * (this.#variance[i] ?? 0)), 0);
  }
}
