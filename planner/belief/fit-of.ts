import type { Base, Entry } from '../../knowledge/schema/base.ts';
import type { Fit, FormFactors } from '../../knowledge/schema/fit.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import type { Form, House } from '../house/house.ts';
import type { ShareFactors } from './kernels.ts';

/** The fit that stands for a system in a state: one of that state before one of the nation. Undefined: the authored
 * tables stand. */
export function fitOf(base: Pick<Base, 'fits'>, system: string, state: string | null): Fit | undefined {
  const fits = base.fits.filter((f) => f.system === system);
  return fits.find((f) => f.states?.includes(state ?? '')) ?? fits.find((f) => f.states === null);
}

/** Factors of place that act on a system's shares in a state. A fit of named states holds its own market; one of the
 * nation may bring factors of its own. */
export function placeFactors(
  index: BaseIndex,
  system: Entry<System>,
  state: string | null,
): System['regions'] {
  const fit = fitOf(index.base, system.id, state);
  const all = fit?.regions ?? (fit?.states == null ? system.regions : []);
  return holdingIn(all, state, state === null ? undefined : index.states.get(state)?.region);
}

/** Those of the factors that hold in a state of a region. */
export function holdingIn(
  factors: System['regions'],
  state: string | null,
  region: string | undefined,
): System['regions'] {
  return factors.filter(
    (r) => r.regions?.some((name) => name === region) || (state !== null && r.states?.includes(state)),
  );
}

/** The form of the house where it is known: given, or told by its dwellings; null while it is open. */
export function knownForm({ form }: Pick<House, 'form'>): Form | null {
  return form.length === 1 ? (form[0]?.value ?? null) : null;
}

/** What houses of the form have more or less of there; undefined where the form is open or tells nothing. */
export function formFactors(
  index: BaseIndex,
  system: Entry<System>,
  state: string | null,
  form: Form | null,
): FormFactors | undefined {
  return form === null ? undefined : fitOf(index.base, system.id, state)?.forms?.[form];
}

/** Factors of place and of a known form on shares of new work and of renewal work. */
export function shareFactors(
  index: BaseIndex,
  system: Entry<System>,
  state: string | null,
  form: Form | null,
): ShareFactors {
  const place = productOf(placeFactors(index, system, state));
  const own = formFactors(index, system, state, form);
  if (own === undefined) return { new: place, renewal: place };
  return {
    new: (id) => place(id) * (own.new[id] ?? 1),
    renewal: (id) => place(id) * (own.renewal[id] ?? 1),
  };
}

/** Product of factors, by material. */
export function productOf(factors: System['regions']): (id: string) => number {
  return (id) => factors.reduce((product, r) => product * (r.factor[id] ?? 1), 1);
}

/** Product of the paces of waves. */
export function paceOf(factors: System['regions']): number {
  return factors.reduce((product, r) => product * (r.pace ?? 1), 1);
}

/** Waves at a pace. No more than all can be renewed in a year. */
export function wavesAt(waves: System['waves'], pace: number): System['waves'] {
  return pace === 1 ? waves : waves.map((wave) => ({ ...wave, rate: Math.min(1, pace * wave.rate) }));
}
