import type { Clue } from '../../knowledge/schema/clue.ts';
import type { SystemState } from '../belief/believe.ts';
import { CLAMP } from '../belief/evidence.ts';
import { type Condition, oddsIf } from '../condition/condition.ts';
import { clamp, log, logistic, logit } from '../numerics/functions.ts';
import { stakeOf } from './stakes.ts';

/** Expected worth of looking for a clue: how far, on average over meeting it and not meeting it, it would move the
 * stake-weighted odds of the failure modes (docs/model.md, section 6). */
export function worthOfLooking(
  clue: Clue,
  state: SystemState | undefined,
  conditions: Condition[],
  client: readonly string[],
): number {
  let sum = 0;
  if (state !== undefined && (clue.reads.reachable !== undefined || clue.reads.hidden !== undefined)) {
    const meeting = ifMet(clue, state, (chance) => chance);
    const missing = ifMet(clue, state, (chance) => 1 - chance);
    for (const c of conditions) {
      if (c.state.system.id !== state.system.id || c.state.part !== state.part) continue;
      const stake = stakeOf(c.failure, client);
      for (const { odds, state: then } of [meeting, missing])
        if (odds > 1e-6) sum += stake * odds * Math.abs(oddsIf(c, then) - c.probability);
    }
  }
  for (const [failure, ratio] of Object.entries(clue.failures)) {
    const c = conditions.find((one) => one.failure.id === failure);
    if (c === undefined || c.probability <= 0) continue;
    // Met in six houses of ten that have the failure mode (practice), and by the ratio less often in others.
    const hit = Math.min(0.6, 0.6 * ratio);
    const odds = hit * c.probability + (hit / ratio) * (1 - c.probability);
    const moved = logistic(logit(c.probability) + log(ratio));
    sum += stakeOf(c.failure, client) * 2 * clamp(odds, 0, 1) * Math.abs(moved - c.probability) * 0.5;
  }
  return sum;
}

/** The system's tables if the clue were met (or, with the other `reading`, looked for and not met). Each row is
 * scaled by the chance of its material; the joint carries it to the other portion. */
function ifMet(
  clue: Clue,
  state: SystemState,
  reading: (chance: number) => number,
): { odds: number; state: SystemState } {
  const { ids } = state.kernels;
  const chance = (portion: 'reachable' | 'hidden', m: number): number => {
    const row = clue.reads[portion];
    if (row === undefined) return 1;
    return clamp(reading(row[ids[m] ?? ''] ?? row['else'] ?? 0), 1 / CLAMP, 1);
  };
  const onReachable = ids.map((_, m) => chance('reachable', m));
  const onHidden = ids.map((_, m) => chance('hidden', m));
  const { joint } = state.tables;
  let odds = 0;
  const rowMass = new Float64Array(ids.length);
  const rowAfter = new Float64Array(ids.length);
  const columnMass = new Float64Array(ids.length);
  const columnAfter = new Float64Array(ids.length);
  const jointAfter = joint.map((row, h) =>
    row.map((value, r) => {
      const after = value * (onHidden[h] ?? 1) * (onReachable[r] ?? 1);
      odds += after;
      rowMass[h] = (rowMass[h] ?? 0) + value;
      rowAfter[h] = (rowAfter[h] ?? 0) + after;
      columnMass[r] = (columnMass[r] ?? 0) + value;
      columnAfter[r] = (columnAfter[r] ?? 0) + after;
      return after;
    }),
  );
  if (odds <= 1e-6) return { odds, state };
  const scaleBy = (table: Float64Array[], after: Float64Array, mass: Float64Array): Float64Array[] =>
    table.map((row, m) => {
      const factor = (mass[m] ?? 0) > 0 ? (after[m] ?? 0) / (mass[m] ?? 1) / odds : 0;
      return row.map((value) => value * factor);
    });
  return {
    odds,
    state: {
      ...state,
      tables: {
        ...state.tables,
        joint: jointAfter.map((row) => row.map((value) => value / odds)),
        hidden: scaleBy(state.tables.hidden, rowAfter, rowMass),
        reachable: scaleBy(state.tables.reachable, columnAfter, columnMass),
        same: state.tables.same.map((row, m) =>
          row.map((value) => (value * (onHidden[m] ?? 1) * (onReachable[m] ?? 1)) / odds),
        ),
      },
    },
  };
}
