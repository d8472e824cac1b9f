import type { Base, Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import { type BaseIndex, indexBase } from '../../planner/base-index.ts';
import { believeSystem } from '../../planner/belief/believe.ts';
import type { House } from '../../planner/house/house.ts';
import { statesOfYears } from '../../planner/house/priors.ts';
import { resolveHouse } from '../../planner/house/resolve.ts';
import type { AhsCell, Item, Region } from './ahs-cells.ts';
import { answered, basementOf, CENTRAL_AIR, HYDRONIC, slabOf } from './survey-links.ts';

/** What the planner says of a house of which the state and the build year are known, as the answer of an occupant. */
export class SurveyForecast {
  readonly #base: Base;
  readonly #index: BaseIndex;
  readonly #made = new Map<string, number>();

  constructor(base: Base) {
    this.#base = base;
    this.#index = indexBase(base);
  }

  /** Chance of the answer yes in a cell: the mean over build years of its bracket and over the states of its region by
   * how many houses of those years stand in each. */
  cell({ item, region, from, to, asOf }: AhsCell): number {
    const years = yearsOf(from, to);
    const seen = Math.round(asOf);
    const mean = years.reduce(
      (sum, built) => sum + this.#inRegion(item, region, Math.min(built, seen), seen),
      0,
    );
    return answered(item, mean / years.length);
  }

  #inRegion(item: Item, region: Region, built: number, asOf: number): number {
    const states = statesOfYears(this.#base, [{ value: built, p: 1 }]).filter(
      (s) => s.value.region === region,
    );
    const all = states.reduce((sum, s) => sum + s.p, 0);
    return states.reduce((sum, s) => sum + (s.p / all) * this.inState(item, s.value.code, built, asOf), 0);
  }

  /** Chance that the thing is there. */
  inState(item: Item, state: string, built: number, asOf: number): number {
    const key = `${item} ${state} ${built} ${asOf}`;
    const ready = this.#made.get(key);
    if (ready !== undefined) return ready;
    const chance = this.#present(item, houseIn(this.#base, state, built, asOf), state);
    this.#made.set(key, chance);
    return chance;
  }

  #present(item: Item, house: House, state: string): number {
    if (item === 'hydronic') return this.#share(house, 'heating-plant', HYDRONIC);
    if (item === 'central-air') return this.#share(house, 'cooling', CENTRAL_AIR);
    const region = this.#base.places.states.find((s) => s.code === state)?.region ?? 'South';
    const kinds = new Map(house.parts[0]?.foundation.map(({ value, p }) => [value, p]));
    return item === 'basement' ? basementOf(kinds, region) : slabOf(kinds, region);
  }

  #share(house: House, system: string, materials: string[]): number {
    return reachableShare(this.#index, house, this.#system(system), materials);
  }

  #system(id: string): Entry<System> {
    const found = this.#index.systems.get(id);
    if (found === undefined) throw new Error(`no system ${id}`);
    return found;
  }
}

/** Chance that the reachable portion of a system of the main block is of one of the materials. */
export function reachableShare(
  index: BaseIndex,
  house: House,
  system: Entry<System>,
  materials: string[],
): number {
  const part = house.parts[0];
  if (part === undefined) throw new Error('a house has no part');
  const state = believeSystem(index, house, part, system, new Set());
  return state.kernels.ids.reduce((sum, id, m) => {
    if (!materials.includes(id)) return sum;
    return sum + (state.tables.reachable[m]?.reduce((total, v) => total + v, 0) ?? 0);
  }, 0);
}

export function houseIn(base: Base, place: string, built: number, asOf: number): House {
  const read = resolveHouse(base, { asOf, place, form: 'detached', parts: [{ built }] });
  if ('problems' in read)
    throw new Error(`cannot read a house built in ${built} in ${place}, seen in ${asOf}`);
  return read.house;
}

/** Years that stand for a bracket. The open oldest one ends in 1919: fewer of its houses are left the older they are. */
function yearsOf(from: number, to: number): number[] {
  if (from < 1920) return [1885, 1902, 1910, 1916];
  return to - from > 5 ? [from + 2, from + 7] : [from + 2];
}
