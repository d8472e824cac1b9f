import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../../planner/base-index.ts';
import { believeSystem } from '../../planner/belief/believe.ts';
import { stockPrior } from '../../planner/house/priors.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';
import { houseIn } from './survey-forecast.ts';
import { vintageYears } from './survey-rows.ts';

/** Ages of heating equipment as the energy survey of 2001 has them, against ours. A test: no fit knows an age. */
export interface AgeRow {
  equipment: string;
  vintage: string;
  n: number;
  /** Share of each class of `AGE_CLASSES`. */
  observed: number[];
  ours: number[];
}

export const AGE_CLASSES = ['under 2', '2-4', '5-9', '10-19', '20 and more'];
const NAMES = ['<2', '2-4', '5-9', '10-19', '20+'];
const FIRST = [0, 2, 5, 10, 20];
const SEEN = 2001;
const FEWEST = 50;

const EQUIPMENT: Record<string, string[] | null> = {
  all: null,
  'warm-air furnace': ['gas-furnace', 'oil-furnace', 'gravity-furnace'],
  'steam/hot water': ['hot-water-boiler', 'steam-boiler', 'coal-boiler'],
};

export function heatingAges(base: Base, folder: string): AgeRow[] {
  const rows = readTable(join(folder, 'recs2001-heating-sf.csv')).filter(
    (row) => textOf(row, 'table') === 'equipment_age_yr',
  );
  const ours = new Map<string, Map<string, number[]>>();
  return Object.entries(EQUIPMENT).flatMap(([equipment, materials]) =>
    ['<1940', '1940s', '1950s', '1960s', '1970s', '1980s', '1990s'].flatMap((vintage): AgeRow[] => {
      const own = rows.filter(
        (row) => textOf(row, 'equipment') === equipment && textOf(row, 'year_built') === vintage,
      );
      const first = own[0];
      if (first === undefined || numberOf(first, 'n') < FEWEST) return [];
      const byMaterial = ours.get(vintage) ?? agesOf(base, vintage);
      ours.set(vintage, byMaterial);
      const observed = NAMES.map((name) => {
        const row = own.find((r) => textOf(r, 'category') === name);
        return row === undefined ? 0 : numberOf(row, 'p_weighted');
      });
      return [
        { equipment, vintage, n: numberOf(first, 'n'), observed, ours: together(byMaterial, materials) },
      ];
    }),
  );
}

/** Mass of each age class by material, for a house of the vintage somewhere in the nation. */
function agesOf(base: Base, vintage: string): Map<string, number[]> {
  const index = indexBase(base);
  const system = index.systems.get('heating-plant');
  if (system === undefined) throw new Error('no system heating-plant');
  const [from, to] = vintageYears(vintage);
  const built = stockPrior(base, null, SEEN).filter((y) => y.value >= Math.max(from, 1880) && y.value <= to);
  const all = built.reduce((sum, y) => sum + y.p, 0);
  const ages = new Map<string, number[]>();
  for (const { value, p } of built) {
    const house = houseIn(base, 'unknown', value, SEEN);
    const part = house.parts[0];
    if (part === undefined) continue;
    const { kernels, tables } = believeSystem(index, house, part, system, new Set());
    kernels.ids.forEach((id, m) => {
      const classes = ages.get(id) ?? NAMES.map(() => 0);
      tables.reachable[m]?.forEach((mass, t) => {
        const k = FIRST.findLastIndex((age) => SEEN - kernels.from - t >= age);
        classes[k] = (classes[k] ?? 0) + (p / all) * mass;
      });
      ages.set(id, classes);
    });
  }
  return ages;
}

function together(byMaterial: Map<string, number[]>, materials: string[] | null): number[] {
  const sums = NAMES.map((_, k) =>
    [...byMaterial].reduce(
      (sum, [id, classes]) => sum + (materials === null || materials.includes(id) ? (classes[k] ?? 0) : 0),
      0,
    ),
  );
  const all = sums.reduce((sum, v) => sum + v, 0);
  return sums.map((v) => v / all);
}
