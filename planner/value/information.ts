import type { Clue } from '../../knowledge/schema/clue.ts';
import type { SystemState } from '../belief/believe.ts';
import { CLAMP } from '../belief/evidence.ts';
import { ageTable } from '../condition/age-table.ts';
import type { Scaled } from '../condition/causes.ts';
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
      for (const { odds, by } of [meeting, missing])
        if (odds > 1e-6) sum += stake * odds * Math.abs(oddsIf(c, by) - c.probability);
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

/** The state's totals if the clue were met (or, with the other `reading`, looked for and not met). Each row is
 * scaled by the chance of its material; the joint carries it to the other portion. */
function ifMet(
  clue: Clue,
  state: SystemState,
  reading: (chance: number) => number,
): { odds: number; by: Scaled } {
  const { ids } = state.kernels;
  const n = ids.length;
  const chance = (portion: 'reachable' | 'hidden', m: number): number => {
    const row = clue.reads[portion];
    return row === undefined ? 1 : clamp(reading(row[ids[m] ?? ''] ?? row.else ?? 0), 1 / CLAMP, 1);
  };
  const onReachable = Float64Array.from({ length: n }, (_, m) => chance('reachable', m));
  const onHidden = Float64Array.from({ length: n }, (_, m) => chance('hidden', m));
  const by: Scaled = {
    joint: ids.map(() => new Float64Array(n)),
    hiddenTotal: new Float64Array(n),
    reachableTotal: new Float64Array(n),
    same: new Float64Array(n),
    hidden: new Float64Array(n),
    reachable: new Float64Array(n),
  };
  let odds = 0;
  for (let h = 0; h < n; h++)
    for (let r = 0; r < n; r++) {
      const after = (state.tables.joint[h]?.[r] ?? 0) * (onHidden[h] ?? 1) * (onReachable[r] ?? 1);
      odds += after;
      const row = by.joint[h];
      if (row !== undefined) row[r] = after;
      by.hiddenTotal[h] = (by.hiddenTotal[h] ?? 0) + after;
      by.reachableTotal[r] = (by.reachableTotal[r] ?? 0) + after;
    }
  if (odds <= 1e-9) return { odds: 0, by };
  const before = ageTable(state);
  for (let m = 0; m < n; m++) {
    by.hiddenTotal[m] = (by.hiddenTotal[m] ?? 0) / odds;
    by.reachableTotal[m] = (by.reachableTotal[m] ?? 0) / odds;
    by.same[m] = ((onHidden[m] ?? 1) * (onReachable[m] ?? 1)) / odds;
    by.hidden[m] = ratio(by.hiddenTotal[m], before.hiddenTotal[m]);
    by.reachable[m] = ratio(by.reachableTotal[m], before.reachableTotal[m]);
    const row = by.joint[m];
    if (row !== undefined) for (let r = 0; r < n; r++) row[r] = (row[r] ?? 0) / odds;
  }
  return { odds, by };
}

function ratio(after: number | undefined, before: number | undefined): number {
  return before === undefined || before <= 0 ? 0 : (after ?? 0) / before;
}
