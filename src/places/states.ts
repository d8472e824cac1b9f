import { join } from 'node:path';
import type { Places, State } from '../../knowledge/schema/place.ts';
import { numberOf, readTable, type TableRow, textOf } from '../csv/read-table.ts';

type Region = State['region'];
type Soil = State['expansiveSoil'];

/** The fifty states and DC. */
export function readStates(folder: string): State[] {
  const zones = zonesOfStates(folder);
  return readTable(join(folder, 'states.csv')).map((row) => stateOf(row, zones));
}

/** What no source was read for: an entry that says so. */
const FROM_MEMORY = 'states-from-memory';

/** Source ids and grade of each field of a state; ids are entries of knowledge/sources/places.yaml. */
export const FIELDS: Places['fields'] = {
  region: { grade: 'published', source: ['nrel-resstock-3-2'] },
  division: { grade: 'published', source: ['nrel-resstock-3-2'] },
  zone: { grade: 'published', source: ['nrel-resstock-3-2'] },
  zones: { grade: 'published', source: ['nrel-resstock-3-2'] },
  termites: { grade: 'memory', source: ['usfs-termite-map', FROM_MEMORY] },
  termiteSpan: { grade: 'memory', source: ['usfs-termite-map', FROM_MEMORY] },
  formosan: { grade: 'published', source: ['ufifas-formosan', 'scheffrahn-san-diego-2020'] },
  drywood: { grade: 'memory', source: ['ufifas-drywood', 'ufifas-west-indian-drywood', FROM_MEMORY] },
  frostInches: { grade: 'memory', source: [FROM_MEMORY] },
  expansiveSoil: { grade: 'memory', source: ['fhwa-expansive-soils', FROM_MEMORY] },
  soilNote: { grade: 'memory', source: [FROM_MEMORY] },
  decay: { grade: 'measured', source: ['noaa-normals-2006-2020', 'wbdg-decay-hazard'] },
  freezeThawDays: { grade: 'measured', source: ['noaa-normals-2006-2020'] },
  coast: { grade: 'published', source: ['us-census-boundaries'] },
  hurricane: { grade: 'memory', source: [FROM_MEMORY] },
  radonZone: { grade: 'published', source: ['epa-radon-zones'] },
  quake: { grade: 'memory', source: ['fema-seismic-categories', FROM_MEMORY] },
  snow: { grade: 'memory', source: [FROM_MEMORY] },
  floodNote: { grade: 'memory', source: [FROM_MEMORY] },
};

function stateOf(row: TableRow, zones: Map<string, Record<string, number>>): State {
  const code = textOf(row, 'state');
  const [least, most] = spanOf(textOf(row, 'termite_band_span'));
  return {
    code,
    name: textOf(row, 'name'),
    region: oneOf<Region>(textOf(row, 'region'), ['Northeast', 'Midwest', 'South', 'West']),
    division: textOf(row, 'division'),
    zone: zoneOf(textOf(row, 'iecc_dominant'), code),
    zones: zones.get(code) ?? {},
    termites: numberOf(row, 'termite_band_dominant'),
    termiteSpan: [least, most],
    formosan: textOf(row, 'formosan_termite'),
    drywood: textOf(row, 'drywood_termite'),
    frostInches: [
      numberOf(row, 'frost_in_min'),
      numberOf(row, 'frost_in_typical'),
      numberOf(row, 'frost_in_max'),
    ],
    expansiveSoil: oneOf<Soil>(textOf(row, 'expansive_soil_band'), ['low', 'moderate', 'high']),
    soilNote: textOf(row, 'expansive_soil_note'),
    decay: [numberOf(row, 'sci_p10'), numberOf(row, 'sci_median'), numberOf(row, 'sci_p90')],
    freezeThawDays: numberOf(row, 'freeze_thaw_days_median'),
    coast: textOf(row, 'coastal_corrosion') === 'yes',
    hurricane: textOf(row, 'hurricane_prone') !== 'no',
    radonZone: numberOf(row, 'radon_band'),
    quake: textOf(row, 'seismic_sdc_span'),
    snow: textOf(row, 'snow_band'),
    floodNote: textOf(row, 'flood_note'),
    corrected: {},
  };
}

/** A zone with a smaller share of a state's houses is left out. */
const SMALLEST = 0.02;

/** Shares of the climate zones (2004 code, as the tables of foundations have them) among the houses of each state. */
function zonesOfStates(folder: string): Map<string, Record<string, number>> {
  const rows = readTable(join(folder, 'resstock-state-map.csv')).filter(
    (row) => textOf(row, 'map') === 'iecc_zone_2004' && numberOf(row, 'share_of_units') >= SMALLEST,
  );
  return new Map(
    [...Map.groupBy(rows, (row) => textOf(row, 'state'))].map(([state, own]) => {
      const all = own.reduce((sum, row) => sum + numberOf(row, 'share_of_units'), 0);
      const share = (row: TableRow): number =>
        Math.round((1000 * numberOf(row, 'share_of_units')) / all) / 1000;
      return [
        state,
        Object.fromEntries(own.map((row) => [stockZone(textOf(row, 'value'), state), share(row)])),
      ];
    }),
  );
}

/** Alaska's zones as the stock tables name them. */
function stockZone(zone: string, state: string): string {
  return state === 'AK' ? zoneOf(zone.slice(0, 1), state) : zone;
}

/** Zones 7 and 8 have no moisture letter; the stock tables tell Alaska's apart from the rest. */
export function zoneOf(zone: string, state: string): string {
  if (zone !== '7' && zone !== '8') return zone;
  return state === 'AK' ? `${zone}AK` : '7A';
}

function spanOf(text: string): [number, number] {
  const parts = text.split('-').map(Number);
  const first = parts[0] ?? Number.NaN;
  const last = parts.at(-1) ?? Number.NaN;
  if (!Number.isInteger(first) || !Number.isInteger(last)) throw new Error(`"${text}" is no span of bands`);
  return [first, last];
}

function oneOf<T extends string>(text: string, allowed: readonly T[]): T {
  const found = allowed.find((value) => value === text);
  if (found === undefined) throw new Error(`"${text}" is not one of ${allowed.join(', ')}`);
  return found;
}
