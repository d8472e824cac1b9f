import { join } from 'node:path';
import { resolveHouse } from '../../planner/house/resolve.ts';
import { decayBand, decayIndex } from '../../planner/places/decay-index.ts';
import { hereOf } from '../../planner/places/here.ts';
import { loadBase } from '../knowledge/load.ts';
import type { Station } from '../places/nearest-stations.ts';
import { readStations } from '../places/normals.ts';
import { placeFields } from '../places/place-fields.ts';
import { Options } from './options.ts';
import type { Output } from './output.ts';
import { problemLine } from './problems.ts';
import { UsageError } from './usage-error.ts';
import { wrap } from './words.ts';

const NEEDS = 'place needs a state code (KY) or a five-digit ZIP after it';
const WIDTH = 100;
const NORMALS = join(import.meta.dirname, '../../knowledge/places/normals.csv');

/** `datestone place STATE|ZIP`: every field with its grade and sources. */
export async function place(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read({ json: 'flag' }, argv);
  const given = options.words.join(' ');
  if (given === '') throw new UsageError(NEEDS);
  const { base } = await loadBase((line) => output.warn(line));
  const read = resolveHouse(base, { asOf: 2000, place: given, parts: [{}] });
  if ('problems' in read) throw new UsageError(read.problems.map(problemLine).join('; '));
  const { zip3 } = read.house.place;
  const here = hereOf(base, read.house.place);
  if (here === null) throw new UsageError(NEEDS);
  const area = zip3 === null ? undefined : base.places.zip3[zip3];
  const all = readStations(NORMALS);
  const stations =
    area === undefined
      ? all.filter((s) => s.state === here.state.code).map((s) => ({ ...brief(s), km: null }))
      : all.filter((s) => s.id === area.station).map((s) => ({ ...brief(s), km: area.km }));
  const fields = placeFields(base, here);
  const cited = [...new Set(fields.flatMap((f) => f.source))];
  const sources = cited.flatMap((id) => base.sources.find((s) => s.id === id) ?? []);
  if (options.has('json')) {
    const byField = Object.fromEntries(fields.map(({ field, ...rest }) => [field, rest]));
    await output.out(
      `${JSON.stringify({
        schema: 'datestone.place/1',
        given,
        name: here.state.name,
        zip3,
        decayIndex: here.decay,
        decayBand: decayBand(here.decay),
        state: here.state,
        fields: byField,
        stations,
        sources,
      })}\n`,
    );
    return;
  }
  const lines = fields.flatMap(({ label, say, grade, source }) => {
    const marks = source.map((id) => `[${cited.indexOf(id) + 1}]`).join('');
    const by = `${grade === 'memory' ? 'from memory' : grade}${marks === '' ? '' : ` ${marks}`}`;
    return wrap(`${say} (${by})`, WIDTH, label.padEnd(18), ' '.repeat(18));
  });
  const [nearest] = stations;
  const near =
    area === undefined || nearest === undefined
      ? `${stations.length} stations in the state; a ZIP gives the nearest`
      : `${nearest.name}, ${nearest.state}, ${area.km} km from the middle of ZIP ${zip3}xx: index ${nearest.decayIndex}`;
  lines.push(...wrap(near, WIDTH, 'Climate station'.padEnd(18), ' '.repeat(18)));
  const names = sources.flatMap(({ id, publisher, title }) =>
    wrap(`${publisher}, ${title}`, WIDTH, `[${cited.indexOf(id) + 1}] `.padEnd(5), '     '),
  );
  const title = zip3 === null ? here.state.name : `ZIP ${given}, ${here.state.name}`;
  await output.out(`${title}\n\n${lines.join('\n')}\n\n${names.join('\n')}\n`);
}

function brief({ id, name, state, elevationM, months }: Station) {
  return { id, name, state, elevationM, decayIndex: Math.round(decayIndex(months) * 100) / 100 };
}
