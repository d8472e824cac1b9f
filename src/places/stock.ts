import { join } from 'node:path';
import type { Places, State } from '../../knowledge/schema/place.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

/** Houses of up to four units; towers and mobile homes are another trade. */
const HOUSES = new Set(['Single-Family Detached', 'Single-Family Attached', 'Multi-Family with 2 - 4 Units']);

const LATER = ['1940s', '1950s', '1960s', '1970s', '1980s', '1990s', '2000s', '2010s'] as const;

/** Census regions as the American Housing Survey numbers them. */
const REGION_CODES: Record<State['region'], string> = { Northeast: '1', Midwest: '2', South: '3', West: '4' };

/** Houses from before 1920 by period: practice, for want of a survey that asks. */
const BEFORE_1920 = [
  { years: [1850, 1879], share: 0.12 },
  { years: [1880, 1899], share: 0.28 },
  { years: [1900, 1919], share: 0.6 },
] as const;

const EARLY = [[1920, 1929] as const, [1930, 1939] as const];

/** Houses standing by vintage: by state from ResStock; its oldest class (before 1940) is divided by region as
 * the American Housing Survey has it, and what stood in 1920 by practice. */
export function readStock(folder: string, states: State[]): Places['stock'] {
  const units = unitsByVintage(folder);
  const early = earlySplit(folder);
  const vintages: [number, number][] = [
    ...BEFORE_1920.map(({ years }): [number, number] => [years[0], years[1]]),
    ...EARLY.map(([from, to]): [number, number] => [from, to]),
    ...LATER.map((name): [number, number] => [Number(name.slice(0, 4)), Number(name.slice(0, 4)) + 9]),
  ];
  const byState: Record<string, number[]> = {};
  const thousands: Record<string, number> = {};
  for (const state of states) {
    const of = units.get(state.code);
    if (of === undefined) throw new Error(`resstock-vintage-by-state.csv has no rows for ${state.code}`);
    const old = of.get('<1940') ?? 0;
    const split = early[state.region];
    const counts = [
      ...BEFORE_1920.map(({ share }) => old * split.before1920 * share),
      ...split.decades.map((share) => old * share),
      ...LATER.map((name) => of.get(name) ?? 0),
    ];
    byState[state.code] = toShares(counts);
    thousands[state.code] = Math.round([...of.values()].reduce((sum, count) => sum + count, 0) / 1000);
  }
  return { vintages, byState, units: thousands, source: ['nrel-resstock-3-2', 'ahs-1997-2013'] };
}

function unitsByVintage(folder: string): Map<string, Map<string, number>> {
  const units = new Map<string, Map<string, number>>();
  for (const row of readTable(join(folder, 'resstock-vintage-by-state.csv'))) {
    if (!HOUSES.has(textOf(row, 'building_type'))) continue;
    const of = units.get(textOf(row, 'state')) ?? new Map<string, number>();
    const vintage = textOf(row, 'vintage');
    of.set(vintage, (of.get(vintage) ?? 0) + numberOf(row, 'housing_units_est'));
    units.set(textOf(row, 'state'), of);
  }
  return units;
}

interface EarlySplit {
  before1920: number;
  decades: number[];
}

/** Weighted survey counts of houses built before 1920, in the 1920s and in the 1930s, a region. */
function earlySplit(folder: string): Record<State['region'], EarlySplit> {
  const rows = readTable(join(folder, 'ahs-sample-train.csv'));
  const splitOf = (code: string): EarlySplit => {
    const weigh = (built: string): number =>
      rows
        .filter((row) => textOf(row, 'region') === code && textOf(row, 'built') === built)
        .reduce((sum, row) => sum + numberOf(row, 'weight'), 0);
    const [before1920 = 0, ...decades] = toShares([weigh('1919'), weigh('1920'), weigh('1930')]);
    return { before1920, decades };
  };
  return {
    Northeast: splitOf(REGION_CODES.Northeast),
    Midwest: splitOf(REGION_CODES.Midwest),
    South: splitOf(REGION_CODES.South),
    West: splitOf(REGION_CODES.West),
  };
}

/** Shares of a total, to four decimals that add to 1. */
export function toShares(counts: number[]): number[] {
  const total = counts.reduce((sum, count) => sum + count, 0);
  if (total <= 0) throw new Error('no houses to take shares of');
  const parts = counts.map((count) => Math.round((count / total) * 10_000));
  const largest = parts.indexOf(Math.max(...parts));
  const rest = 10_000 - parts.reduce((sum, part) => sum + part, 0);
  return parts.map((part, i) => (part + (i === largest ? rest : 0)) / 10_000);
}
