import { join } from 'node:path';
import type { Places, State } from '../../knowledge/schema/place.ts';
import { numberOf, readTable, type TableRow, textOf } from '../csv/read-table.ts';

type Region = State['region'];
type Soil = State['expansiveSoil'];

/** The fifty states and DC. */
export function readStates(folder: string): State[] {
  return readTable(join(folder, 'states.csv')).map(stateOf);
}

/** Source ids and grade of each field of a state; ids are entries of knowledge/sources/places.yaml. */
export const FIELDS: Places['fields'] = {
  region: { grade: 'published', source: ['nrel-resstock-3-2'] },
  division: { grade: 'published', source: ['nrel-resstock-3-2'] },
  zone: { grade: 'published', source: ['nrel-resstock-3-2'] },
  termites: { grade: 'memory', source: ['usfs-termite-map'] },
  termiteSpan: { grade: 'memory', source: ['usfs-termite-map'] },
  formosan: { grade: 'published', source: ['ufifas-formosan', 'scheffrahn-san-diego-2020'] },
  drywood: { grade: 'memory', source: ['ufifas-drywood', 'ufifas-west-indian-drywood'] },
  frostInches: { grade: 'memory', source: [] },
  expansiveSoil: { grade: 'memory', source: ['fhwa-expansive-soils'] },
  soilNote: { grade: 'memory', source: [] },
  decay: { grade: 'measured', source: ['noaa-normals-2006-2020', 'wbdg-decay-hazard'] },
  freezeThawDays: { grade: 'measured', source: ['noaa-normals-2006-2020'] },
  coast: { grade: 'published', source: [] },
  hurricane: { grade: 'memory', source: [] },
  radonZone: { grade: 'published', source: ['epa-radon-zones'] },
  quake: { grade: 'memory', source: ['fema-seismic-categories'] },
  snow: { grade: 'memory', source: [] },
  floodNote: { grade: 'memory', source: [] },
};

function stateOf(row: TableRow): State {
  const code = textOf(row, 'state');
  const [least, most] = spanOf(textOf(row, 'termite_band_span'));
  return {
    code,
    name: textOf(row, 'name'),
    region: oneOf<Region>(textOf(row, 'region'), ['Northeast', 'Midwest', 'South', 'West']),
    division: textOf(row, 'division'),
    zone: zoneOf(textOf(row, 'iecc_dominant'), code),
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
  };
}

/** Zone 7 has no moisture letter; the stock tables tell Alaska's apart from the rest. */
function zoneOf(zone: string, state: string): string {
  if (zone === '7') return state === 'AK' ? '7AK' : '7A';
  return zone;
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
