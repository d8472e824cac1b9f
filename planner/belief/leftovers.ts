import type { BaseIndex } from '../base-index.ts';
import { presence } from '../condition/presence.ts';
import { backward, partialHistory } from './backward.ts';
import type { SystemState } from './believe.ts';
import { type Evidence, hasEvidence, RecordSpan } from './evidence.ts';
import { type Clock, type Kernels, NEGLIGIBLE, survival } from './kernels.ts';

/** Materials that are less often left behind than this, or were hardly ever put in, are not asked about. */
const WORTH_ASKING = 0.2;
const EVER_SOLD = 0.05;

/** Histories are followed in steps of this many years: every span between two complete renewals has to be followed
 * by itself, and these odds are rough anyway. */
export const STEP = 5;

export interface Leftover {
  /** Still in the house, dead or covered. */
  disconnected: number;
  /** Was there once and is gone. */
  removed: number;
}

/** Chance that a material is still in the house, dead or covered, though no longer in use: it was there once, is
 * not in use now, and was left in place; or was taken out. Whether it was ever there is one less the likelihood
 * of the evidence along histories that never hold it, over that along all histories. */
export function leftoverOdds(index: BaseIndex, state: SystemState): Map<string, Leftover> {
  const result = new Map<string, Leftover>();
  const kernels = inSteps(state.kernels);
  const evidence = coarseEvidence(state.evidence);
  const all = hasEvidence(evidence) ? backward(kernels, evidence).z : null;
  state.kernels.ids.forEach((id, m) => {
    const left = index.materials.get(id)?.leftBehind ?? 0;
    if (left < WORTH_ASKING || !everSold(kernels, m)) return;
    const never = avoiding(kernels, evidence, m);
    const ever = state.years.reduce((sum, { value, p }) => {
      const t = Math.min(kernels.last, Math.round((value - kernels.from) / STEP));
      const whole = all === null ? 1 : (all[t] ?? 0);
      return sum + (whole > 0 ? p * (1 - (never[t] ?? 0) / whole) : 0);
    }, 0);
    const gone = Math.max(0, ever - presence(state, [id], 'anywhere'));
    result.set(id, { disconnected: left * gone, removed: (1 - left) * gone });
  });
  return result;
}

function everSold(kernels: Kernels, m: number): boolean {
  const most = (row: Float64Array | undefined): number => (row === undefined ? 0 : Math.max(...row));
  return most(kernels.sNew[m]) + most(kernels.sRen[m]) > EVER_SOLD;
}

/** Likelihood of the evidence along histories that never hold material m in either portion, for every build year.
 * Unlike in the plain backward pass, partial work before a later complete renewal counts too: it must keep clear
 * of m as well, so each span is weighed by the chance of that. */
export function avoiding(kernels: Kernels, evidence: Evidence, m: number): Float64Array {
  const clear = without(kernels, m);
  const { last, sNew, sRen, complete, ids } = clear;
  const span = new RecordSpan(evidence.records, last);
  const today = partialHistory(clear, evidence.reachable, span, last, true);
  const until = Array.from({ length: last + 1 }, (_, end) => partialHistory(clear, null, span, end, true));
  const w = new Float64Array(last + 1);
  const z = new Float64Array(last + 1);
  for (let t = last; t >= 0; t--)
    for (let i = 0; i < ids.length; i++) {
      const [renewed, built] = [sRen[i]?.[t] ?? 0, sNew[i]?.[t] ?? 0];
      if (renewed < NEGLIGIBLE && built < NEGLIGIBLE) continue;
      let sum = 0;
      for (let u = t + 1; u <= last; u++) {
        const event = survival(complete, i, t, u - 1) - survival(complete, i, t, u);
        sum += event * (w[u] ?? 0) * (until[u - 1]?.[i]?.[t] ?? 1);
      }
      const hidden = evidence.hidden?.[i]?.[t] ?? 1;
      const value = survival(complete, i, t, last) * hidden * (today[i]?.[t] ?? 0) + sum;
      w[t] = (w[t] ?? 0) + renewed * value * span.atComplete(t);
      z[t] = (z[t] ?? 0) + built * value;
    }
  return z;
}

/** The same process with one material's shares taken out and not given to the others. */
function without(kernels: Kernels, m: number): Kernels {
  const drop = (rows: Float64Array[]): Float64Array[] =>
    rows.map((row, i) => (i === m ? new Float64Array(row.length) : row));
  return { ...kernels, sNew: drop(kernels.sNew), sRen: drop(kernels.sRen) };
}

/** The process seen every `STEP` years: survivals over a step are those of its years together. */
export function inSteps(kernels: Kernels): Kernels {
  const clock = (c: Clock): Clock => ({ byAge: c.byAge.map(everyStep), byYear: c.byYear.map(everyStep) });
  return {
    ...kernels,
    last: Math.floor(kernels.last / STEP),
    sNew: kernels.sNew.map(everyStep),
    sRen: kernels.sRen.map(everyStep),
    complete: clock(kernels.complete),
    partial: clock(kernels.partial),
  };
}

function coarseEvidence(evidence: Evidence): Evidence {
  return {
    reachable: evidence.reachable?.map(everyStep) ?? null,
    hidden: evidence.hidden?.map(everyStep) ?? null,
    records: evidence.records.map((r) => ({ ...r, year: Math.round(r.year / STEP) })),
  };
}

function everyStep(row: Float64Array): Float64Array {
  return Float64Array.from({ length: Math.floor((row.length - 1) / STEP) + 1 }, (_, i) => row[i * STEP] ?? 0);
}
