import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { statesOfYears } from '../../planner/house/priors.ts';
import { numberOf, readTable, type TableRow, textOf } from '../csv/read-table.ts';
import { MIXED_WITH_BASEMENT } from './survey-links.ts';

/** One answered question of an energy survey: a vintage of a place, with the share of each answer. */
export interface SurveyRow {
  source: 'recs-2001' | 'nrel-resstock-3-2';
  /** What the row is of, for reports. */
  name: string;
  /** States it is of, by their weight in it; null: the nation, as the planner sees a house of unknown place. */
  states: { state: string; weight: number }[] | null;
  from: number;
  to: number;
  /** Year it was answered. */
  asOf: number;
  /** Households behind it after the design effect. */
  n: number;
  answers: { name: string; share: number }[];
}

/** Variance against a simple random sample; the tables name none. Practice. */
const DESIGN = 1.5;
/** Housing units that one household of the survey behind the derived tables stands for: 123.5 million homes and 18496
 * households in 2020, 113.6 million and 12083 in 2009. */
const UNITS_PER_HOUSEHOLD = { 2020: 6680, 2009: 9400 };
/** The nation's rows repeat those of the states: they are there for the house of unknown place and count a quarter. */
const REPEATED = 0.25;

const VINTAGE_YEARS: Record<string, [number, number]> = {
  '<1940': [1850, 1939],
  '1940s': [1940, 1949],
  '1950s': [1950, 1959],
  '1940-59': [1940, 1959],
  '1960s': [1960, 1969],
  '1970s': [1970, 1979],
  '1960-79': [1960, 1979],
  '1980s': [1980, 1989],
  '1990s': [1990, 1999],
  '1980-99': [1980, 1999],
  '1980-2001': [1980, 2001],
  '2000-01': [2000, 2001],
  '2000s': [2000, 2009],
  '2000-09': [2000, 2009],
  '2010s': [2010, 2019],
};

export function vintageYears(name: string): [number, number] {
  const years = VINTAGE_YEARS[name];
  if (years === undefined) throw new Error(`vintage "${name}" is not known here`);
  return years;
}

/** Shares of a table by state (or climate zone) and vintage; `answer` names the class of a row. */
function derivedRows(
  base: Base,
  folder: string,
  file: string,
  options: {
    place: 'state' | 'iecc_zone_2004';
    asOf: 2009 | 2020;
    answer: (row: TableRow) => string;
    where?: (row: TableRow) => boolean;
  },
): SurveyRow[] {
  const groups = Map.groupBy(
    readTable(join(folder, file)).filter(options.where ?? (() => true)),
    (row) => `${textOf(row, options.place)}|${textOf(row, 'vintage')}`,
  );
  const zones = options.place === 'state' ? null : statesOfZones(folder);
  return [...groups].flatMap(([key, rows]): SurveyRow[] => {
    const [place = '', vintage = ''] = key.split('|');
    const first = rows[0];
    if (first === undefined) return [];
    const [from, to] = vintageYears(vintage);
    const shares = new Map<string, number>();
    for (const row of rows) {
      const answer = options.answer(row);
      shares.set(answer, (shares.get(answer) ?? 0) + numberOf(row, 'p'));
    }
    const units = numberOf(first, 'housing_units_est');
    const nation = place === 'ALL' || place === 'US';
    const n = (units / UNITS_PER_HOUSEHOLD[options.asOf] / DESIGN) * (nation ? REPEATED : 1);
    const states = nation
      ? null
      : zones === null
        ? [{ state: place, weight: 1 }]
        : weightedByStock(base, zones.get(place) ?? [], from, to);
    if (n < 3 || states?.length === 0) return [];
    return [
      {
        source: 'nrel-resstock-3-2',
        name: `${place} ${vintage}`,
        states,
        from,
        to,
        asOf: options.asOf,
        n,
        answers: toAnswers(shares),
      },
    ];
  });
}

