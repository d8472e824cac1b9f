import type { SystemState } from '../belief/believe.ts';
import type { Posterior } from '../belief/forward.ts';
import type { Kernels } from '../belief/kernels.ts';
import { log } from '../numerics/functions.ts';

/** Ages are taken in steps of this many years. */
const STEP = 3;

/** How old the materials of a system are: chance by material and age step, apart for the one piece that is in both
 * portions and for pieces that are in one portion alone. Made once for each state. */
export interface AgeTable {
  steps: number;
  /** Logarithm of each step's middle age in years. */
  logAge: Float64Array;
  /** Row of a material, column of an age step, `steps` wide. */
  same: Float64Array;
  hiddenOnly: Float64Array;
  reachableOnly: Float64Array;
  /** Totals by material. */
  sameTotal: Float64Array;
  hiddenTotal: Float64Array;
  reachableTotal: Float64Array;
}

const made = new WeakMap<SystemState, AgeTable>();

export function ageTable(state: SystemState): AgeTable {
  const ready = made.get(state);
  if (ready !== undefined) return ready;
  const result = tabulate(state.kernels, state.tables);
  made.set(state, result);
  return result;
}

export function tabulate({ ids, last }: Kernels, tables: Posterior): AgeTable {
  const steps = Math.floor(last / STEP) + 1;
  const n = ids.length;
  const result: AgeTable = {
    steps,
    logAge: logAges(steps, last),
    same: new Float64Array(n * steps),
    hiddenOnly: new Float64Array(n * steps),
    reachableOnly: new Float64Array(n * steps),
    sameTotal: new Float64Array(n),
    hiddenTotal: new Float64Array(n),
    reachableTotal: new Float64Array(n),
  };
  for (let m = 0; m < n; m++) addMaterial(result, tables, last, m);
  return result;
}

function addMaterial(table: AgeTable, tables: Posterior, last: number, m: number): void {
  const same = tables.same[m];
  const hidden = tables.hidden[m];
  const reachable = tables.reachable[m];
  if (!same || !hidden || !reachable) return;
  let sumSame = 0;
  let sumHidden = 0;
  let sumReachable = 0;
  for (let t = 0; t <= last; t++) {
    const h = hidden[t] as number;
    const r = reachable[t] as number;
    if (h === 0 && r === 0) continue;
    const s = same[t] as number;
    const at = m * table.steps + Math.floor((last - t) / STEP);
    sumSame += s;
    sumHidden += h;
    sumReachable += r;
    table.same[at] = (table.same[at] as number) + s;
    if (h > s) table.hiddenOnly[at] = (table.hiddenOnly[at] as number) + h - s;
    if (r > s) table.reachableOnly[at] = (table.reachableOnly[at] as number) + r - s;
  }
  table.sameTotal[m] = sumSame;
  table.hiddenTotal[m] = sumHidden;
  table.reachableTotal[m] = sumReachable;
}

/** The oldest step may be cut short by the age of the part. */
function logAges(steps: number, last: number): Float64Array {
  const ages = LOG_MIDDLE.slice(0, steps);
  ages[steps - 1] = log(Math.min(STEP * (steps - 1) + STEP / 2, last + 0.5));
  return ages;
}

const LOG_MIDDLE = Float64Array.from({ length: 200 }, (_, i) => log(STEP * i + STEP / 2));
