import type { Cause } from '../../knowledge/schema/failure.ts';
import type { SystemState } from '../belief/believe.ts';
import { clamp, exp, log, logistic, logit } from '../numerics/functions.ts';
import { ageTable } from './age-table.ts';
import { chosenRows, presenceIn } from './presence.ts';

/** Age of a part, in years, at which the base of an environmental cause holds. */
export const BASE_AGE = 80;

/** Totals of a state that a look would change: by material in each portion, and both at once. `same` scales the
 * piece that is in both portions, `hidden` and `reachable` scale the rows of each portion. */
export interface Scaled {
  joint: Float64Array[];
  hiddenTotal: Float64Array;
  reachableTotal: Float64Array;
  same: Float64Array;
  hidden: Float64Array;
  reachable: Float64Array;
}

/** A cause made ready for a state: chance at its best figure, at any draw of it, and if the state were scaled. */
export interface ReadyCause {
  /** Chance that what the cause needs is in the house. */
  present: number;
  best: number;
  /** Chance with the cause's figure at `z` standard deviations from best. */
  at(z: number): number;
  /** Presence and chance if the rows were scaled. */
  scaled(by: Scaled): { present: number; best: number };
}

export function readyCause(cause: Cause, state: SystemState, partAge: number): ReadyCause {
  const rows = chosenRows(state, cause.of ?? null);
  const { hiddenTotal, reachableTotal } = ageTable(state);
  const portion = cause.cause === 'environmental' ? 'anywhere' : cause.portion;
  const present = presenceIn(rows, portion, hiddenTotal, reachableTotal, state.tables.joint);
  const presentIn = (by: Scaled): number =>
    presenceIn(rows, portion, by.hiddenTotal, by.reachableTotal, by.joint);

  if (cause.cause === 'ageing') return { present, ...ageing(cause, state, rows, presentIn) };
  const chance =
    cause.cause === 'built-in'
      ? (z: number): number => drawn(cause.share, z)
      : (z: number): number =>
          logistic(logit(drawn(cause.base, z)) + (cause.perDecade * (partAge - BASE_AGE)) / 10);
  const best = chance(0);
  return {
    present,
    best: present * best,
    at: (z) => present * chance(z),
    scaled: (by) => {
      const there = presentIn(by);
      return { present: there, best: there * best };
    },
  };
}

function ageing(
  cause: Extract<Cause, { cause: 'ageing' }>,
  state: SystemState,
  rows: number[],
  presentIn: (by: Scaled) => number,
): Omit<ReadyCause, 'present'> {
  const table = ageTable(state);
  const { half, portion } = cause;
  const steps = table.logAge.length;
  const sum = (tables: Float64Array[]): Float64Array => {
    const total = new Float64Array(steps);
    for (const m of rows) {
      const row = tables[m];
      if (row !== undefined)
        for (let i = 0; i < steps; i++) total[i] = (total[i] as number) + (row[i] as number);
    }
    return total;
  };
  const [same, hiddenOnly, reachableOnly] = [
    sum(table.same),
    sum(table.hiddenOnly),
    sum(table.reachableOnly),
  ];
  const together = table.sameTotal.reduce((a, b) => a + b, 0);
  const failedBy = (halfAge: number): Float64Array => {
    const shift = log(halfAge);
    return table.logAge.map(
      (a) => cause.ceiling * (1 - exp(-Math.LN2 * exp(clamp(cause.shape * (a - shift), -50, 6)))),
    );
  };
  const join = (s: number, h: number, r: number, apart: number): number => {
    if (portion === 'hidden') return s + h;
    if (portion === 'reachable') return s + r;
    // Two different pieces fail independently.
    return clamp(s + h + r - (apart > 1e-9 ? (h * r) / apart : 0), 0, 1);
  };
  const chance = (halfAge: number): number => {
    const failed = failedBy(halfAge);
    return join(dot(same, failed), dot(hiddenOnly, failed), dot(reachableOnly, failed), 1 - together);
  };
  const spreadAt = (z: number): number => {
    const spread = z > 0 ? half.high / half.best : half.best / half.low;
    return chance(half.best * exp((z / Z90) * log(Math.max(spread, 1))));
  };
  const curve = NODES.map(spreadAt);
  let byMaterial: { m: number; s: number; h: number; r: number }[] | null = null;
  return {
    best: curve[MIDDLE] ?? 0,
    at: (z) => {
      const x = clamp(z, NODES[0] ?? 0, NODES.at(-1) ?? 0) - (NODES[0] ?? 0);
      const left = Math.min(Math.floor(x), NODES.length - 2);
      const weight = x - left;
      return (1 - weight) * (curve[left] ?? 0) + weight * (curve[left + 1] ?? 0);
    },
    scaled: (by) => {
      if (byMaterial === null) {
        const failed = failedBy(half.best);
        const of = (tables: Float64Array[], m: number): number =>
          dot(tables[m] ?? failed.subarray(0, 0), failed);
        byMaterial = rows.map((m) => ({
          m,
          s: of(table.same, m),
          h: of(table.hiddenOnly, m),
          r: of(table.reachableOnly, m),
        }));
      }
      let [s, h, r] = [0, 0, 0];
      for (const part of byMaterial) {
        const both = part.s * (by.same[part.m] ?? 1);
        s += both;
        h += Math.max(0, (part.s + part.h) * (by.hidden[part.m] ?? 1) - both);
        r += Math.max(0, (part.s + part.r) * (by.reachable[part.m] ?? 1) - both);
      }
      const still = table.sameTotal.reduce((total, v, m) => total + v * (by.same[m] ?? 1), 0);
      return { present: presentIn(by), best: join(s, h, r, 1 - still) };
    },
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}

/** Standard deviations at which the chance is worked out; draws between them are interpolated. */
const NODES = [-3, -2, -1, 0, 1, 2, 3];
const MIDDLE = NODES.indexOf(0);

/** Standard deviations from the middle of a normal to its 5th and 95th percentile. */
const Z90 = 1.645;

/** A figure at z standard deviations: its low and high are the 5th and 95th percentile. */
export function drawn(figure: { best: number; low: number; high: number }, z: number): number {
  const half = z > 0 ? figure.high - figure.best : figure.best - figure.low;
  return clamp(figure.best + (z / Z90) * half, 0, 1);
}
