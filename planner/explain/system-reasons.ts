import type { Fit } from '../../knowledge/schema/fit.ts';
import type { BaseIndex } from '../base-index.ts';
import type { SystemState } from '../belief/believe.ts';
import { fitOf, placeFactors } from '../belief/fit-of.ts';
import type { House } from '../house/house.ts';
import { log, round } from '../numerics/functions.ts';
import type { Contradiction, Reason, Replaced } from '../plan-types.ts';
import { formReasons } from './form-reason.ts';
import type { LeftOut } from './left-out.ts';
import { movedMost } from './moved-most.ts';
import { percent } from './percent.ts';

/** What the reasons are made with besides the state. */
interface Ready {
  leftOut: LeftOut;
  /** Contradictions among the clues of this system. */
  conflicts: readonly Contradiction[];
  replaced: Replaced | null;
}

/** How a system's numbers came about, in order: shares, renewal, place, form, clues, inputs, and what they were checked
 * against. */
export function systemReasons(index: BaseIndex, house: House, state: SystemState, ready: Ready): Reason[] {
  const title = (id: string): string => (id === 'none' ? 'none' : (index.materials.get(id)?.title ?? id));
  const { fit, shares, place, checked } = lastingReasons(index, house, state, title);
  return [
    shares,
    renewalReason(state, fit, ready.replaced),
    ...place,
    ...formReasons(index, house, state, title),
    ...[...new Set(state.clues.map((met) => met.clue.id))].map((id) =>
      clueReason(index, state, id, ready.leftOut, title),
    ),
    ...ready.conflicts.map(conflictReason),
    ...yearsReason(state),
    checked,
  ];
}

/** What no clue changes, as long as the part's mean year stays. */
interface Lasting {
  year: number;
  fit: Fit | undefined;
  shares: Reason;
  place: Reason[];
  checked: Reason;
}

const lasting = new WeakMap<SystemState['kernels'], Lasting>();

/** Made once for each process: one system in one place. */
function lastingReasons(index: BaseIndex, house: House, state: SystemState, title: Title): Lasting {
  const { kernels, system, years } = state;
  const year = Math.round(years.reduce((total, y) => total + y.p * y.value, 0));
  const ready = lasting.get(kernels);
  if (ready?.year === year) return ready;
  const fit = fitOf(index.base, system.id, house.place.state);
  const elsewhere = index.base.fits.find((f) => f.system === system.id);
  const made = {
    year,
    fit,
    shares: sharesReason(state, year, fit, title),
    place: placeReasons(index, house, state, title),
    checked: checkedReason(index, state, fit ?? elsewhere, fit !== undefined),
  };
  lasting.set(kernels, made);
  return made;
}

type Title = (id: string) => string;

function sharesReason(
  { kernels, system }: SystemState,
  year: number,
  fit: Fit | undefined,
  title: Title,
): Reason {
  const t = Math.max(0, Math.min(kernels.last, year - kernels.from));
  const fresh = kernels.ids
    .map((id, m) => ({ id, share: kernels.sNew[m]?.[t] ?? 0 }))
    .filter((s) => s.share >= 0.02)
    .sort((a, b) => b.share - a.share)
    .slice(0, 4);
  const { grade, source } = (fit ?? system).shares.new;
  return {
    kind: 'shares',
    say: `New work of ${year}: ${fresh.map((s) => `${title(s.id)} ${percent(s.share)}`).join(', ')}.`,
    grade,
    source,
  };
}

function renewalReason(state: SystemState, fit: Fit | undefined, replaced: Replaced | null): Reason {
  const original = originalOdds(state);
  const { grade, source } = (fit ?? state.system).shares.renewal;
  const say =
    state.system.portions.hidden === null
      ? `Still as first built: ${percent(original.reachable)}.`
      : `Still as first built: ${percent(original.hidden)} in the hidden portion, ${percent(original.reachable)} within reach.`;
  return {
    kind: 'renewal',
    say: replaced === null ? say : `${say} ${replacedInWords(replaced)}`,
    grade,
    source,
  };
}

function replacedInWords({ allFirst, partly, allSince, twoAges }: Replaced): string {
  return `Where the house has it: all of it first work ${percent(allFirst)}; some of it new, some not ${percent(partly)}; all put in since ${percent(allSince)}. Of two ages ${percent(twoAges)}.`;
}

