import type { Base } from '../../knowledge/schema/base.ts';
import { type BaseIndex, indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { type Condition, judge } from '../../planner/condition/condition.ts';
import type { House, HouseInput } from '../../planner/house/house.ts';
import { resolveHouse } from '../../planner/index.ts';
import { random } from '../../planner/numerics/sampling.ts';
import type { Walk } from '../../planner/plan-types.ts';
import { makeWalk, refineWalk } from '../../planner/walk/walk.ts';
import { processorTime } from './kernel.ts';

/** Who walks a house, and for how long. */
export interface Party {
  name: string;
  units: number;
  team: number;
  /** Minutes on site, one of these. */
  minutes: readonly number[];
}

export const PARTIES: readonly Party[] = [
  { name: 'one unit, one person', units: 1, team: 1, minutes: [240, 270, 300] },
  { name: 'four units, three people', units: 4, team: 3, minutes: [180, 210, 240] },
];

/** What came of walking invented houses with the real base: shares of the certified best left, milliseconds. */
export interface HouseRow {
  name: string;
  gaps: number[];
  times: number[];
  /** Houses whose required scope alone needs more minutes than were given: timed, without a gap. */
  short: number;
}

/** Walks of so many invented houses as they are made for a plan: choosing, timing, bound, ranges and text. Odds are ready
 * beforehand. */
export function runHouses(base: Base, party: Party, count: number, refined: boolean): HouseRow {
  const index = indexBase(base);
  const make = refined ? refineWalk : makeWalk;
  const ready = houses(base, party, count).map((house) => ({
    house,
    conditions: conditionsOf(index, house),
  }));
  const row: HouseRow = {
    name: `${party.name}, ${refined ? 'refined' : 'at once'}`,
    gaps: [],
    times: [],
    short: 0,
  };
  // The engine compiles what runs often: a person's first plan is in the table of plans.
  for (const { house, conditions } of ready.slice(0, WARMING)) make(index, house, conditions);
  for (const { house, conditions } of ready) {
    let least = Number.POSITIVE_INFINITY;
    let walk: Walk | null = null;
    for (let run = 0; run < (refined ? 1 : RUNS); run++) {
      const begun = processorTime();
      walk = make(index, house, conditions);
      least = Math.min(least, processorTime() - begun);
    }
    row.times.push(least);
    if (walk?.feasible) row.gaps.push(1 - walk.worth / walk.bound);
    else row.short++;
  }
  return row;
}

const WARMING = 6;

/** Each time at once is the best of so many. */
const RUNS = 3;

/** Invented houses: any year from 1850 to 1989, every foundation, five places, four kinds of weather. */
function houses(base: Base, { units, team, minutes }: Party, n: number): House[] {
  const next = random(20261126);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  return Array.from({ length: n }, () => {
    const input: HouseInput = {
      asOf: 2026,
      place: pick(['VT', 'GA', 'KS', 'OR', 'OH']),
      form: units > 1 ? 'two-to-four' : 'unknown',
      units,
      parts: [
        {
          built: 1850 + Math.floor(next() * 140),
          foundation: pick(['piers', 'crawl', 'basement-stone', 'basement-block', 'slab'] as const),
          storeys: pick([1, 2, 2, 3]),
        },
      ],
      visit: { minutes: pick(minutes), team, outdoorF: pick([20, 50, 70, 95]) },
    };
    const resolved = resolveHouse(base, input);
    if ('problems' in resolved) throw new Error(JSON.stringify(resolved.problems));
    return resolved.house;
  });
}

function conditionsOf(index: BaseIndex, house: House): Condition[] {
  return judge(index, house, believe(index, house));
}
