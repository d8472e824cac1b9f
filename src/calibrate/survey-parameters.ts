import type { State } from '../../knowledge/schema/place.ts';
import type { PlaceOffsets, SurveyProcess } from './survey-process.ts';

/** Standard deviations over places of log-odds (states within a division, divisions) and of logarithms of the pace of
 * waves (likewise), and of log-odds from one survey to another. */
export interface Spread {
  division: number;
  state: number;
  paceOfDivision: number;
  paceOfState: number;
  survey: number;
}

/** A run of parameters that share a prior. */
interface Block {
  spread: keyof Spread;
  from: number;
  to: number;
}

/** Where in the vector of a fit each parameter stands: those of the nation, then what places add: an offset for each division and
 * group, for each state and group where states have their own, and the same for the pace of waves, where it differs. */
export class SurveyParameters {
  readonly national: number;
  readonly length: number;
  /** States, the house of unknown place last. */
  readonly places: (string | null)[];
  readonly #process: SurveyProcess;
  readonly #groups: number;
  readonly #divisionOf: number[];
  readonly #blocks: Block[] = [];

  constructor(
    process: SurveyProcess,
    states: readonly State[],
    { byState, paced }: { byState: boolean; paced: boolean },
  ) {
    this.#process = process;
    this.#groups = process.groups.length;
    this.places = [...states.map((s) => s.code), null];
    const divisions = [...new Set(states.map((s) => s.division))].sort();
    this.#divisionOf = states.map((s) => divisions.indexOf(s.division));
    this.national = process.length;
    const add = (spread: keyof Spread, count: number): void => {
      const from = this.#blocks.at(-1)?.to ?? this.national;
      if (count > 0) this.#blocks.push({ spread, from, to: from + count });
    };
    const ownStates = byState ? states.length : 0;
    add('division', divisions.length * this.#groups);
    add('state', ownStates * this.#groups);
    add('paceOfDivision', paced ? divisions.length : 0);
    add('paceOfState', paced ? ownStates : 0);
    this.length = this.#blocks.at(-1)?.to ?? this.national;
  }

  /** What a place adds: its division's and, where it has one, its own. */
  offsets(x: Float64Array, place: number): PlaceOffsets {
    const sums = this.movesOf(place).map((at) => at.reduce((sum, i) => sum + (x[i] ?? 0), 0));
    return {
      shares: Array.from({ length: this.#groups }, (_, g) => sums[g] ?? 0),
      pace: sums[this.#groups] ?? 0,
    };
  }

  /** For each group, and last for the pace, the parameters that move it in a place; none: the house of unknown place. */
  movesOf(place: number): number[][] {
    const d = this.#divisionOf[place];
    if (d === undefined) return [];
    const at = (spread: keyof Spread, i: number): number[] => {
      const block = this.#blocks.find((b) => b.spread === spread);
      return block === undefined ? [] : [block.from + i];
    };
    const shares = Array.from({ length: this.#groups }, (_, g) => [
      ...at('division', d * this.#groups + g),
      ...at('state', place * this.#groups + g),
    ]);
    const pace = [...at('paceOfDivision', d), ...at('paceOfState', place)];
    return pace.length > 0 ? [...shares, pace] : shares;
  }

  /** Second derivative of the priors (a precision matrix) as triples. */
  priorPrecision(spread: Spread, add: (i: number, j: number, value: number) => void): void {
    this.#process.priorPrecision(add);
    for (const block of this.#blocks)
      for (let i = block.from; i < block.to; i++) add(i, i, 1 / spread[block.spread] ** 2);
  }

  /** Spreads given where the parameters of places came out and how sure that is (the expectation-maximisation step). */
  spreads(x: Float64Array, variance: Float64Array, before: Spread): Spread {
    const next = { ...before };
    for (const { spread, from, to } of this.#blocks) {
      let sum = 0;
      for (let i = from; i < to; i++) sum += (x[i] ?? 0) ** 2 + (variance[i] ?? 0);
      if (sum > 0) next[spread] = Math.sqrt(sum / (to - from));
    }
    return next;
  }

  /** How many parameters the rows, not the priors, settled: sum of 1 - variance x prior precision. */
  spent(variance: Float64Array, spread: Spread): number {
    const precision = new Float64Array(this.length);
    this.priorPrecision(spread, (i, j, value) => {
      if (i === j) precision[i] = (precision[i] ?? 0) + value;
    });
    return precision.reduce((sum, p, i) => sum + Math.max(0, 1 - p * (variance[i] ?? 0)), 0);
  }
}
