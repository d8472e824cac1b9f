import type { PartInput } from '../../planner/house/house.ts';
import { type Dating, dateHouse, indexBase, resolveHouse } from '../../planner/index.ts';
import { loadBase } from '../knowledge/load.ts';
import { clueFrom, houseFrom } from './house-options.ts';
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
      units: 'one',
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
    (['clue', 'place', 'as-of', 'units', 'foundation', 'walls'] as const).flatMap((name) =>
      options.many(name).length > 0 ? [[name, options.many(name)] as const] : [],
    ),
  );
  const input = houseFrom(words, { parts: partsOf(options.many('clue')) }, new Date().getFullYear());
  const read = resolveHouse(base, input);
  if ('problems' in read) throw new UsageError(read.problems.map(problemLine).join('; '));
  const given = options.one('listed');
  const listed = given === undefined ? null : readNumber('--listed', given, 'a year from 1800 on');
  if (listed !== null && (listed < 1800 || listed > read.house.asOf))
    throw new UsageError(`--listed "${given}" is not accepted; use a year from 1800 to ${read.house.asOf}`);
  const dating = dateHouse(indexBase(base), read.house, listed);
  await output.out(options.has('json') ? `${JSON.stringify(dating)}\n` : datingText(dating));
}

/** The main block, and an addition for every other part that a clue names. */
function partsOf(clues: string[]): PartInput[] {
  const named = clues.flatMap((text) => clueFrom(text).part ?? []).filter((name) => name !== MAIN);
  return [{ name: MAIN }, ...[...new Set(named)].map((name) => ({ name }))];
}

const MAIN = 'main block';

function datingText(dating: Dating): string {
  const { likely, additions, record } = dating;
  const listed = dating.listed === null ? [] : [`Odds that ${dating.listed} is right: ${rightIn(record)}`];
  const lines = [
    `Likely built ${spanText(likely)}`,
    ...additions.map((a) => `Likely added: ${a.part}, ${spanText(a.likely)}`),
    ...(record === null ? [] : [...wrap(record.say, 100), ...listed]),
    '',
    'WHAT EACH CLUE DID',
    ...dating.drivers.flatMap((d) =>
      wrap(driverText(d, dating.drivers.length > 1, dating.listed), 100, '- ', '  '),
    ),
  ];
  return `${lines.join('\n')}\n`;
}

function spanText({ from, to, middle }: Dating['likely']): string {
  return `${from} to ${to} (four chances in five), the middle about ${middle}`;
}

function rightIn(record: Dating['record']): string {
  return `${Math.round((record?.right ?? 0) * 100)} in 100, if 90 in 100 listed years are (common practice).`;
}

/** How the other clues stand to the listed year, to two figures: no more is known. */
function othersText(ratio: number, listed: number | null): string {
  if (ratio < 0.8)
    return `the other clues are ${Number((1 / Math.max(ratio, 0.01)).toPrecision(2))} times likelier for ${listed} than for an unknown age`;
  return ratio < 1.25
    ? 'the other clues do not tell it from an unknown age'
    : `the other clues are ${Number(ratio.toPrecision(2))} times likelier for an unknown age`;
}

function driverText(d: Dating['drivers'][number], others: boolean, listed: number | null): string {
  const ratio = d.timesLikelierWithout;
  const doubt = ratio === null || !others ? '' : `; ${othersText(ratio, listed)}`;
  const where = d.part === MAIN ? d.clue : `${d.clue}, ${d.part}`;
  return `${d.say} Without it: ${d.without.from} to ${d.without.to}${doubt}. (${where})`;
}
