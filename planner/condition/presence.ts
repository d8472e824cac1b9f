import type { SystemState } from '../belief/believe.ts';
import { ageTable } from './age-table.ts';

export type Portion = 'anywhere' | 'reachable' | 'hidden';

/** Rows of the tables for the materials named; all but `none` if null. */
export function chosenRows(ids: readonly string[], of: readonly string[] | null): number[] {
  const rows: number[] = [];
  for (let m = 0; m < ids.length; m++) {
    const id = ids[m] as string;
    if (of === null ? id !== 'none' : of.includes(id)) rows.push(m);
  }
  return rows;
}

/** Chance that the material of one row is in use in either portion; of no system at all, that it is in both. */
export function presenceOfRow(state: SystemState, m: number): number {
  const { hiddenTotal, reachableTotal } = ageTable(state);
  const both = state.tables.joint[m]?.[m] ?? 0;
  if (state.kernels.ids[m] === 'none') return both;
  return Math.min(1, Math.max(0, (hiddenTotal[m] ?? 0) + (reachableTotal[m] ?? 0) - both));
}

/** Chance that one of the materials (all but `none` if null) is in use in the portion. */
export function presence(state: SystemState, of: readonly string[] | null, portion: Portion): number {
  const { hiddenTotal, reachableTotal } = ageTable(state);
  return presenceIn(
    chosenRows(state.kernels.ids, of),
    portion,
    hiddenTotal,
    reachableTotal,
    state.tables.joint,
  );
}

/** Chance that one of the materials of these rows is in use in either portion. */
export function presenceOfRows(state: SystemState, rows: readonly number[]): number {
  const { hiddenTotal, reachableTotal } = ageTable(state);
  return presenceIn(rows, 'anywhere', hiddenTotal, reachableTotal, state.tables.joint);
}

/** The same from totals by material and the joint of both portions. */
export function presenceIn(
  rows: readonly number[],
  portion: Portion,
  hidden: Float64Array,
  reachable: Float64Array,
  joint: Float64Array[],
): number {
  let h = 0;
  let r = 0;
  let both = 0;
  for (const a of rows) {
    h += hidden[a] ?? 0;
    r += reachable[a] ?? 0;
    const row = joint[a];
    if (portion === 'anywhere' && row !== undefined) for (const b of rows) both += row[b] as number;
  }
  if (portion === 'hidden') return Math.min(1, h);
  if (portion === 'reachable') return Math.min(1, r);
  return Math.min(1, Math.max(0, h + r - both));
}
