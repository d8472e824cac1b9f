import type { Base } from '../../knowledge/schema/base.ts';
import type { Plan } from '../../planner/plan-types.ts';
import { type ShareBand, shareAt, shareBands } from '../drawings/share-bands.ts';

/** What new houses of each year had, for one system: the years around the house, in shares of a whole. */
export interface Strip {
  system: string;
  title: string;
  years: number[];
  bands: ShareBand[];
}

const MOST = 4;
/** With fewer materials there is little to see. */
const LEAST = 2;
/** The strips begin this long before the house, and never later than the first year named. */
const BEFORE = 25;
const EARLIEST = 1880;

/** Systems from the weightiest risks down, of the main block. */
export function weightiest(plan: Plan): string[] {
  const weight = new Map<string, number>();
  for (const risk of plan.risks) weight.set(risk.system, (weight.get(risk.system) ?? 0) + risk.priority);
  const main = plan.house.parts[0]?.name;
  return plan.systems
    .filter((s) => s.part === main && s.present >= 0.5)
    .map((s) => s.system)
    .sort((a, b) => (weight.get(b) ?? 0) - (weight.get(a) ?? 0) || (a < b ? -1 : 1));
}

/** Strips for the systems that matter most to this house, all over the same years. */
export function stripsFor(base: Base, plan: Plan): Strip[] {
  const built = (plan.house.parts[0]?.built.years ?? []).map((y) => y.value);
  const from = Math.min(EARLIEST, ...built.map((year) => year - BEFORE));
  const to = plan.house.asOf;
  return weightiest(plan)
    .flatMap((id) => base.systems.find((s) => s.id === id) ?? [])
    .filter((s) => s.group !== 'life-safety' && Object.keys(s.shares.new.rows).length > LEAST)
    .slice(0, MOST)
    .map((system) => {
      const table = system.shares.new;
      const order = base.materials
        .filter((m) => m.system === system.id)
        .sort((a, b) => a.years.common - b.years.common || a.years.first - b.years.first)
        .map((m) => m.id);
      const titleOf = (id: string): string => base.materials.find((m) => m.id === id)?.title ?? id;
      const years = [from, ...table.years.filter((year) => year > from && year < to), to];
      const bands = shareBands(table, titleOf, order).map((band) => ({
        ...band,
        title: band.id === 'none' ? 'Without any' : band.title,
        shares: years.map((year) => shareAt(table.years, band.shares, year)),
      }));
      return {
        system: system.id,
        title: system.title,
        years,
        bands: bands.filter((band) => band.shares.some((share) => share > 0)),
      };
    });
}
