import type { BaseIndex } from '../base-index.ts';
import { presence } from '../condition/presence.ts';
import { backward } from './backward.ts';
import type { SystemState } from './believe.ts';
import type { Kernels } from './kernels.ts';

/** Materials that are less often left behind than this, or were hardly ever put in, are not asked about. */
const WORTH_ASKING = 0.1;
const EVER_SOLD = 0.01;

/** Chance that a material is still in the house, dead or covered, though no longer in use: it was there once, is
 * not in use now, and was left in place. Whether it was ever there is exact: it is one less the likelihood of
 * the evidence along histories that never hold it. */
export function disconnectedOdds(index: BaseIndex, state: SystemState): Map<string, number> {
  const result = new Map<string, number>();
  const { kernels, evidence, years } = state;
  state.kernels.ids.forEach((id, m) => {
    const left = index.materials.get(id)?.leftBehind ?? 0;
    if (left < WORTH_ASKING || !everSold(kernels, m)) return;
    const never = backward(without(kernels, m), evidence).z;
    const all = evidence.reachable === null && evidence.hidden === null && evidence.records.length === 0 ? null : backward(kernels, evidence).z;
    const ever = years.reduce((sum, { value, p }) => {
      const t = value - kernels.from;
      const whole = all === null ? 1 : (all[t] ?? 0);
      return sum + (whole > 0 ? p * (1 - (never[t] ?? 0) / whole) : 0);
    }, 0);
    const inUse = presence(state, [id], 'anywhere');
    result.set(id, left * Math.max(0, ever - inUse));
  });
  return result;
}

function everSold(kernels: Kernels, m: number): boolean {
  const most = (row: Float64Array | undefined): number => (row === undefined ? 0 : Math.max(...row));
  return most(kernels.sNew[m]) + most(kernels.sRen[m]) > EVER_SOLD;
}

/** The same process with one material's shares taken out and not given to the others. */
function without(kernels: Kernels, m: number): Kernels {
  const drop = (rows: Float64Array[]): Float64Array[] =>
    rows.map((row, i) => (i === m ? new Float64Array(row.length) : row));
  return { ...kernels, sNew: drop(kernels.sNew), sRen: drop(kernels.sRen) };
}
