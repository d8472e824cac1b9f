import { numberOf, readTable, type TableRow, textOf } from '../csv/read-table.ts';
import type { Station } from './nearest-stations.ts';

/** Airport and first-order stations: their gauges catch days of 0.01 inch that volunteers' gauges miss. Carrying the
 * index from these alone erred less (docs/places.md). */
const AIRPORT = 'USW';

const MONTHS = Array.from({ length: 12 }, (_, i) => i + 1);

/** Stations of a table of monthly normals; the knowledge keeps one, `knowledge/places/normals.csv`. */
export function readStations(path: string): Station[] {
  return readTable(path)
    .filter((row) => textOf(row, 'id').startsWith(AIRPORT))
    .map(stationOf);
}

function stationOf(row: TableRow): Station {
  return {
    id: textOf(row, 'id'),
    name: textOf(row, 'station'),
    state: textOf(row, 'state'),
    lat: numberOf(row, 'lat'),
    lon: numberOf(row, 'lon'),
    elevationM: numberOf(row, 'elev_m'),
    months: MONTHS.map((m) => ({ meanF: numberOf(row, `t${m}`), wetDays: numberOf(row, `d${m}`) })),
  };
}

/** The stations as the knowledge keeps them. */
export function stationsAsCsv(stations: readonly Station[]): string {
  const head = [
    'id,station,state,lat,lon,elev_m',
    ...MONTHS.map((m) => `t${m}`),
    ...MONTHS.map((m) => `d${m}`),
  ];
  const rows = stations.map(({ id, name, state, lat, lon, elevationM, months }) =>
    [
      id,
      /[",]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name,
      state,
      lat,
      lon,
      elevationM,
      ...months.map((m) => m.meanF),
      ...months.map((m) => m.wetDays),
    ].join(','),
  );
  return `${head.join(',')}\n${rows.join('\n')}\n`;
}
