import type { Base, Entry } from '../../knowledge/schema/base.ts';
import type { Fit } from '../../knowledge/schema/fit.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';

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

/** Product of factors, by material. */
export function productOf(factors: System['regions']): (id: string) => number {
  return (id) => factors.reduce((product, r) => product * (r.factor[id] ?? 1), 1);
}
