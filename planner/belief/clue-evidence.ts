import type { Clue } from '../../knowledge/schema/clue.ts';
import { clamp, log } from '../numerics/functions.ts';
import { CLAMP, type Evidence, type RecordWeight } from './evidence.ts';
import type { Kernels } from './kernels.ts';

/** A clue met in a house; `year` is what a record or a nameplate gives. */
export interface MetClue {
  clue: Clue;
  year: number | null;
}

/** Chance, with nothing else known, of complete and of partial work in a year: turns what people make of a
 * paper (odds after reading it) into the weight of the paper. */
export type WorkRates = (year: number) => { complete: number; partial: number };

/** Joins the clues of one system into evidence. Clues of one group report the same fact: only the strongest
 * counts. `also` holds what the inputs say (a foundation kind rules materials out). */
export function clueEvidence(
  kernels: Kernels,
  clues: MetClue[],
  also: { reachable: Float64Array[] | null; hidden: Float64Array[] | null },
  rates: WorkRates,
): Evidence {
  let { reachable, hidden } = also;
  const records: RecordWeight[] = [];
  for (const { clue, year } of strongestOfGroups(clues)) {
    reachable = multiply(reachable, readingWeights(kernels, clue, 'reachable'));
    hidden = multiply(hidden, readingWeights(kernels, clue, 'hidden'));
    if (clue.installed !== undefined) {
      const { portion, from, to, inside, outside } = clue.installed;
      const weights = yearWeights(kernels, from ?? 0, to ?? 9999, inside, outside);
      if (portion === 'reachable') reachable = multiply(reachable, weights);
      else hidden = multiply(hidden, weights);
    }
    if (clue.dated !== undefined && year !== null) {
      if (clue.dated.kind === 'plate')
        reachable = multiply(reachable, yearWeights(kernels, year - 1, year + 1, 1, 1 / CLAMP));
      else if (year > kernels.from && year <= kernels.from + kernels.last)
        records.push(recordWeight(kernels, clue.dated, year, rates(year)));
    }
  }
  records.sort((a, b) => a.year - b.year);
  return { reachable, hidden, records };
}

/** Of each group the clue whose chances differ most between materials. */
export function strongestOfGroups(clues: MetClue[]): MetClue[] {
  const groups = new Map<string, MetClue>();
  for (const met of clues) {
    const key = met.clue.dated === undefined ? met.clue.group : `${met.clue.group}=${met.year}`;
    const rival = groups.get(key);
    if (rival === undefined || strength(met.clue) > strength(rival.clue)) groups.set(key, met);
  }
  return [...groups.values()];
}

/** Largest log-ratio that the clue's readings hold. */
function strength(clue: Clue): number {
  let widest = 0;
  for (const reading of [clue.reads.reachable, clue.reads.hidden]) {
    if (reading === undefined) continue;
    const chances = Object.values(reading);
    widest = Math.max(widest, log(Math.max(...chances, 1e-9) / Math.max(Math.min(...chances), 1e-9)));
  }
  return widest;
}

function readingWeights(
  kernels: Kernels,
  clue: Clue,
  portion: 'reachable' | 'hidden',
): Float64Array[] | null {
  const reading = clue.reads[portion];
  if (reading === undefined) return null;
  const chances = kernels.ids.map((id) => reading[id] ?? reading.else ?? 0);
  const highest = Math.max(...chances, 1e-9);
  return chances.map((c) => new Float64Array(kernels.last + 1).fill(Math.max(c / highest, 1 / CLAMP)));
}

function yearWeights(
  kernels: Kernels,
  from: number,
  to: number,
  inside: number,
  outside: number,
): Float64Array[] {
  const highest = Math.max(inside, outside, 1e-9);
  const row = Float64Array.from({ length: kernels.last + 1 }, (_, t) => {
    const year = kernels.from + t;
    const chance = year >= from && year <= to ? inside : outside;
    return Math.max(chance / highest, 1 / CLAMP);
  });
  return kernels.ids.map((id) => (id === 'none' ? new Float64Array(row.length).fill(1 / CLAMP) : row));
}

function recordWeight(
  kernels: Kernels,
  said: { complete: number; partial: number; nothing: number },
  year: number,
  rate: { complete: number; partial: number },
): RecordWeight {
  const quiet = Math.max(1e-6, 1 - rate.complete - rate.partial);
  const nothing = Math.max(said.nothing, 1e-3) / quiet;
  const weigh = (chance: number, prior: number): number =>
    clamp(chance / Math.max(prior, 1e-4) / nothing, 1 / CLAMP, CLAMP);
  return {
    year: year - kernels.from,
    complete: weigh(said.complete, rate.complete),
    partial: weigh(said.partial, rate.partial),
    nothing: 1,
  };
}

export function multiply(a: Float64Array[] | null, b: Float64Array[] | null): Float64Array[] | null {
  if (a === null || b === null) return a ?? b;
  return a.map((row, m) => row.map((value, t) => value * (b[m]?.[t] ?? 1)));
}
