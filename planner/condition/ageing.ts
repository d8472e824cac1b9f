import type { Cause } from '../../knowledge/schema/failure.ts';
import { clamp } from '../numerics/functions.ts';
import type { AgeTable } from './age-table.ts';
import { drawnLogLife, type ReadyCause, type Scaled } from './causes.ts';
import { failedBy } from './failed-by.ts';

type Ageing = Extract<Cause, { cause: 'ageing' }>;

/** Standard deviations at which the chance is worked out; draws between them are interpolated. */
const NODES = [-3, -2, -1, 0, 1, 2, 3];
const FIRST = -3;
const LAST = 3;
const MIDDLE = NODES.indexOf(0);

/** An ageing cause of the materials in `rows`: two different pieces fail independently, one piece once. */
export function readyAgeing(
  cause: Ageing,
  table: AgeTable,
  rows: readonly number[],
): Pick<ReadyCause, 'best' | 'spare' | 'bestIf'> {
  const curve = curveOf(cause, table, rows);
  let pieces: Pieces[] | null = null;
  return {
    best: curve[MIDDLE] as number,
    spare: (z, none) => {
      for (let d = 0; d < none.length; d++) {
        const x = clamp(z[d] as number, FIRST, LAST) - FIRST;
        const left = Math.min(Math.floor(x), NODES.length - 2);
        const before = curve[left] as number;
        const chance = before + (x - left) * ((curve[left + 1] as number) - before);
        none[d] = (none[d] as number) * (1 - chance);
      }
    },
    bestIf: (by) => {
      pieces ??= rows.map((m) => failedPieces(cause, table, m));
      return ageingIf(cause, table, pieces, by);
    },
  };
}

/** The chance at each of the nodes. */
function curveOf(cause: Ageing, table: AgeTable, rows: readonly number[]): Float64Array {
  return Float64Array.from(failuresOf(cause, table), (failed) => ageingIn(cause, table, rows, failed));
}

/** Failed part of the pieces at each age step, by the best figure. */
export function failedAt(cause: Ageing, table: AgeTable): Float64Array {
  return failuresOf(cause, table)[MIDDLE] as Float64Array;
}

/** The chance by the failed part at each age. */
export function ageingIn(
  cause: Ageing,
  table: AgeTable,
  rows: readonly number[],
  failed: Float64Array,
): number {
  const { steps } = table;
  let together = 0;
  for (let m = 0; m < table.sameTotal.length; m++) together += table.sameTotal[m] as number;
  let s = 0;
  let h = 0;
  let r = 0;
  for (let j = 0; j < rows.length; j++) {
    const row = (rows[j] as number) * steps;
    for (let i = 0; i < steps; i++) {
      const part = failed[i] as number;
      s += (table.same[row + i] as number) * part;
      h += (table.hiddenOnly[row + i] as number) * part;
      r += (table.reachableOnly[row + i] as number) * part;
    }
  }
  return join(cause, s, h, r, 1 - together);
}

/** Part of the pieces that has failed, by node and age step: the same for all states as old as the last one. */
function failuresOf(cause: Ageing, { steps, logAge }: AgeTable): Float64Array[] {
  const oldest = logAge[steps - 1] as number;
  const ready = failuresMade.get(cause);
  if (ready !== undefined && ready.oldest === oldest && ready.steps === steps) return ready.failed;
  const failed = NODES.map((z) => {
    const logHalf = drawnLogLife(cause.half, z);
    return logAge.map((age) => failedBy(cause.shape * (age - logHalf)));
  });
  failuresMade.set(cause, { oldest, steps, failed });
  return failed;
}

const failuresMade = new WeakMap<Ageing, { oldest: number; steps: number; failed: Float64Array[] }>();

/** Failed pieces of one material at the best figure: in both portions at once, and in one alone. */
interface Pieces {
  m: number;
  same: number;
  hiddenOnly: number;
  reachableOnly: number;
}

function failedPieces(cause: Ageing, table: AgeTable, m: number): Pieces {
  const failures = failedAt(cause, table);
  const pieces = { m, same: 0, hiddenOnly: 0, reachableOnly: 0 };
  for (let i = 0; i < table.steps; i++) {
    const failed = failures[i] as number;
    const at = m * table.steps + i;
    pieces.same += (table.same[at] as number) * failed;
    pieces.hiddenOnly += (table.hiddenOnly[at] as number) * failed;
    pieces.reachableOnly += (table.reachableOnly[at] as number) * failed;
  }
  return pieces;
}

function ageingIf(cause: Ageing, table: AgeTable, pieces: readonly Pieces[], by: Scaled): number {
  let s = 0;
  let h = 0;
  let r = 0;
  for (const piece of pieces) {
    const both = piece.same * (by.same[piece.m] as number);
    s += both;
    h += Math.max(0, (piece.same + piece.hiddenOnly) * (by.hidden[piece.m] as number) - both);
    r += Math.max(0, (piece.same + piece.reachableOnly) * (by.reachable[piece.m] as number) - both);
  }
  let still = 0;
  for (let m = 0; m < table.sameTotal.length; m++)
    still += (table.sameTotal[m] as number) * (by.same[m] as number);
  return join(cause, s, h, r, 1 - still);
}

/** Joins failed pieces: `s` in both portions at once, `h` and `r` in one alone; `apart` is the chance that the portions
 * hold different pieces. */
function join(cause: Ageing, s: number, h: number, r: number, apart: number): number {
  if (cause.portion === 'hidden') return cause.ceiling * (s + h);
  if (cause.portion === 'reachable') return cause.ceiling * (s + r);
  const c = cause.ceiling;
  return clamp(c * (s + h + r) - (apart > 1e-9 ? (c * c * h * r) / apart : 0), 0, 1);
}