/** States of each climate zone with the share of the state's houses that stand in it. */
function statesOfZones(folder: string): Map<string, { state: string; weight: number }[]> {
  const rows = readTable(join(folder, 'resstock-state-map.csv')).filter(
    (row) => textOf(row, 'map') === 'iecc_zone_2004',
  );
  const zones = new Map<string, { state: string; weight: number }[]>();
  for (const row of rows) {
    const zone = textOf(row, 'value');
    const own = { state: textOf(row, 'state'), weight: numberOf(row, 'share_of_units') };
    zones.set(zone, [...(zones.get(zone) ?? []), own]);
  }
  return zones;
}

/** Weights times the houses of those years that stand in each state, made to add to 1. */
function weightedByStock(
  base: Base,
  states: { state: string; weight: number }[],
  from: number,
  to: number,
): { state: string; weight: number }[] {
  const years = [];
  for (let y = Math.max(from, 1900); y <= Math.min(to, 2019); y += 5) years.push({ value: y, p: 1 });
  const stock = new Map(
    statesOfYears(
      base,
      years.map((y) => ({ ...y, p: 1 / years.length })),
    ).map((s) => [s.value.code, s.p]),
  );
  const weighted = states.map((s) => ({ state: s.state, weight: s.weight * (stock.get(s.state) ?? 0) }));
  const all = weighted.reduce((sum, s) => sum + s.weight, 0);
  return weighted.filter((s) => s.weight / all > 0.005).map((s) => ({ ...s, weight: s.weight / all }));
}

function statesWhere(
  base: Base,
  field: 'division' | 'region',
  value: string,
): { state: string; weight: number }[] {
  return base.places.states.filter((s) => s[field] === value).map((s) => ({ state: s.code, weight: 1 }));
}

function toAnswers(shares: Map<string, number>): SurveyRow['answers'] {
  const all = [...shares.values()].reduce((sum, p) => sum + p, 0);
  return [...shares].map(([name, share]) => ({ name, share: share / all }));
}

/** Cooling by state in 2020, and by region in 2001. */
export function coolingRows(base: Base, folder: string): SurveyRow[] {
  const derived = derivedRows(base, folder, 'resstock-cooling-sfd.csv', {
    place: 'state',
    asOf: 2020,
    answer: (row) =>
      ({
        'Central AC': 'central or evaporative',
        'Ducted Heat Pump': 'heat pump',
        'Non-Ducted Heat Pump': 'heat pump',
        'Room AC': 'room',
        None: 'none',
      })[textOf(row, 'cooling')] ?? 'none',
  });
  return [...derived, ...regionRows(base, 'cooling')];
}

/** Heating by state in 2020 (fuel and delivery), and by region and in the nation in 2001. */
export function heatingRows(base: Base, folder: string): SurveyRow[] {
  const derived = derivedRows(base, folder, 'resstock-heating-sfd.csv', {
    place: 'state',
    asOf: 2020,
    where: (row) => textOf(row, 'delivery') !== 'None',
    answer: (row) => {
      const delivery = textOf(row, 'delivery');
      if (delivery.endsWith('Heat Pump')) return 'heat pump';
      if (textOf(row, 'heating_fuel') === 'Electricity') return 'electric';
      return delivery === 'Ducted Heating' ? 'ducted, burning fuel' : 'not ducted, burning fuel';
    },
  });
  const national = Map.groupBy(
    readTable(join(folder, 'recs2001-heating-sf.csv')).filter((r) => textOf(r, 'table') === 'equipment_type'),
    (row) => textOf(row, 'year_built'),
  );
  const us = [...national].flatMap(([vintage, rows]): SurveyRow[] => {
    // What is not a plant (portable heaters, fireplaces, cooking stoves) is left out of the whole.
    const named = rows.filter((row) => textOf(row, 'equipment') !== 'other');
    const first = named[0];
    if (first === undefined || vintage === '2000-01') return [];
    const [from, to] = vintageYears(vintage);
    const shares = new Map(named.map((row) => [textOf(row, 'equipment'), numberOf(row, 'p_weighted')]));
    const n = numberOf(first, 'n') / DESIGN;
    return [
      {
        source: 'recs-2001',
        name: `US ${vintage}`,
        states: null,
        from,
        to,
        asOf: 2001,
        n,
        answers: toAnswers(shares),
      },
    ];
  });
  return [...derived, ...us, ...regionRows(base, 'heating')];
}

