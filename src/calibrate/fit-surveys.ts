import type { Base } from '../../knowledge/schema/base.ts';
import { solvePositive } from './linear.ts';
import type { Process } from './parameters.ts';
import { type Chances, SurveyAnswers } from './survey-answers.ts';
import { curvatureAt } from './survey-curvature.ts';
import { type Spread, SurveyParameters } from './survey-parameters.ts';
import { SurveyProcess } from './survey-process.ts';
import type { SurveyRow } from './survey-rows.ts';
import { surveySpread } from './survey-spread.ts';
import type { SurveySystem } from './survey-systems.ts';

/** What a system's fit to the energy surveys came to. */
export interface SurveyFit {
  /** Shares, lives and waves of the nation. */
  process: Process;
  /** By state: the factor of each material, authored factor and fitted offset in one, and the pace of waves. */
  places: Map<string, { factor: Record<string, number>; pace: number }>;
  spread: Spread;
  rows: number;
  /** Fitted and observed share of each answer of each row. */
  fitted: { row: SurveyRow; shares: number[] }[];
}

const ROUNDS = 6;
/** No parameter moves further in one step. */
const LONGEST = 1.5;
/** Spreads to begin with; they are estimated from the second round on. */
const START: Spread = {
  division: 0.5,
  state: 0.5,
  paceOfDivision: 0.5,
  paceOfState: 0.3,
  survey: 0.2,
};

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
    const spreads = Object.entries(fit.spread).map(([name, v]) => `${name} ${v.toFixed(2)}`);
    log(`${tested.title}, round ${round + 1}: loss ${loss.toFixed(1)}, step ${step}, ${spreads.join(' ')}`);
  }
  return fit.result();
}

class Fitting {
  spread = { ...START };
  readonly #process: SurveyProcess;
  readonly #parameters: SurveyParameters;
  readonly #answers: SurveyAnswers;
  readonly #byState: boolean;
  #x: Float64Array;
  #variance: Float64Array;

  constructor(base: Base, tested: SurveySystem, rows: SurveyRow[]) {
    const system = base.systems.find((s) => s.id === tested.system);
    if (system === undefined) throw new Error(`knowledge/systems/${tested.system}.mdx is not there`);
    const { states } = base.places;
    this.#process = new SurveyProcess(base, system, tested.groups, tested.keepsKind);
    this.#byState = tested.byState;
    this.#parameters = new SurveyParameters(this.#process, states, tested);
    this.#answers = new SurveyAnswers(this.#process, this.#parameters, tested, rows);
    this.#x = new Float64Array(this.#parameters.length);
    this.#variance = new Float64Array(this.#parameters.length);
  }

  /** One round: the slope and curvature at x, then the step, halved until it helps. */
  improve(): { loss: number; step: number } {
    const x = this.#x;
    const here = this.#answers.chances(x);
    const before = this.#loss(x, here);
    const effective = (r: number): number => this.#effective(r);
    const { slope, curvature } = curvatureAt(
      x,
      here,
      this.#answers,
      this.#parameters,
      this.spread,
      effective,
    );
    const { x: move, variance } = solvePositive(curvature, slope);
    this.#variance = variance;
    for (let step = 1; step > 0.01; step /= 2) {
      const next = x.map((v, i) => v + step * Math.max(-LONGEST, Math.min(LONGEST, move[i] ?? 0)));
      const loss = this.#loss(next, this.#answers.chances(next));
      if (loss < before) {
        this.#x = next;
        return { loss, step };
      }
    }
    return { loss: before, step: 0 };
  }

  updateSpreads(): void {
    const chances = this.#answers.chances(this.#x);
    const spent = this.#parameters.spent(this.#variance, this.spread);
    this.spread = {
      ...this.#parameters.spreads(this.#x, this.#variance, this.spread),
      survey: surveySpread(this.#answers.rows, (r) => this.#shares(chances, r), spent),
    };
  }

  result(): SurveyFit {
    const chances = this.#answers.chances(this.#x);
    const { places, national } = this.#parameters;
    const rows = this.#answers.rows;
    return {
      process: this.#process.process(this.#x.subarray(0, national)),
      places: new Map(
        places.flatMap((place, i): [string, { factor: Record<string, number>; pace: number }][] => {
          if (place === null) return [];
          const offsets = this.#parameters.offsets(this.#x, i);
          const factor = this.#process.factors(place, offsets);
          return [[place, { factor, pace: Math.exp(offsets.pace) }]];
        }),
      ),
      spread: { ...this.spread, state: this.#byState ? this.spread.state : 0 },
      rows: Math.round(rows.reduce((sum, row) => sum + row.n, 0)),
      fitted: rows.map((row, r) => ({ row, shares: this.#shares(chances, r) })),
    };
  }

  #shares(chances: Chances, r: number): number[] {
    return this.#answers.of(r, (place) => chances[place]);
  }

  /** Households of a row once the spread between surveys is counted in: 1/n + spread^2 p (1 - p). */
  #effective(r: number): number {
    const row = this.#answers.rows[r];
    if (row === undefined) return 0;
    const spreadOut = 1 - row.answers.reduce((sum, a) => sum + a.share ** 2, 0);
    return 1 / (1 / row.n + this.spread.survey ** 2 * Math.max(0.02, spreadOut / 2));
  }

  #loss(x: Float64Array, chances: Chances): number {
    let loss = 0;
    this.#answers.rows.forEach((row, r) => {
      const n = this.#effective(r);
      const p = this.#shares(chances, r);
      row.answers.forEach((a, k) => {
        if (a.share > 0) loss -= n * a.share * Math.log(p[k] ?? 1e-9);
      });
    });
    let prior = 0;
    this.#parameters.priorPrecision(this.spread, (i, j, value) => {
      prior += 0.5 * value * (x[i] ?? 0) * (x[j] ?? 0);
    });
    return loss + prior;
  }
}
