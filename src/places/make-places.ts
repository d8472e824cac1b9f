import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Places, type State } from '../../knowledge/schema/place.ts';
import { readTable, textOf } from '../csv/read-table.ts';
import { corrected, correctionSources } from './corrections.ts';
import { readFoundations } from './foundations.ts';
import { FIELDS, readStates } from './states.ts';
import { readStock } from './stock.ts';

/** Makes knowledge/places/places.json from a folder of tables: `npm run calibrate -- FOLDER`. The tables and
 * where they come from are described in knowledge/places/README.md. */
const NEEDED =
  'states.csv, zip3.csv, resstock-vintage-by-state.csv, ahs-sample-train.csv, resstock-foundation.csv, recs2001-foundation-sf.csv';
const folder = process.argv[2];
if (folder === undefined) {
  console.error(`give the folder that holds ${NEEDED}`);
  process.exit(2);
}
const states = readStates(folder)
  .map(corrected)
  .sort((a, b) => (a.code < b.code ? -1 : 1));
const places: Places = {
  states,
  fields: fields(),
  zip3: readZips(folder, states),
  stock: readStock(folder, states),
  foundations: readFoundations(folder),
};
const out = join(import.meta.dirname, '../../knowledge/places');
mkdirSync(out, { recursive: true });
writeFileSync(join(out, 'places.json'), `${JSON.stringify(Places.parse(places), null, 1)}\n`);
console.log(
  `knowledge/places/places.json: ${states.length} states, ${Object.keys(places.zip3).length} ZIP prefixes`,
);

function fields(): Places['fields'] {
  const all = structuredClone(FIELDS);
  for (const [field, source] of correctionSources()) all[field]?.source.push(...source);
  return all;
}

/** ZIP prefixes of the states; territories are left out. */
function readZips(from: string, known: State[]): Record<string, string> {
  const codes = new Set(known.map((state) => state.code));
  return Object.fromEntries(
    readTable(join(from, 'zip3.csv'))
      .map((row): [string, string] => [textOf(row, 'zip3'), textOf(row, 'state')])
      .filter(([, state]) => codes.has(state)),
  );
}
