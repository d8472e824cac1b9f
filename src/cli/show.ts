import { stringify } from 'yaml';
import type { Base } from '../../knowledge/schema/base.ts';
import { distance } from '../../planner/house/words.ts';
import { loadBase } from '../knowledge/load.ts';
import { Options } from './options.ts';
import type { Output } from './output.ts';
import { refusal, UsageError } from './usage-error.ts';

const KINDS = {
  system: 'systems',
  material: 'materials',
  failure: 'failures',
  check: 'checks',
  era: 'eras',
  clue: 'clues',
  question: 'questions',
  paper: 'papers',
  source: 'sources',
} as const satisfies Record<string, keyof Base>;
type Kind = keyof typeof KINDS;

interface Shown {
  kind: Kind;
  entry: { id: string };
}

/** `datestone show ID`: one entry in full, with the prose under it. */
export async function show(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read({ json: 'flag' }, argv);
  const [given, ...more] = options.words;
  if (given === undefined || more.length > 0)
    throw new UsageError('show needs one id after it (knob-and-tube); datestone find looks for words');
  const { base } = await loadBase((line) => output.warn(line));
  const all = entriesOf(base);
  const slash = given.indexOf('/');
  const [kind, id] =
    slash < 0 ? [null, given] : [given.slice(0, slash).replace(/s$/, ''), given.slice(slash + 1)];
  const found = all.filter(({ kind: k, entry }) => entry.id === id && (kind === null || k === kind));
  if (found.length === 0) throw new UsageError(missed(given, id, all));
  if (options.has('json')) {
    await output.out(
      `${JSON.stringify({ id, entries: found.map(({ kind: k, entry }) => ({ kind: k, ...entry })) })}\n`,
    );
    return;
  }
  await output.out(found.map(textOf).join('\n'));
}

function entriesOf(base: Base): Shown[] {
  return (Object.keys(KINDS) as Kind[]).flatMap((kind) =>
    base[KINDS[kind]].map((entry) => ({ kind, entry })),
  );
}

function textOf({ kind, entry }: Shown): string {
  const { id, ...rest } = entry;
  const { body, ...fields } = rest as { body?: string };
  const prose = body === undefined || body === '' ? '' : `\n${body}\n`;
  return `${kind} ${id}\n\n${stringify(fields, { lineWidth: 100 })}${prose}`;
}

/** The ids that share most with what was typed: whole words of it, then fewest edits. */
function missed(given: string, id: string, all: Shown[]): string {
  const words = id
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word.length > 2);
  const ids = [...new Set(all.filter(({ kind }) => kind !== 'source').map(({ entry }) => entry.id))];
  const near = ids
    .map((known) => {
      const shared = words.filter((word) => known.includes(word)).length;
      return { known, shared, edits: distance(id.toLowerCase(), known) };
    })
    .filter(({ shared, edits }) => shared > 0 || edits <= Math.ceil(id.length / 3))
    .sort((a, b) => b.shared - a.shared || a.edits - b.edits)
    .slice(0, 5)
    .map(({ known }) => known);
  const list = near.length === 0 ? null : near.join(', ');
  return refusal('show', given, 'the id of an entry (datestone find looks for words)', list);
}
