import type { SystemState } from '../belief/believe.ts';
import { log } from '../numerics/functions.ts';

/** Ages are taken in steps of this many years. */
const STEP = 3;

/** How old the materials of a system are: chance by material and age step, apart for the one piece that is in both
 * portions and for pieces that are in one portion alone. Made once for each state. */
export interface AgeTable {
  /** Logarithm of each step's middle age in years. */
  logAge: Float64Array;
  /** [material][step] */
  same: Float64Array[];
  hiddenOnly: Float64Array[];
  reachableOnly: Float64Array[];
  /** [material] totals. */
  sameTotal: Float64Array;
  hiddenTotal: Float64Array;
  reachableTotal: Float64Array;
}

const made = new WeakMap<SystemState, AgeTable>();

export function ageTable(state: SystemState): AgeTable {
  const ready = made.get(state);
  if (ready !== undefined) return ready;
  const { ids, last } = state.kernels;
  const steps = Math.floor(last / STEP) + 1;
  const table = (): Float64Array[] => ids.map(() => new Float64Array(steps));
  const result: AgeTable = {
    logAge: Float64Array.from({ length: steps }, (_, i) => log(Math.min(i * STEP + STEP / 2, last + 0.5))),
    same: table(),
    hiddenOnly: table(),
    reachableOnly: table(),
    sameTotal: new Float64Array(ids.length),
    hiddenTotal: new Float64Array(ids.length),
    reachableTotal: new Float64Array(ids.length),
  };
  for (let m = 0; m < ids.length; m++) {
    const [same, hidden, reachable] = [
      state.tables.same[m],
      state.tables.hidden[m],
      state.tables.reachable[m],
    ];
    const [toSame, toHidden, toReachable] = [result.same[m], result.hiddenOnly[m], result.reachableOnly[m]];
    if (!same || !hidden || !reachable || !toSame || !toHidden || !toReachable) continue;
    let [sumSame, sumHidden, sumReachable] = [0, 0, 0];
    for (let t = 0; t <= last; t++) {
      const step = Math.floor((last - t) / STEP);
      const s = same[t] as number;
      const h = hidden[t] as number;
      const r = reachable[t] as number;
      sumSame += s;
      sumHidden += h;
      sumReachable += r;
      toSame[step] = (toSame[step] as number) + s;
      if (h > s) toHidden[step] = (toHidden[step] as number) + h - s;
      if (r > s) toReachable[step] = (toReachable[step] as number) + r - s;
    }
    result.sameTotal[m] = sumSame;
    result.hiddenTotal[m] = sumHidden;
    result.reachableTotal[m] = sumReachable;
  }
  made.set(state, result);
  return result;
}
