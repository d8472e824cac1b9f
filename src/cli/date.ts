import { type Dating, dateHouse, indexBase, resolveHouse } from '../../planner/index.ts';
import { loadBase } from '../knowledge/load.ts';
import { houseFrom } from './house-options.ts';
import { Options, readNumber } from './options.ts';
import type { Output } from './output.ts';
import { problemLine } from './problems.ts';
import { UsageError } from './usage-error.ts';
import { noWords, wrap } from './words.ts';

/** `datestone date`: when a house was built, by its clues; and whether they sit well with a listed year. */
export async function date(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read(
    {
      clue: 'many',
      place: 'one',
      listed: 'one',
      'as-of': 'one',
      foundation: 'one',
      walls: 'one',
      json: 'flag',
    },
    argv,
  );
  noWords('date', options);
  if (options.many('clue').length === 0)
    throw new UsageError('date needs what was seen: --clue ID, once or more (datestone clues lists them)');
  const { base } = await loadBase((line) => output.warn(line));
  const words = new Map(
    (['clue', 'place', 'as-of', 'foundation', 'walls'] as const).flatMap((name) =>
      options.many(name).length > 0 ? [[name, options.many(name)] as const] : [],
    ),
  );
  const input = houseFrom(words, { parts: [{}] }, new Date().getFullYear());
  const read = resolveHouse(base, input);
  if ('problems' in read) throw new UsageError(read.problems.map(problemLine).join('; '));
  const given = options.one('listed');
  const listed = given === undefined ? null : readNumber('--listed', given, 'a year from 1800 on');
  if (listed !== null && (listed < 1800 || listed > read.house.asOf))
    throw new UsageError(`--listed "${given}" is not accepted; use a year from 1800 to ${read.house.asOf}`);
  const dating = dateHouse(indexBase(base), read.house, listed);
  await output.out(options.has('json') ? `${JSON.stringify(dating)}\n` : datingText(dating));
}

function datingText(dating: Dating): string {
  const { likely, record } = dating;
  const lines = [
    `Likely built ${likely.from} to ${likely.to} (four chances in five), the middle about ${likely.middle}`,
    ...(record === null ? [] : wrap(record.say, 100)),
    '',
    'WHAT EACH CLUE DID',
    ...dating.drivers.flatMap((d) =>
      wrap(`${d.say} Without it: ${d.without.from} to ${d.without.to}. (${d.clue})`, 100, '- ', '  '),
    ),
  ];
  return `${lines.join('\n')}\n`;
}