/** What building in the place favours or shuns: the factors furthest from 1. */
function placeReasons(index: BaseIndex, house: House, { system }: SystemState, title: Title): Reason[] {
  return placeFactors(index, system, house.place.state).map((r) => ({
    kind: 'place',
    say: `Shares of new and renewal work there against the nation's: ${Object.entries(r.factor)
      .sort(([, a], [, b]) => Math.abs(log(b)) - Math.abs(log(a)))
      .slice(0, MOST_FACTORS)
      .map(([id, f]) => `${title(id)} times ${round(f, 2)}`)
      .join(
        ', ',
      )}.${r.pace === undefined ? '' : ` Waves of renewal ran there at ${round(r.pace, 2)} times the nation's pace.`}`,
    grade: r.grade,
    source: r.source,
  }));
}

/** A factor of place is told for this many materials. */
const MOST_FACTORS = 4;

/** What one clue did: the odds without it, against the odds with it, for the material it moved most. */
function clueReason(
  index: BaseIndex,
  state: SystemState,
  id: string,
  leftOut: LeftOut,
  title: Title,
): Reason {
  const clue = index.clues.get(id);
  const without = leftOut.without(state, [id]);
  const effect = movedMost(without, state, title, 'the materials');
  const dated = clue?.dated === undefined ? '' : datedInWords(yearWithin(without), yearWithin(state));
  return {
    kind: 'clue',
    say: `${clue?.say ?? id} This ${effect}${dated}.${clue?.caution === undefined ? '' : ` ${clue.caution}`}`,
    grade: clue?.grade ?? null,
    source: clue?.source ?? [],
  };
}

/** What a dated clue did to the year of what is within reach. */
function datedInWords(was: number | null, is: number | null): string {
  if (was === null || is === null || was === is) return '';
  return `; what is within reach is then mostly of about ${is}, not ${was}`;
}

/** Median year of what is within reach, where the house has the system. */
function yearWithin({ kernels, tables }: SystemState): number | null {
  const years = new Float64Array(kernels.last + 1);
  tables.reachable.forEach((row, m) => {
    if (kernels.ids[m] !== 'none')
      for (let t = 0; t < row.length; t++) years[t] = (years[t] ?? 0) + (row[t] ?? 0);
  });
  const half = years.reduce((sum, p) => sum + p, 0) / 2;
  let reached = 0;
  const t = years.findIndex((p) => {
    reached += p;
    return half > 0 && reached >= half;
  });
  return t < 0 ? null : kernels.from + t;
}

function conflictReason({ say, leastSurprising }: Contradiction): Reason {
  return {
    kind: 'clue',
    say: leastSurprising === null ? say : `${say} ${leastSurprising.say}`,
    grade: null,
    source: [],
  };
}

function yearsReason({ part }: SystemState): Reason[] {
  const { given, years } = part.built;
  if (years.length < 2) return [];
  return [
    {
      kind: 'input',
      say: `The year "${given}" is vague; ${years.length} years from ${years[0]?.value} to ${years.at(-1)?.value} are summed over.`,
      grade: null,
      source: [],
    },
  ];
}

/** What the odds of the system were checked against: the records that its tables were fitted to, here or elsewhere. */
function checkedReason(
  index: BaseIndex,
  { system }: SystemState,
  fit: Fit | undefined,
  here: boolean,
): Reason {
  if (fit === undefined) return { kind: 'grade', say: 'Not checked against data.', grade: null, source: [] };
  const { rows, source } = fit.made;
  const title = index.base.sources.find((s) => s.id === source)?.title ?? source;
  const hidden = system.portions.hidden === null ? '' : ' Odds of the hidden portion were not checked.';
  return {
    kind: 'grade',
    say: `${checked(fit, rows, title, here)}${hidden}`,
    grade: 'measured',
    source: [source],
  };
}

function checked(fit: Fit, rows: number, title: string, here: boolean): string {
  if (fit.regions !== undefined) return `Fitted to ${rows} shares of surveys of the nation (${title}).`;
  const from = `${rows} records of one place (${title})`;
  return here
    ? `Fitted to ${from}, and scored on others of them that were kept out of the fit.`
    : `Not checked against data here; it was in another place: ${from}.`;
}

/** Chance that each portion still is what was put in when the part was built. */
function originalOdds(state: SystemState): { reachable: number; hidden: number } {
  let reachable = 0;
  let hidden = 0;
  for (const { value, p } of state.years) {
    const t = value - state.kernels.from;
    // With several years that the part may be of, a year's own mass stands for its original work.
    if (p <= 0) continue;
    for (let m = 0; m < state.kernels.ids.length; m++) {
      reachable += state.tables.reachable[m]?.[t] ?? 0;
      hidden += state.tables.hidden[m]?.[t] ?? 0;
    }
  }
  return { reachable, hidden };
}
