import type { Cause } from '../../knowledge/schema/failure.ts';
import type { SystemState } from '../belief/believe.ts';
import { clamp, exp, log, logistic, logit } from '../numerics/functions.ts';
import { ages, presence } from './presence.ts';

/** Age of a part, in years, at which the base of an environmental cause holds. */
export const BASE_AGE = 80;

/** Ages are joined in steps of this many years where ranges are drawn. */
const AGE_STEP = 4;

/** A cause made ready: chance at its best figure, and at any draw of its figure. */
export interface ReadyCause {
  /** Chance that what the cause needs is in the house. */
  present: number;
  best: number;
  /** Chance with the cause's figure at `z` standard deviations from best. */
  at(z: number): number;
}

export function readyCause(cause: Cause, state: SystemState, partAge: number): ReadyCause {
  switch (cause.cause) {
    case 'built-in': {
      const present = presence(state, cause.of, cause.portion);
      return { present, best: present * cause.share.best, at: (z) => present * drawn(cause.share, z) };
    }
    case 'environmental': {
      const present = presence(state, cause.of ?? null, 'anywhere');
      const shift = (cause.perDecade * (partAge - BASE_AGE)) / 10;
      const chance = (base: number): number => present * logistic(logit(base) + shift);
      return { present, best: chance(cause.base.best), at: (z) => chance(drawn(cause.base, z)) };
    }
    case 'ageing':
      return ageing(cause, state);
  }
}

function ageing(cause: Extract<Cause, { cause: 'ageing' }>, state: SystemState): ReadyCause {
  const byAge = ages(state, cause.of);
  const { half } = cause;
  const fine = groups(byAge.same, byAge.hiddenOnly, byAge.reachableOnly, 1);
  const coarse = groups(byAge.same, byAge.hiddenOnly, byAge.reachableOnly, AGE_STEP);
  const chance = (rows: AgeGroup[], halfAge: number): number => {
    let same = 0;
    let hidden = 0;
    let reachable = 0;
    const logHalf = log(halfAge);
    for (const g of rows) {
      const f = g.logAge === null ? 0 : cause.ceiling * (1 - exp(-Math.min(600, Math.LN2 * exp(clamp(cause.shape * (g.logAge - logHalf), -50, 6)))));
      same += g.same * f;
      hidden += g.hidden * f;
      reachable += g.reachable * f;
    }
    if (cause.portion === 'hidden') return same + hidden;
    if (cause.portion === 'reachable') return same + reachable;
    // Two different pieces fail independently.
    const both = byAge.apart > 0 ? (hidden * reachable) / byAge.apart : 0;
    return Math.min(1, same + hidden + reachable - both);
  };
  const best = chance(fine, half.best);
  // Grouping ages costs a little accuracy: keep the draws centred on the exact value.
  const centre = chance(coarse, half.best);
  return {
    present: presence(state, cause.of, cause.portion),
    best,
    at: (z) => {
      const spread = z > 0 ? half.high / half.best : half.best / half.low;
      const value = chance(coarse, half.best * exp((z / 1.645) * log(Math.max(spread, 1))));
      return clamp(best + value - centre, 0, 1);
    },
  };
}

interface AgeGroup {
  logAge: number | null;
  same: number;
  hidden: number;
  reachable: number;
}

function groups(same: Float64Array, hidden: Float64Array, reachable: Float64Array, step: number): AgeGroup[] {
  const rows: AgeGroup[] = [];
  for (let from = 0; from < same.length; from += step) {
    const middle = Math.min(from + (step - 1) / 2, same.length - 1);
    const row: AgeGroup = { logAge: middle > 0 ? log(middle) : null, same: 0, hidden: 0, reachable: 0 };
    for (let a = from; a < Math.min(from + step, same.length); a++) {
      row.same += same[a] ?? 0;
      row.hidden += hidden[a] ?? 0;
      row.reachable += reachable[a] ?? 0;
    }
    if (row.same + row.hidden + row.reachable > 0) rows.push(row);
  }
  return rows;
}

/** A figure at z standard deviations: its low and high are the 5th and 95th percentile. */
export function drawn(figure: { best: number; low: number; high: number }, z: number): number {
  const half = z > 0 ? figure.high - figure.best : figure.best - figure.low;
  return clamp(figure.best + (z / 1.645) * half, 0, 1);
}
