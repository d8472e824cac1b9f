import type { Base } from '../../knowledge/schema/base.ts';
import type { State } from '../../knowledge/schema/place.ts';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { judge } from '../../planner/condition/condition.ts';
import type { Odds } from '../../planner/house/house.ts';
import { statesOfYears } from '../../planner/house/priors.ts';
import { resolveHouse } from '../../planner/index.ts';
import { DECADES, type Decade, REGIONS, type Region } from './problem-cells.ts';
import { PROBLEM_ITEMS } from './problem-items.ts';

/** The planner's own odds for houses such as those of a cell of the survey, nothing known but place and decade. */
export interface CellOdds {
  region: Region;
  decade: Decade;
  /** Chance that any of an item's failure modes is there, by item id. */
  items: Record<string, number>;
}

/** The survey ran from 1997 to 2013: its homes are judged as of the middle, new ones as of later. */
const BUILT: Record<Decade, { built: string; asOf: number }> = {
  'before 1920': { built: '1880-1919', asOf: 2005 },
  '1920s': { built: '1920s', asOf: 2005 },
  '1930s': { built: '1930s', asOf: 2005 },
  '1940s': { built: '1940s', asOf: 2005 },
  '1950s': { built: '1950s', asOf: 2005 },
  '1960s': { built: '1960s', asOf: 2005 },
  '1970s': { built: '1970s', asOf: 2005 },
  '1980s': { built: '1980s', asOf: 2005 },
  '1990s': { built: '1990s', asOf: 2005 },
  '2000 on': { built: '2000-2007', asOf: 2009 },
};

/** Middle of a decade and the year as of which it is judged, for ages. */
export function ageOf(decade: Decade): number {
  const { built, asOf } = BUILT[decade];
  const [from, to] = built.split('-').map((word) => Number.parseInt(word, 10));
  return asOf - (to === undefined ? (from ?? asOf) + 4.5 : ((from ?? asOf) + to) / 2);
}

/** Odds of every item for every region and decade; `states` stand for each region's houses. */
export function oddsOfCells(base: Base, states = 3): CellOdds[] {
  return REGIONS.flatMap((region) => DECADES.map((decade) => oddsOfCell(base, region, decade, states)));
}

function oddsOfCell(base: Base, region: Region, decade: Decade, count: number): CellOdds {
  const { built, asOf } = BUILT[decade];
  const states = sampleOfStates(base, region, built, count);
  const items: Record<string, number> = Object.fromEntries(PROBLEM_ITEMS.map((item) => [item.id, 0]));
  for (const { value: state, p } of states) {
    const odds = oddsOfHouse(base, state.code, built, asOf);
    for (const item of PROBLEM_ITEMS) items[item.id] = (items[item.id] ?? 0) + p * anyOf(item.failures, odds);
  }
  return { region, decade, items };
}

/** Chance of each failure mode, by id. */
function oddsOfHouse(base: Base, state: string, built: string, asOf: number): Map<string, number> {
  const read = resolveHouse(base, { asOf, place: state, form: 'detached', parts: [{ built }] });
  if ('problems' in read) throw new Error(JSON.stringify(read.problems));
  const index = indexBase(base);
  return new Map(
    judge(index, read.house, believe(index, read.house)).map((c) => [c.failure.id, c.probability]),
  );
}

function anyOf(failures: readonly string[], odds: ReadonlyMap<string, number>): number {
  return 1 - failures.reduce((none, id) => none * (1 - (odds.get(id) ?? 0)), 1);
}

/** States that stand for a region: those at the middle of each of `count` equal parts of its houses, ranked by the decay
 * index. */
function sampleOfStates(base: Base, region: Region, built: string, count: number): Odds<State> {
  const read = resolveHouse(base, { asOf: 2013, place: 'unknown', parts: [{ built }] });
  if ('problems' in read) throw new Error(JSON.stringify(read.problems));
  const standing = statesOfYears(base, read.house.parts[0]?.built.years ?? [])
    .filter(({ value }) => value.region === region)
    .sort((a, b) => a.value.decay[1] - b.value.decay[1] || (a.value.code < b.value.code ? -1 : 1));
  const all = standing.reduce((sum, { p }) => sum + p, 0);
  return Array.from({ length: count }, (_, i) => {
    const at = ((i + 0.5) / count) * all;
    let below = 0;
    const state = standing.find(({ p }) => {
      below += p;
      return below >= at;
    });
    if (state === undefined) throw new Error(`no state of ${region} has houses built ${built}`);
    return { value: state.value, p: 1 / count };
  });
}
