import type { Entry } from '../../knowledge/schema/base.ts';
import type { Grade } from '../../knowledge/schema/common.ts';
import type { Fit } from '../../knowledge/schema/fit.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import { clamp, logistic, logit } from '../numerics/functions.ts';
import { fitOf } from './fit-of.ts';

/** How sure the odds of a system's materials are, in two parts that add up: what a count of so many houses would leave
 * open, and a spread of the log-odds that no count of those houses tells of. */
export interface OddsSpread {
  /** The odds are as sure as a share counted on so many houses; null: no count stands behind them. */
  worth: number | null;
  /** Standard deviation of the log-odds besides: another place, another market, a figure from practice. */
  besides: number;
}

/** Spread of the log-odds of materials that rest on figures of a grade (practice; docs/model.md, section 5). */
export const GRADE_SPREAD: Record<Grade, number> = {
  measured: 0.3,
  published: 0.4,
  practice: 0.6,
  memory: 0.8,
};

/** Ranges hold eight in ten. */
export const RANGE_SHARE = 0.8;
const NORMAL_90 = 1.2815515655446004;

/** Half a house is added to every count, so that rare materials keep a spread that can be told. */
const HALF_HOUSE = 0.5;
const LEAST = 1e-6;

/** How sure the odds of a system are in a state. A fit is as sure as its cross-validation found where its rows come
 * from; elsewhere the spread of measured shares comes on top. What nobody has seen, the hidden portion, is never surer
 * than practice. */
export function oddsSpread(
  index: BaseIndex,
  system: Entry<System>,
  state: string | null,
): { reachable: OddsSpread; hidden: OddsSpread } {
  const fit = fitOf(index.base, system.id, state);
  const reachable = fit === undefined ? authoredSpread(system) : fittedSpread(fit, state);
  const hidden = { ...reachable, besides: Math.max(reachable.besides, GRADE_SPREAD.practice) };
  return { reachable, hidden: system.portions.hidden === null ? reachable : hidden };
}

function authoredSpread({ shares }: System): OddsSpread {
  return {
    worth: null,
    besides: Math.max(GRADE_SPREAD[shares.new.grade], GRADE_SPREAD[shares.renewal.grade]),
  };
}

function fittedSpread(fit: Fit, state: string | null): OddsSpread {
  // A fit of the nation was seen in other surveys; without a state its offsets are unknown too.
  if (fit.spread !== undefined) {
    const { survey, state: within, division } = fit.spread;
    const place = state === null ? within * within + division * division : 0;
    return { worth: null, besides: Math.sqrt(survey * survey + place) };
  }
  if (fit.odds === undefined) return { worth: null, besides: GRADE_SPREAD.measured };
  return { worth: fit.odds.worth, besides: fit.odds.state === state ? 0 : GRADE_SPREAD.measured };
}

/** Variance of the log-odds about odds p. */
export function oddsVariance(p: number, { worth, besides }: OddsSpread): number {
  return besides * besides + (worth === null ? 0 : 1 / (worth * p * (1 - p) + HALF_HOUSE));
}

/** Range about odds p that holds eight in ten: [low, high]. Odds of 0 and 1 have no range. */
export function oddsRange(p: number, spread: OddsSpread): [number, number] {
  if (p <= LEAST || p >= 1 - LEAST) return [p, p];
  const reach = NORMAL_90 * Math.sqrt(oddsVariance(p, spread));
  const at = (shift: number): number => clamp(logistic(logit(p) + shift), 0, 1);
  return [at(-reach), at(reach)];
}
