import type { Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import type { House, Odds, Part } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { exp, log } from '../numerics/functions.ts';
import { type Backward, backward } from './backward.ts';
import { clueEvidence, type MetClue } from './clue-evidence.ts';
import { type Evidence, hasEvidence, NO_EVIDENCE } from './evidence.ts';
import { type Posterior, posterior } from './forward.ts';
import { type Kernels, makeKernels } from './kernels.ts';

/** What one system of one part of the house is believed to be made of. */
export interface SystemState {
  system: Entry<System>;
  part: Part;
  kernels: Kernels;
  /** Posterior mixed over the years the part may have been built in. */
  tables: Posterior;
  /** Odds that the house has the system at all by its inputs (a septic tank, a well). */
  applies: number;
  clues: MetClue[];
  evidence: Evidence;
  /** The backward pass behind it, where there is evidence. */
  back: Backward | null;
  /** Odds over build years after all clues of the part. */
  years: Odds<number>;
}

interface Draft {
  system: Entry<System>;
  part: Part;
  kernels: Kernels;
  applies: number;
  clues: MetClue[];
  evidence: Evidence;
  back: Backward | null;
}

/** Belief over every system of the house. `without` leaves clues out, to see what they did. */
export function believe(
  index: BaseIndex,
  house: House,
  without: ReadonlySet<string> = new Set(),
): SystemState[] {
  const drafts = house.parts.flatMap((part, i) =>
    index.base.systems
      .filter((system) => i === 0 || system.scope === 'part')
      .map((system) => draft(index, house, part, system, without)),
  );
  return house.parts.flatMap((part) => {
    const own = drafts.filter((d) => d.part === part && d.applies > 0);
    const years = yearsAfterClues(part, own);
    return own.map((d) => ({ ...d, years, tables: mixed(d, years) }));
  });
}

/** Belief over one system of one part, the build years held as given: for asking what a clue would do. */
export function believeSystem(
  index: BaseIndex,
  house: House,
  part: Part,
  system: Entry<System>,
  without: ReadonlySet<string>,
): SystemState {
  const d = draft(index, house, part, system, without);
  const years = yearsAfterClues(part, [d]);
  return { ...d, years, tables: mixed(d, years) };
}

/** Likelihood of the house's clues for every build year from `from` on, one row a system that has clues. */
export function evidenceFor(
  index: BaseIndex,
  house: House,
  from: number,
  without: ReadonlySet<string>,
): Float64Array[] {
  const first = house.parts[0];
  if (first === undefined) return [];
  const part = { ...first, built: { ...first.built, years: [{ value: from, p: 1 }] } };
  const named = new Set(
    house.clues.flatMap(({ id }) => (without.has(id) ? [] : [index.clues.get(id)?.system ?? ''])),
  );
  return index.base.systems
    .filter((system) => named.has(system.id))
    .flatMap((system) => draft(index, { ...house, parts: [part] }, part, system, without).back?.z ?? []);
}

function draft(
  index: BaseIndex,
  house: House,
  part: Part,
  system: Entry<System>,
  without: ReadonlySet<string>,
): Draft {
  const kernels = kernelsFor(index, house, part, system);
  const clues = house.clues.flatMap(({ id, year, part: where }) => {
    const clue = index.clues.get(id);
    const here = clue?.system === system.id && (where === part.name || system.scope !== 'part');
    return clue !== undefined && here && !without.has(id) ? [{ clue, year }] : [];
  });
  const inputs = inputWeights(index, house, part, kernels);
  const middle =
    (part.built.years[Math.floor(part.built.years.length / 2)]?.value ?? kernels.from) - kernels.from;
  const evidence = clueEvidence(kernels, clues, { reachable: inputs, hidden: inputs }, (year) =>
    workRates(kernels, middle, year - kernels.from),
  );
  const informed = hasEvidence(evidence);
  return {
    system,
    part,
    kernels,
    applies: whenOdds(system.when, house, part),
    clues,
    evidence,
    back: informed ? backward(kernels, evidence) : null,
  };
}

const kernelCache = new WeakMap<BaseIndex, Map<string, Kernels>>();

/** Kernels depend on the place and the years alone; a clue leaves them as they are. */
function kernelsFor(index: BaseIndex, house: House, part: Part, system: Entry<System>): Kernels {
  const from = Math.min(...part.built.years.map((y) => y.value));
  const state = house.place.state;
  const key = `${system.id} ${state} ${from} ${house.asOf}`;
  const cache = kernelCache.get(index) ?? new Map<string, Kernels>();
  kernelCache.set(index, cache);
  const ready = cache.get(key);
  if (ready !== undefined) return ready;
  if (cache.size > 400) cache.clear();
  const fit = index.base.fits.find(
    (f) => f.system === system.id && (f.states === null || f.states.includes(state ?? '')),
  );
  const materials = (index.materialsOf.get(system.id) ?? []).map((m) => ({
    id: m.id,
    life: fit?.lives[m.id] ?? m.life.best,
    shape: m.shape,
    whole: m.whole,
  }));
  const region = state === null ? undefined : index.states.get(state)?.region;
  // A fit holds its own market; elsewhere the region's factors act on the authored shares.
  const regions = fit?.states == null ? system.regions : [];
  const factor = (id: string): number =>
    regions
      .filter((r) => (region !== undefined && r.regions?.includes(region)) || r.states?.includes(state ?? ''))
      .reduce((product, r) => product * (r.factor[id] ?? 1), 1);
  const kernels = makeKernels(fit ?? system, materials, from, house.asOf, factor);
  cache.set(key, kernels);
  return kernels;
}

/** Known inputs rule materials out. Unknown ones leave the shares as they are: the shares speak for them. */
function inputWeights(index: BaseIndex, house: House, part: Part, kernels: Kernels): Float64Array[] | null {
  const fits = kernels.ids.map((id) => {
    const when = index.materials.get(id)?.when;
    return when === undefined || whenOdds(when, house, part) > 0 ? 1 : IMPOSSIBLE;
  });
  if (fits.every((f) => f === 1)) return null;
  return fits.map((f) => new Float64Array(kernels.last + 1).fill(f));
}

/** Weight of a material that the inputs rule out: kept above zero, since inputs can be wrong. */
const IMPOSSIBLE = 1e-4;

/** Chance of complete and partial work in year index d, for a house as it would stand the year before. */
function workRates(kernels: Kernels, built: number, d: number): { complete: number; partial: number } {
  if (d <= built + 1) return { complete: 1e-3, partial: 1e-3 };
  const before: Kernels = { ...kernels, last: d - 1 };
  const standing = posterior(before, NO_EVIDENCE, built);
  const rate = (table: Float64Array[], clock: Kernels['complete']): number => {
    let sum = 0;
    for (let m = 0; m < kernels.ids.length; m++) {
      const age = clock.byAge[m];
      const year = clock.byYear[m];
      if (age === undefined || year === undefined) continue;
      for (let t = built; t < d; t++) {
        const mass = table[m]?.[t] ?? 0;
        if (mass === 0) continue;
        const now = (age[d - t] ?? 0) * (year[d] ?? 0);
        const then = (age[d - 1 - t] ?? 0) * (year[d - 1] ?? 0);
        sum += then > 0 ? mass * (1 - now / then) : 0;
      }
    }
    return sum;
  };
  return {
    complete: rate(standing.hidden, kernels.complete),
    partial: rate(standing.reachable, kernels.partial),
  };
}

/** Odds over the build years given every clue of the part: prior times likelihood, in logs across systems. */
function yearsAfterClues(part: Part, drafts: Draft[]): Odds<number> {
  const informed = drafts.filter((d) => d.back !== null);
  if (informed.length === 0 || part.built.years.length === 1) return part.built.years;
  const scores = part.built.years.map(({ value, p }) =>
    informed.reduce((sum, d) => sum + log(Math.max(d.back?.z[value - d.kernels.from] ?? 0, 1e-300)), log(p)),
  );
  const top = Math.max(...scores);
  const weights = scores.map((s) => exp(s - top));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return part.built.years.map(({ value }, i) => ({ value, p: (weights[i] ?? 0) / total }));
}

function mixed(d: Draft, years: Odds<number>): Posterior {
  const likely = years.filter(
    (y) => y.p > 0.002 && (d.back === null || (d.back.z[y.value - d.kernels.from] ?? 0) > 0),
  );
  const total = likely.reduce((sum, y) => sum + y.p, 0);
  let sum: Posterior | null = null;
  for (const { value, p } of likely) {
    const one = posterior(d.kernels, d.evidence, value - d.kernels.from, d.back);
    sum = sum === null ? scaled(one, p / total) : added(sum, one, p / total);
  }
  if (sum === null) throw new RangeError(`the clues of ${d.system.id} contradict every build year given`);
  return sum;
}

function scaled(p: Posterior, weight: number): Posterior {
  if (weight === 1) return p;
  const by = (table: Float64Array[]): Float64Array[] => table.map((row) => row.map((v) => v * weight));
  return {
    hidden: by(p.hidden),
    reachable: by(p.reachable),
    same: by(p.same),
    joint: by(p.joint),
    likelihood: p.likelihood * weight,
  };
}

function added(a: Posterior, b: Posterior, weight: number): Posterior {
  const by = (x: Float64Array[], y: Float64Array[]): Float64Array[] =>
    x.map((row, m) => row.map((v, t) => v + weight * (y[m]?.[t] ?? 0)));
  return {
    hidden: by(a.hidden, b.hidden),
    reachable: by(a.reachable, b.reachable),
    same: by(a.same, b.same),
    joint: by(a.joint, b.joint),
    likelihood: a.likelihood + weight * b.likelihood,
  };
}

/** Weights that say of a portion only that it was renewed after the house was built. */
export function renewedSince(kernels: Kernels, built: number): Float64Array[] {
  return kernels.ids.map(() =>
    Float64Array.from({ length: kernels.last + 1 }, (_, t) => (t > built ? 1 : 0)),
  );
}