/** The energy survey of 2001 by region: the answers that were tabulated, and the rest as one. */
function regionRows(base: Base, question: string): SurveyRow[] {
  const groups = Map.groupBy(
    readTable(join(import.meta.dirname, 'recs-2001-regions.csv')).filter(
      (r) => textOf(r, 'question') === question,
    ),
    (row) => `${textOf(row, 'region')}|${textOf(row, 'built')}`,
  );
  return [...groups].map(([key, rows]): SurveyRow => {
    const [region = '', vintage = ''] = key.split('|');
    const [from, to] = vintageYears(vintage);
    const answers = rows.map((row) => ({
      name: textOf(row, 'answer'),
      share: numberOf(row, 'percent') / 100,
    }));
    const rest = Math.max(0, 1 - answers.reduce((sum, a) => sum + a.share, 0));
    const n = rows[0] === undefined ? 0 : numberOf(rows[0], 'n') / DESIGN;
    return {
      source: 'recs-2001',
      name: `${region} ${vintage}`,
      states: region === 'US' ? null : weightedByStock(base, statesWhere(base, 'region', region), from, to),
      from,
      to,
      asOf: 2001,
      n,
      answers: [...answers, { name: 'rest', share: rest }],
    };
  });
}

/** Slabs by climate zone in 2009, and by division in 2001 with houses of two kinds shared out as `survey-links.ts`
 * does. Foundations are seldom renewed: the year of the answer hardly matters. */
export function foundationRows(base: Base, folder: string): SurveyRow[] {
  const derived = derivedRows(base, folder, 'resstock-foundation.csv', {
    place: 'iecc_zone_2004',
    asOf: 2009,
    where: (row) =>
      textOf(row, 'building_type') === 'Single-Family Detached' &&
      vintageYears(textOf(row, 'vintage'))[1] < 2010,
    answer: (row) => (textOf(row, 'foundation') === 'Slab' ? 'slab' : 'not slab'),
  });
  const recs = Map.groupBy(readTable(join(folder, 'recs2001-foundation-sf.csv')), (row) =>
    ['division', 'year_built'].map((column) => textOf(row, column)).join('|'),
  );
  const own = [...recs].flatMap(([key, rows]): SurveyRow[] => {
    const [division = '', vintage = ''] = key.split('|');
    const [from, to] = vintageYears(vintage);
    const share = (answer: string): number => {
      const row = rows.find((r) => textOf(r, 'foundation_answer') === answer);
      return row === undefined ? 0 : numberOf(row, 'p_weighted');
    };
    const first = rows[0];
    if (first === undefined || vintage === '2000-01') return [];
    const region = base.places.states.find((s) => s.division === division)?.region;
    if (region === undefined) return [];
    const slab = share('slab_only') + (share('mixed(2+ types)') * (1 - MIXED_WITH_BASEMENT[region])) / 2;
    const known = 1 - share('none_reported');
    return [
      {
        source: 'recs-2001',
        name: `${division} ${vintage}`,
        states: weightedByStock(base, statesWhere(base, 'division', division), from, to),
        from,
        to,
        asOf: 2001,
        n: numberOf(first, 'n') / DESIGN,
        answers: [
          { name: 'slab', share: slab / known },
          { name: 'not slab', share: 1 - slab / known },
        ],
      },
    ];
  });
  return [...derived, ...own];
}

/** Windows by climate zone in 2020. */
export function windowRows(base: Base, folder: string): SurveyRow[] {
  return derivedRows(base, folder, 'resstock-windows-sfd.csv', {
    place: 'iecc_zone_2004',
    asOf: 2020,
    answer: (row) => {
      const window = textOf(row, 'window');
      const metal = /, Metal/.test(window) ? 'metal' : 'wood or vinyl';
      if (!window.startsWith('Single')) return `double, ${metal}`;
      return window.includes('Storm') ? 'single with storm' : `single, ${metal}`;
    },
  });
}
