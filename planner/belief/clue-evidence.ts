import type { Clue } from '../../knowledge/schema/clue.ts';
import { clamp, log } from '../numerics/functions.ts';
import { CLAMP, type Evidence, type RecordWeight } from './evidence.ts';
import type { Expected } from './expected.ts';
import type { Kernels } from './kernels.ts';

/** A clue met in a house; `year` is what a record or a nameplate gives. */
export interface MetClue {
  clue: Clue;
  year: number | null;
}

/** Joins the clues of one system into evidence. Clues of one group report the same fact: only the strongest
 * counts. `also` holds what the inputs say (a foundation kind rules materials out), `before` what a house looks like with
 * nothing else known. */
export function clueEvidence(
  kernels: Kernels,
  clues: MetClue[],
  also: { reachable: Float64Array[] | null; hidden: Float64Array[] | null },
  before: Expected,
): Evidence {
  let { reachable, hidden } = also;
  const records: RecordWeight[] = [];
  for (const { clue, year } of strongestOfGroups(clues)) {
    reachable = multiply(reachable, readingWeights(kernels, clue, 'reachable'));
    hidden = multiply(hidden, readingWeights(kernels, clue, 'hidden'));
    if (clue.installed !== undefined) {
      const { portion, from, to, inside, outside } = clue.installed;
      const weights = yearWeights(kernels, before.bare, from ?? 0, to ?? 9999, inside, outside);
      if (portion === 'reachable') reachable = multiply(reachable, weights);
      else hidden = multiply(hidden, weights);
    }
    if (clue.dated !== undefined && year !== null) {
      const t = year - kernels.from;
      if (clue.dated.kind === 'plate') reachable = multiply(reachable, plateWeights(kernels, t, before));
      else if (t > 0 && t <= kernels.last)
        records.push(
          before.machine === null
            ? recordWeight(clue.dated, t, before.work(t))
            : machineRecord(clue.dated, t, before.machine(t)),
        );
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

/** Weights of installation years; what has no machine has no year either. */
function yearWeights(
  kernels: Kernels,
  bare: ReadonlySet<number>,
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
  return kernels.ids.map((_, m) => (bare.has(m) ? new Float64Array(row.length).fill(1 / CLAMP) : row));
}

/** Chance that the year of a nameplate is misread, or the plate is of another machine than the one in use, whatever the age
 * of the house (common practice). Other machines are of the years that machines in such houses are of. */
export const OTHER_PLATE = 1 / 20;

/** A year that fewer machines than this are of counts as misread. */
const UNHEARD_OF = 1e-6;

/** Weights of installation years by a nameplate: true to within a year, or of another machine. */
function plateWeights(kernels: Kernels, year: number, { bare, ofYear }: Expected): Float64Array[] {
  const near = Math.max(ofYear(year - 1) + ofYear(year) + ofYear(year + 1), UNHEARD_OF);
  const other = (OTHER_PLATE * near) / (1 - OTHER_PLATE + OTHER_PLATE * near);
  const row = Float64Array.from({ length: kernels.last + 1 }, (_, t) =>
    Math.abs(t - year) <= 1 ? 1 : other,
  );
  const none = new Float64Array(row.length).fill(Math.min(other, 1 / CLAMP));
  return kernels.ids.map((_, m) => (bare.has(m) ? none : row));
}

function recordWeight(
  said: { complete: number; partial: number; nothing: number },
  year: number,
  rate: { complete: number; partial: number },
): RecordWeight {
  const quiet = Math.max(1e-6, 1 - rate.complete - rate.partial);
  const nothing = Math.max(said.nothing, 1e-3) / quiet;
  const weigh = (chance: number, prior: number): number =>
    clamp(chance / Math.max(prior, 1e-4) / nothing, 1 / CLAMP, CLAMP);
  return {
    year,
    complete: weigh(said.complete, rate.complete),
    partial: weigh(said.partial, rate.partial),
    nothing: 1,
  };
}

/** Who tells of a machine's replacement mostly names the last one: so much less often it is told of a machine that has been
 * replaced again since, where the later one left no paper (common practice). */
export const TOLD_OF_GONE = 0.1;

/** A paper on a machine: it was put in that year, whether like for like or as another kind, or the paper is about something
 * else; work on a part of it leaves its year as it is. */
function machineRecord(
  said: { complete: number },
  year: number,
  { put, standing }: { put: number; standing: number },
): RecordWeight {
  const gone = Math.max(0, put - standing);
  const odds = said.complete / Math.max(1 - said.complete, 1e-3);
  const complete = clamp(
    (odds * (1 - put)) / Math.max(standing + TOLD_OF_GONE * gone, 1e-4),
    1 / CLAMP,
    CLAMP,
  );
  return { year, complete, since: TOLD_OF_GONE * complete, partial: 1, nothing: 1 };
}

export function multiply(a: Float64Array[] | null, b: Float64Array[] | null): Float64Array[] | null {
  if (a === null || b === null) return a ?? b;
  return a.map((row, m) => row.map((value, t) => value * (b[m]?.[t] ?? 1)));
}
