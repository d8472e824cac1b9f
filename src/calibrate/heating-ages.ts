import type { Base } from '../../knowledge/schema/base.ts';
import { type BaseIndex, indexBase } from '../../planner/base-index.ts';
import { believeSystem } from '../../planner/belief/believe.ts';
import { stockByYear } from '../../planner/house/priors.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';
import { type AgeRow, type Ages, classOfAge } from './age-link.ts';
import { houseIn } from './survey-forecast.ts';
import { vintageYears } from './survey-rows.ts';
import { SURVEY_SYSTEMS } from './survey-systems.ts';

/** Ages of heating plants as the energy survey of 2001 has them (source `recs-2001`), against what the planner says of
 * houses of those years. No fit of a process knows an age. */
export const AGE_CLASSES = ['under 2', '2-4', '5-9', '10-19', '20 and more'];
const NAMES = ['<2', '2-4', '5-9', '10-19', '20+'];
const ALL = 'all';
const EQUIPMENT = [
  ALL,
  'warm-air furnace',
  'steam/hot water',
  'heat pump',
  'floor/wall pipeless furnace',
  'room heater',
  'built-in electric',
];

/** From the oldest on, every other vintage is fitted; the link was fitted to these and tested on the rest. */
const VINTAGES = ['<1940', '1940s', '1950s', '1960s', '1970s', '1980s', '1990s'];
/** The survey asked in the course of 2001: half-way between the ends of these years. */
const SEEN = [2000, 2001];
const OLDEST = 1880;
/** Years that people have been in a house, on average, spread exponentially; practice. With 6 or 24 the link says much
 * the same. */
const STAY = 12;

/** Rows of the survey in a table, each with the ages of the plants that answer so. `lives` multiplies the lives of machines. */
export function heatingAges(base: Base, table: string, lives = 1): AgeRow[] {
  const index = indexBase(withLives(base, lives));
  const rows = readTable(table).filter((row) => textOf(row, 'table') === 'equipment_age_yr');
  return VINTAGES.flatMap((vintage, v) => {
    const byMaterial = agesOf(index, vintage);
    return EQUIPMENT.flatMap((equipment): AgeRow[] => {
      const own = rows.filter(
        (row) => textOf(row, 'equipment') === equipment && textOf(row, 'year_built') === vintage,
      );
      const first = own[0];
      if (first === undefined) return [];
      const observed = NAMES.map((name) => {
        const row = own.find((r) => textOf(r, 'category') === name);
        return row === undefined ? 0 : numberOf(row, 'p_weighted');
      });
      const ages = together(byMaterial, equipment);
      return [{ equipment, vintage, n: numberOf(first, 'n'), observed, ages, fitted: v % 2 === 0 }];
    });
  });
}

/** Rows that name a plant: those of all plants repeat them. */
export function plantsOf(rows: AgeRow[]): AgeRow[] {
  return rows.filter((row) => row.equipment !== ALL);
}

function withLives(base: Base, factor: number): Base {
  const materials = base.materials.map((m) =>
    m.system === 'heating-plant' ? { ...m, life: { ...m.life, best: factor * m.life.best } } : m,
  );
  return { ...base, materials };
}

/** Ages by material in houses of the vintage somewhere in the nation. */
function agesOf(index: BaseIndex, vintage: string): Map<string, Ages> {
  const system = index.systems.get('heating-plant');
  if (system === undefined) throw new Error('no system heating-plant');
  const [from, to] = vintageYears(vintage);
  const ages = new Map<string, Ages>();
  for (const seen of SEEN)
    for (const { value, p } of stockByYear(index.base, null, Math.max(from, OLDEST), Math.min(to, seen))) {
      const house = houseIn(index.base, 'unknown', value, seen);
      const part = house.parts[0];
      if (part === undefined) continue;
      const { kernels, tables } = believeSystem(index, house, part, system, new Set());
      kernels.ids.forEach((id, m) => {
        const own = ages.get(id) ?? noAges();
        ages.set(id, own);
        tables.reachable[m]?.forEach((mass, t) => {
          add(own, p * mass, kernels.last - t, t === 0);
        });
      });
    }
  return ages;
}

function noAges(): Ages {
  return { known: NAMES.map(() => 0), guessed: NAMES.map(() => 0) };
}

/** A plant as old as the house is known; of a later one those know who were there when it came. */
function add({ known, guessed }: Ages, mass: number, age: number, asBuilt: boolean): void {
  const k = classOfAge(age);
  const there = asBuilt ? 1 : Math.exp(-age / STAY);
  known[k] = (known[k] ?? 0) + there * mass;
  guessed[k] = (guessed[k] ?? 0) + (1 - there) * mass;
}

/** Ages of the plants that give an answer, each material as far as it gives it; of every plant for `ALL`. */
function together(byMaterial: Map<string, Ages>, equipment: string): Ages {
  const sum = noAges();
  for (const [id, ages] of byMaterial) {
    const share = equipment === ALL ? 1 : shareAnswering(id, equipment);
    for (const kind of ['known', 'guessed'] as const)
      ages[kind].forEach((mass, k) => {
        sum[kind][k] = (sum[kind][k] ?? 0) + share * mass;
      });
  }
  return sum;
}

function shareAnswering(material: string, equipment: string): number {
  const heating = SURVEY_SYSTEMS.find((s) => s.system === 'heating-plant');
  const group = Object.entries(heating?.groups ?? {}).find(([, ids]) => ids.includes(material))?.[0];
  return group === undefined ? 0 : (heating?.links[equipment]?.[group] ?? 0);
}
