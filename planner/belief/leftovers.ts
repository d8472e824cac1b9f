import type { BaseIndex } from '../base-index.ts';
import { presenceOfRow } from '../condition/presence.ts';
import { clamp } from '../numerics/functions.ts';
import { avoiding } from './avoiding.ts';
import type { SystemState } from './believe.ts';
import { type Evidence, hasEvidence } from './evidence.ts';
import { makeGrid, type Step } from './grid.ts';
import type { Kernels } from './kernels.ts';

/** Materials that are less often left behind than this, or were hardly ever put in, are not asked about. */
const WORTH_ASKING = 0.2;
const EVER_SOLD = 0.05;

/** Histories are followed in steps of 4 years over the last 30, of 6 over the 30 before, and so on: every span between two
 * complete renewals has to be followed by itself. Against steps of a year the odds move by at most 0.01. */
export const COARSE: Step = (ago) => 4 + 2 * Math.floor(ago / 30);

/** What owners who renew much or little change is followed in longer steps still, as a difference. */
export const COARSER: Step = (ago) => 2 * COARSE(ago);

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
  const asked = askedOf(index, state.kernels);
  const never = neverOdds(state, asked);
  asked.forEach((m, k) => {
    const id = state.kernels.ids[m] ?? '';
    const left = index.materials.get(id)?.leftBehind ?? 0;
    const gone = Math.max(0, 1 - (never[k] ?? 0) - presenceOfRow(state, m));
    result.set(id, { disconnected: left * gone, removed: (1 - left) * gone });
  });
  return result;
}

const askedIn = new WeakMap<Kernels, number[]>();

/** Rows of the materials that are asked about. */
function askedOf(index: BaseIndex, kernels: Kernels): number[] {
  const ready = askedIn.get(kernels);
  if (ready !== undefined) return ready;
  const asked = kernels.ids.flatMap((id, m) => {
    const left = index.materials.get(id)?.leftBehind ?? 0;
    return left >= WORTH_ASKING && everSold(kernels, m) ? [m] : [];
  });
  askedIn.set(kernels, asked);
  return asked;
}

/** Chance of each material asked about that the house never held it, over its years and kinds of owners. */
export function neverOdds(state: SystemState, asked: number[]): number[] {
  const { kernels, nodes, evidence, years } = state;
  if (asked.length === 0) return [];
  const built = years.map((y) => y.value - kernels.from);
  const of = (process: Kernels, step: Step): number[] => {
    const rows = neverByYear(process, evidence, built, asked, step);
    return rows.map((row) => years.reduce((sum, { p }, b) => sum + p * (row[b] ?? 0), 0));
  };
  const middle = of(kernels, COARSE);
  if (nodes.length === 1) return middle;
  const coarse = of(kernels, COARSER);
  const others = nodes.map((node) => (node.kernels === kernels ? coarse : of(node.kernels, COARSER)));
  return middle.map((p, k) => {
    const moved = nodes.reduce(
      (sum, { weight }, i) => sum + weight * ((others[i]?.[k] ?? 0) - (coarse[k] ?? 0)),
      p,
    );
    return clamp(moved, 0, 1);
  });
}

interface Kept {
  evidence: Evidence;
  step: Step;
  built: readonly number[];
  asked: readonly number[];
  rows: Float64Array[];
}

const kept = new WeakMap<Kernels, Kept[]>();
const MOST_KEPT = 6;

/** For each material asked about and each year built, the chance that the house never held it. It does not depend on how
 * likely the years and owners are, so a clue to another system leaves it as it was. */
function neverByYear(
  kernels: Kernels,
  evidence: Evidence,
  built: number[],
  asked: number[],
  step: Step,
): Float64Array[] {
  const earlier = kept.get(kernels) ?? [];
  const ready = earlier.find(
    (k) => k.evidence === evidence && k.step === step && sameList(k.built, built) && sameList(k.asked, asked),
  );
  if (ready !== undefined) return ready.rows;
  const papers = evidence.records.map((r) => r.year);
  const grid = makeGrid(kernels, built, step, papers);
  const all = hasEvidence(evidence) ? avoiding(grid, evidence, null) : null;
  const rows = asked.map((m) =>
    avoiding(grid, evidence, m).map((never, b) => {
      const whole = all === null ? 1 : (all[b] ?? 0);
      return whole > 0 ? never / whole : 1;
    }),
  );
  kept.set(kernels, [{ evidence, step, built, asked, rows }, ...earlier].slice(0, MOST_KEPT));
  return rows;
}

function sameList(a: readonly number[], b: readonly number[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function everSold(kernels: Kernels, m: number): boolean {
  return most(kernels.sNew[m]) + most(kernels.sRen[m]) > EVER_SOLD;
}

function most(row: Float64Array | undefined): number {
  let highest = 0;
  if (row !== undefined)
    for (let t = 0; t < row.length; t++) if ((row[t] as number) > highest) highest = row[t] as number;
  return highest;
}
