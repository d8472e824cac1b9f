import type { State } from '../../knowledge/schema/place.ts';
import { resolveHouse } from '../../planner/house/resolve.ts';
import { loadBase } from '../knowledge/load.ts';
import { Options } from './options.ts';
import type { Output } from './output.ts';
import { problemLine } from './problems.ts';
import { UsageError } from './usage-error.ts';
import { wrap } from './words.ts';

/** What each field of a state says, in words. */
const SAY: { field: keyof State; label: string; say: (state: State) => string }[] = [
  { field: 'region', label: 'Region', say: (s) => `${s.region}, ${s.division}` },
  { field: 'zone', label: 'Climate zone', say: (s) => `${s.zone} (where most houses stand)` },
  {
    field: 'decay',
    label: 'Decay hazard',
    say: (s) =>
      `index ${s.decay[1]} (${s.decay[0]} to ${s.decay[2]} over houses); under 35 low, over 65 high; wood above ground in the weather`,
  },
  {
    field: 'freezeThawDays',
    label: 'Freeze-thaw',
    say: (s) => `${s.freezeThawDays} days a year that freeze and thaw`,
  },
  {
    field: 'termites',
    label: 'Termites',
    say: (s) =>
      `${BANDS[s.termites - 1] ?? ''} (subterranean; ${s.termiteSpan.join(' to ')} within the state)`,
  },
  { field: 'formosan', label: 'Formosan termites', say: (s) => s.formosan },
  { field: 'drywood', label: 'Drywood termites', say: (s) => s.drywood },
  {
    field: 'frostInches',
    label: 'Frost depth',
    say: (s) =>
      `${s.frostInches[1]} in. (${s.frostInches[0]} to ${s.frostInches[2]}) for new footings; check locally`,
  },
  {
    field: 'expansiveSoil',
    label: 'Swelling soil',
    say: (s) =>
      `${s.expansiveSoil}${s.soilNote === '' ? '' : ` (${s.soilNote})`}; the ground differs lot by lot`,
  },
  {
    field: 'radonZone',
    label: 'Radon',
    say: (s) => `EPA zone ${s.radonZone} for most houses; test whatever the zone`,
  },
  { field: 'quake', label: 'Earthquake', say: (s) => `design categories ${s.quake}` },
  {
    field: 'coast',
    label: 'Salt air',
    say: (s) => (s.coast ? 'has a coast: ask how far the water is' : 'no sea coast'),
  },
  { field: 'hurricane', label: 'Hurricanes', say: (s) => (s.hurricane ? 'can be hit' : 'rarely reached') },
  { field: 'snow', label: 'Snow', say: (s) => s.snow },
  {
    field: 'floodNote',
    label: 'Flood',
    say: (s) => `${s.floodNote === '' ? '' : `${s.floodNote}; `}look the address up`,
  },
];
const BANDS = ['very heavy', 'moderate to heavy', 'slight to moderate', 'none to slight'];

/** `datestone place STATE|ZIP`: every field with its grade and sources. */
export async function place(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read({ json: 'flag' }, argv);
  const given = options.words.join(' ');
  if (given === '') throw new UsageError('place needs a state code (KY) or a five-digit ZIP after it');
  const { base } = await loadBase(output.warn);
  const read = resolveHouse(base, { asOf: 2000, place: given, parts: [{}] });
  if ('problems' in read) throw new UsageError(read.problems.map(problemLine).join('; '));
  const state = base.places.states.find((s) => s.code === read.house.place.state);
  if (state === undefined) throw new UsageError('place needs a state code (KY) or a five-digit ZIP after it');
  if (options.has('json')) {
    await output.out(`${JSON.stringify({ given, state, fields: base.places.fields })}\n`);
    return;
  }
  const titles = new Map(base.sources.map((source) => [source.id, `${source.title} (${source.publisher})`]));
  const lines = SAY.flatMap(({ field, label, say }) => {
    const { grade = 'memory', source = [] } = base.places.fields[field] ?? {};
    const by = [grade === 'memory' ? 'from memory' : grade, ...source.map((id) => titles.get(id) ?? id)].join(
      '; ',
    );
    return [...wrap(say(state), 100, label.padEnd(18), ' '.repeat(18)), ...wrap(by, 100, ' '.repeat(20))];
  });
  await output.out(`${state.name}\n\n${lines.join('\n')}\n`);
}
