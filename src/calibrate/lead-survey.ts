import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { judge } from '../../planner/condition/condition.ts';
import { presence } from '../../planner/condition/presence.ts';
import { stockByYear } from '../../planner/house/priors.ts';
import { resolveHouse } from '../../planner/index.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

/** One share that a national survey of lead paint published, beside ours. */
export interface LeadShare extends Span {
  source: string;
  what: string;
  share: number;
  ours: number;
  /** Half of the interval that holds the published share 95 times in 100. */
  margin: number;
}

/** These surveys drew homes in clusters, and their tables of errors were not at hand: the error is that of as many
 * independent homes, its variance times this (practice), of the survey's homes the part that stands in the band. */
const DESIGN = 1.5;

/** Published shares beside the planner's for houses of those years anywhere in the nation. */
export function leadShares(base: Base, knowledge: string): LeadShare[] {
  return readTable(join(knowledge, 'surveys/lead-paint.csv')).map((row) => {
    const span = { from: numberOf(row, 'from'), to: numberOf(row, 'to'), asOf: numberOf(row, 'asOf') };
    const what = textOf(row, 'what');
    const share = numberOf(row, 'share');
    const { ours, part } = oursOf(base, what, span);
    const homes = numberOf(row, 'surveyed') * part;
    const margin = 1.96 * Math.sqrt((DESIGN * share * (1 - share)) / homes);
    return { source: textOf(row, 'source'), what, ...span, share, ours, margin };
  });
}

interface Span {
  from: number;
  to: number;
  asOf: number;
}

/** Our figure, and the part of the survey's homes that it is a share of. */
function oursOf(base: Base, what: string, span: Span): { ours: number; part: number } {
  if (what === 'lead-based paint somewhere') {
    const { mean, part } = meanOver(base, span, paintIn);
    return { ours: mean, part };
  }
  if (what === 'lead-based paint much worn') {
    const { mean, part } = meanOver(base, span, wornIn);
    return { ours: mean, part };
  }
  if (what === 'of homes with lead-based paint: built before 1978') {
    const old = meanOver(base, span, paintIn);
    const all = meanOver(base, { ...span, to: span.asOf }, paintIn);
    return { ours: (old.mean * old.part) / (all.mean * all.part), part: all.mean };
  }
  throw new Error(`lead-paint.csv has "${what}", which is not known here`);
}

/** Bands of years within which houses are alike in paint. */
const STEPS = [1850, 1920, 1930, 1940, 1945, 1950, 1955, 1960, 1965, 1970, 1974, 1978, 1990];

/** Mean of a figure over the nation's houses built from `from` to `to`, and the part of all houses that these are. */
function meanOver(
  base: Base,
  { from, to, asOf }: Span,
  figure: (base: Base, built: string, asOf: number) => number,
): { mean: number; part: number } {
  const stock = stockByYear(base, null, STEPS[0] ?? from, asOf);
  let [sum, part] = [0, 0];
  STEPS.forEach((start, i) => {
    const [first, last] = [Math.max(start, from), Math.min((STEPS[i + 1] ?? asOf + 1) - 1, to, asOf)];
    if (first > last) return;
    const p = stock.filter((o) => o.value >= first && o.value <= last).reduce((s, o) => s + o.p, 0);
    sum += p * figure(base, `${first}-${last}`, asOf);
    part += p;
  });
  return { mean: sum / part, part };
}

function houseOf(base: Base, built: string, asOf: number) {
  const read = resolveHouse(base, { asOf, place: 'unknown', parts: [{ built }] });
  if ('problems' in read) throw new Error(JSON.stringify(read.problems));
  return read.house;
}

/** Belief that some coat of the house is lead-based paint. A belief, for choosing where to test; never a finding. */
function paintIn(base: Base, built: string, asOf: number): number {
  const state = believe(indexBase(base), houseOf(base, built, asOf)).find((s) => s.system.id === 'paint');
  if (state === undefined) throw new Error('the base has no system "paint"');
  return presence(state, ['lead-based-paint'], 'anywhere');
}

function wornIn(base: Base, built: string, asOf: number): number {
  const index = indexBase(base);
  const house = houseOf(base, built, asOf);
  return (
    judge(index, house, believe(index, house)).find((c) => c.failure.id === 'lead-paint-deteriorated')
      ?.probability ?? 0
  );
}
