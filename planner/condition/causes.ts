import type { Cause } from '../../knowledge/schema/failure.ts';
import type { SystemState } from '../belief/believe.ts';
import { clamp, exp, log } from '../numerics/functions.ts';
import { ageTable } from './age-table.ts';
import { readyAgeing } from './ageing.ts';
import { chosenRows, presenceIn } from './presence.ts';

/** Age of a part, in years, at which the base of an environmental cause holds. */
export const BASE_AGE = 80;

/** Totals of a state that a look would change: by material in each portion, and both at once. `same` scales the
 * piece that is in both portions, `hidden` and `reachable` scale the rows of each portion. */
export interface Scaled {
  joint: Float64Array[];
  hiddenTotal: Float64Array;
  reachableTotal: Float64Array;
  same: Float64Array;
  hidden: Float64Array;
  reachable: Float64Array;
}

/** A cause made ready for a state: chance at its best figure, at any draw of it, and if the state were scaled. */
export interface ReadyCause {
  /** Chance that what the cause needs is in the house. */
  present: number;
  best: number;
  /** Multiplies, draw by draw, the chance that nothing has happened by that of this cause not having brought it, its
   * figure at `z` standard deviations from best. */
  spare(z: Float64Array, none: Float64Array): void;
  /** The same two chances if the rows were scaled; the second is asked with the first. */
  presentIf(by: Scaled): number;
  bestIf(by: Scaled, present: number): number;
}

export function readyCause(cause: Cause, state: SystemState, partAge: number): ReadyCause {
  const anyHouse = cause.cause === 'environmental' && cause.inAnyHouse;
  const rows = rowsOf(cause, anyHouse, state);
  const table = ageTable(state);
  const portion = cause.cause === 'environmental' ? 'anywhere' : cause.portion;
  const present = presenceIn(rows, portion, table.hiddenTotal, table.reachableTotal, state.tables.joint);
  const presentIf = (by: Scaled): number =>
    presenceIn(rows, portion, by.hiddenTotal, by.reachableTotal, by.joint);

  if (cause.cause === 'ageing') return { present, presentIf, ...readyAgeing(cause, table, rows) };
  const [figure, factor] =
    cause.cause === 'built-in'
      ? [cause.share, 1]
      : [cause.base, exp((cause.perDecade * (partAge - BASE_AGE)) / 10)];
  const best = oddsTimes(figure.best, factor);
  return {
    present,
    best: present * best,
    spare: (z, none) => {
      for (let d = 0; d < none.length; d++)
        none[d] = (none[d] as number) * (1 - present * oddsTimes(drawn(figure, z[d] as number), factor));
    },
    presentIf,
    bestIf: (_, presentThen) => presentThen * best,
  };
}

/** Rows of what a cause needs, found once for each list of materials. */
function rowsOf(cause: Cause, anyHouse: boolean, state: SystemState): number[] {
  const { ids } = state.kernels;
  const ready = rowsFound.get(cause);
  if (ready?.ids === ids) return ready.rows;
  const rows = chosenRows(state, anyHouse ? ids : (cause.of ?? null));
  rowsFound.set(cause, { ids, rows });
  return rows;
}

const rowsFound = new WeakMap<Cause, { ids: string[]; rows: number[] }>();

/** A figure with its range. */
type Range = { best: number; low: number; high: number };

/** A chance whose odds are multiplied by a factor; the chance is held away from 0 and 1 by 1e-9. */
export function oddsTimes(p: number, factor: number): number {
  if (factor === 1) return p;
  const q = clamp(p, 1e-9, 1 - 1e-9);
  const odds = (q / (1 - q)) * factor;
  return odds / (1 + odds);
}

/** Standard deviations from the middle of a normal to its 5th and 95th percentile. */
export const Z90 = 1.645;

/** A figure at z standard deviations: its low and high are the 5th and 95th percentile. */
export function drawn(figure: Range, z: number): number {
  const half = z > 0 ? figure.high - figure.best : figure.best - figure.low;
  return clamp(figure.best + (z / Z90) * half, 0, 1);
}

/** Logarithm of a life at z standard deviations: lives are drawn on a log scale. */
export function drawnLogLife(life: Range, z: number): number {
  const spread = z > 0 ? life.high / life.best : life.best / life.low;
  return log(life.best) + (z / Z90) * log(Math.max(spread, 1));
}
