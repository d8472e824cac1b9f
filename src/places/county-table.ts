import { join } from 'node:path';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';
import type { County } from './counties.ts';

/** A county as the knowledge keeps it, for the place sheets; the planner does without. */
export interface CountyRow {
  state: string;
  name: string;
  /** Energy-code climate zone of the 2012 code. */
  zone: string;
  /** EPA radon zone, 1 highest. */
  radon: number;
  /** Decay hazard index carried to the middle of the county. */
  decay: number;
}

export function countiesAsCsv(counties: readonly County[]): string {
  const rows = counties.map(({ fips, state, name, zone, radon, decay }) =>
    [fips, state, name, zone, radon, Math.round(decay)].join(','),
  );
  return `fips,state,county,zone,radon,decay\n${rows.join('\n')}\n`;
}

/** Counties of a state, from the folder of places. */
export function readCountyRows(folder: string, state: string): CountyRow[] {
  return readTable(join(folder, 'counties.csv'))
    .filter((row) => textOf(row, 'state') === state)
    .map((row) => ({
      state,
      name: textOf(row, 'county'),
      zone: textOf(row, 'zone'),
      radon: numberOf(row, 'radon'),
      decay: numberOf(row, 'decay'),
    }));
}
