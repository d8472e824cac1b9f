import type { SystemState } from '../belief/believe.ts';

export type Portion = 'anywhere' | 'reachable' | 'hidden';

/** Chance that one of the materials (all but `none` if null) is in use in the portion. */
export function presence(state: SystemState, of: readonly string[] | null, portion: Portion): number {
  const chosen = chosenRows(state, of);
  const { hidden, reachable, joint } = state.tables;
  const h = total(hidden, chosen);
  const r = total(reachable, chosen);
  if (portion === 'hidden') return h;
  if (portion === 'reachable') return r;
  let both = 0;
  for (const a of chosen) for (const b of chosen) both += joint[a]?.[b] ?? 0;
  return Math.min(1, h + r - both);
}

/** Rows of the kernel tables for the materials named. */
export function chosenRows(state: SystemState, of: readonly string[] | null): number[] {
  return state.kernels.ids.flatMap((id, m) => ((of === null ? id !== 'none' : of.includes(id)) ? [m] : []));
}

function total(table: Float64Array[], rows: number[]): number {
  let sum = 0;
  for (const m of rows) for (const value of table[m] ?? []) sum += value;
  return sum;
}

/** Chance of each age in years (index) of the materials named: the one piece in both portions, and the pieces
 * that are in the hidden or the reachable portion alone. */
export interface Ages {
  same: Float64Array;
  hiddenOnly: Float64Array;
  reachableOnly: Float64Array;
  /** Chance that the two portions are different pieces, whatever they are. */
  apart: number;
}

export function ages(state: SystemState, of: readonly string[] | null): Ages {
  const { last } = state.kernels;
  const result: Ages = {
    same: new Float64Array(last + 1),
    hiddenOnly: new Float64Array(last + 1),
    reachableOnly: new Float64Array(last + 1),
    apart: 0,
  };
  for (const m of chosenRows(state, of)) {
    const same = state.tables.same[m];
    const hidden = state.tables.hidden[m];
    const reachable = state.tables.reachable[m];
    for (let t = 0; t <= last; t++) {
      const s = same?.[t] ?? 0;
      const age = last - t;
      result.same[age] = (result.same[age] ?? 0) + s;
      result.hiddenOnly[age] = (result.hiddenOnly[age] ?? 0) + Math.max(0, (hidden?.[t] ?? 0) - s);
      result.reachableOnly[age] = (result.reachableOnly[age] ?? 0) + Math.max(0, (reachable?.[t] ?? 0) - s);
    }
  }
  let together = 0;
  for (const row of state.tables.same) for (const value of row) together += value;
  result.apart = Math.max(0, 1 - together);
  return result;
}
