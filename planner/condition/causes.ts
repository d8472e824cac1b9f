import type { Cause } from '../../knowledge/schema/failure.ts';
import type { SystemState } from '../belief/believe.ts';
import { clamp, exp, log } from '../numerics/functions.ts';
import { type AgeTable, ageTable } from './age-table.ts';
import { ageingIn, failedAt, readyAgeing } from './ageing.ts';
import { chosenRows, type Portion, presenceIn } from './presence.ts';

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
  const rows = rowsOf(cause, state.kernels.ids);
  const table = ageTable(state);
  const portion = portionOf(cause);
  const present = presenceIn(rows, portion, table.hiddenTotal, table.reachableTotal, state.tables.joint);
  const presentIf = (by: Scaled): number =>
    presenceIn(rows, portion, by.hiddenTotal, by.reachableTotal, by.joint);

  if (cause.cause === 'ageing') return { present, presentIf, ...readyAgeing(cause, table, rows) };
  const [figure, factor] = figureOf(cause, partAge);
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

/** What is the same of a cause in all tables of one shape: its rows, and the chance where what it needs is there, or of
 * ageing the failed part at each age. */
export interface Readied {
  cause: Cause;
  rows: number[];
  best: number;
  failed: Float64Array | null;
}

export function readied(cause: Cause, ids: string[], table: AgeTable, partAge: number): Readied {
  const rows = rowsOf(cause, ids);
  if (cause.cause === 'ageing') return { cause, rows, best: 0, failed: failedAt(cause, table) };
  const [figure, factor] = figureOf(cause, partAge);
  return { cause, rows, best: oddsTimes(figure.best, factor), failed: null };
}

/** The two chances of a cause, at its best figure, by tables of any kind. */
export function causeIn(
  { cause, rows, best, failed }: Readied,
  table: AgeTable,
  joint: Float64Array[],
): { present: number; best: number } {
  const present = presenceIn(rows, portionOf(cause), table.hiddenTotal, table.reachableTotal, joint);
  if (cause.cause !== 'ageing' || failed === null) return { present, best: present * best };
  return { present, best: present <= 0 ? 0 : ageingIn(cause, table, rows, failed) };
}

function portionOf(cause: Cause): Portion {
  return cause.cause === 'environmental' ? 'anywhere' : cause.portion;
}

/** The figure of a cause that does not age, and by what the age of the part multiplies its odds. */
function figureOf(cause: Exclude<Cause, { cause: 'ageing' }>, partAge: number): [Range, number] {
  if (cause.cause === 'built-in') return [cause.share, 1];
  return [cause.base, exp((cause.perDecade * (partAge - BASE_AGE)) / 10)];
}

/** Rows of what a cause needs, found once for each list of materials. */
function rowsOf(cause: Cause, ids: string[]): number[] {
  const ready = rowsFound.get(cause);
  if (ready?.ids === ids) return ready.rows;
  const anyHouse = cause.cause === 'environmental' && cause.inAnyHouse;
  const rows = chosenRows(ids, anyHouse ? ids : (cause.of ?? null));
  rowsFound.set(cause, { ids, rows });
  return rows;
}

const rowsFound = new WeakMap<Cause, { ids: string[]; rows: number[] }>();

/** Chance of a failure mode of which `none` is the chance that no cause has brought it: among houses that have what it
 * needs, the odds are multiplied by `factor`. */
export function moved(none: number, present: number, factor: number): number {
  if (none >= 1 || present <= 0) return 0;
  return present * oddsTimes(Math.min(1, (1 - none) / present), factor);
}

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
