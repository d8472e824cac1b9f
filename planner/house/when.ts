import type { When } from '../../knowledge/schema/common.ts';
import type { Foundation, House, Odds, Part } from './house.ts';

/** Odds that something applies to a part of a house: the product over the conditions named, each summed over
 * what the input may be. No condition: 1. */
export function whenOdds(when: When | undefined, house: House, part: Part): number {
  if (when === undefined) return 1;
  let p = 1;
  if (when.foundation !== undefined) p *= among(part.foundation, when.foundation);
  if (when.walls !== undefined) p *= among(part.walls, when.walls);
  if (when.roof !== undefined) p *= among(part.roof, when.roof);
  if (when.form !== undefined) p *= among(house.form, when.form);
  if (when.water !== undefined) p *= among(house.water, when.water);
  if (when.sewer !== undefined) p *= among(house.sewer, when.sewer);
  if (when.fuel !== undefined) p *= among(house.fuel, when.fuel);
  const { builtFrom, builtBefore } = when;
  if (builtFrom !== undefined || builtBefore !== undefined)
    p *= part.built.years
      .filter((y) => y.value >= (builtFrom ?? 0) && y.value < (builtBefore ?? 9999))
      .reduce((sum, y) => sum + y.p, 0);
  if (when.storeysAtLeast !== undefined && part.storeys < when.storeysAtLeast) p = 0;
  if (when.levelsAtLeast !== undefined && part.storeys < when.levelsAtLeast)
    p *= part.storeys + 1 < when.levelsAtLeast ? 0 : among(part.foundation, WITH_CELLAR);
  if (when.unitsAtLeast !== undefined && house.units < when.unitsAtLeast) p = 0;
  return p;
}

/** Foundations that may hold a storey: part of a mixed one often does. */
const WITH_CELLAR: readonly Foundation[] = [
  'basement-stone',
  'basement-brick',
  'basement-block',
  'basement-concrete',
  'mixed',
];

function among<T>(odds: Odds<T>, accepted: readonly T[]): number {
  return odds.reduce((sum, o) => sum + (accepted.includes(o.value) ? o.p : 0), 0);
}
