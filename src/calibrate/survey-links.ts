import type { AhsCell, Item, Region } from './ahs-cells.ts';

/** How an occupant's answer comes from what is there. An answer is not the thing: a house with a basement under part
 * of it counts as one with a basement, piers count as a crawl space, and some people misreport. */

/** Materials whose presence is a plain yes; the foundation's kinds are read by `basementOf` and `slabOf`. */
export const HYDRONIC = ['hot-water-boiler', 'steam-boiler', 'coal-boiler'];
export const CENTRAL_AIR = ['central-air', 'heat-pump'];

/** Chance that somebody who has it says no, and the other way round. Hydronic heat and central air: half the share of
 * houses whose answer went from yes to no between two interviews, among those that said yes (20 of 242 and 39 of
 * 1430 pairs in the open part); a real removal would make that a ceiling. Foundations: the survey carries the first
 * answer forward (no pair of 2271 differs), so nothing can be fitted; 2% is practice. */
export const MISREPORTED: Record<Item, { missed: number; false: number }> = {
  basement: { missed: 0.02, false: 0.02 },
  slab: { missed: 0.02, false: 0.02 },
  hydronic: { missed: 0.041, false: 0.004 },
  'central-air': { missed: 0.014, false: 0.014 },
};

/** Of houses on two kinds of foundation, the share with a basement under a part: the energy survey of 2001, by region,
 * (any basement - basement only) / more than one. The rest are taken as half slab, half crawl space (practice). */
export const MIXED_WITH_BASEMENT: Record<Region, number> = {
  Northeast: 0.94,
  Midwest: 0.88,
  South: 0.65,
  West: 0.5,
};

export function basementOf(kinds: ReadonlyMap<string, number>, region: Region): number {
  let share = 0;
  for (const [kind, p] of kinds) if (kind.startsWith('basement')) share += p;
  return share + (kinds.get('mixed') ?? 0) * MIXED_WITH_BASEMENT[region];
}

export function slabOf(kinds: ReadonlyMap<string, number>, region: Region): number {
  return (kinds.get('slab') ?? 0) + ((kinds.get('mixed') ?? 0) * (1 - MIXED_WITH_BASEMENT[region])) / 2;
}

/** Chance of the answer yes given the chance that the thing is there. */
export function answered(item: AhsCell['item'], present: number): number {
  const { missed, false: wrong } = MISREPORTED[item];
  return present * (1 - missed) + (1 - present) * wrong;
}
