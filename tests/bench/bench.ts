import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadBase } from '../../src/knowledge/load.ts';
import { kernel, type Timing, time } from './kernel.ts';
import { timePlans } from './plan.ts';
import { benchSearch } from './search.ts';
import { benchWalk } from './walk.ts';

/** `npm run -s bench [-- plan|walk|find] [--data FOLDER] [--write]`: times as multiples of a fixed kernel timed in the
 * same run; the walk against a solver; search against other engines on the queries in FOLDER. `--write` puts the
 * parts that were run into docs/benchmarks.md. */
const args = process.argv.slice(2);
const folder = args.includes('--data') ? (args[args.indexOf('--data') + 1] ?? '') : '../shared/data';
const parts = ['plan', 'walk', 'find'].filter((part) => args.includes(part));
const wanted = parts.length > 0 ? parts : ['plan', 'walk', 'find'];

const WALK_NOTE =
  'The formulation of the walk against a solver, and what was learnt: [benchmarks-walk.md](benchmarks-walk.md).';

const { base } = await loadBase((line) => console.error(line));
const made = new Map<string, string>();
const make = (title: string, lines: string[]): void => {
  made.set(title, lines.join('\n').trim());
  console.log(`## ${title}\n\n${made.get(title)}\n`);
};
if (wanted.includes('plan')) make('Plans', planTable());
if (wanted.includes('walk')) make('The walk', [...(await benchWalk(base)), '', WALK_NOTE]);
if (wanted.includes('find')) make('Search', await benchSearch(base, folder));
if (args.includes('--write')) write(join(import.meta.dirname, '../../docs/benchmarks.md'));

/** Puts the parts that were run into the page; the others stay as they are. */
function write(path: string): void {
  const [, ...old] = readFileSync(path, 'utf8').split(/^## /m);
  const text = new Map(
    old.map((part): [string, string] => {
      const end = part.indexOf('\n');
      return [part.slice(0, end), part.slice(end).trim()];
    }),
  );
  for (const [title, lines] of made) text.set(title, lines);
  const parts = ['Plans', 'The walk', 'Search'].flatMap((title) => {
    const lines = text.get(title);
    return lines === undefined ? [] : [`## ${title}\n\n${lines}\n`];
  });
  writeFileSync(
    path,
    ['# Benchmarks\n', 'Made by `npm run -s bench -- --write`; do not edit by hand.\n', ...parts].join('\n'),
  );
}

function planTable(): string[] {
  kernel();
  const reference = time('10^7 multiply-adds', 9, () => kernel);
  const rows: Timing[] = [reference, ...timePlans(base)];
  return [
    '| what | runs | p50 ms | p95 ms | times the kernel |',
    '| --- | --: | --: | --: | --: |',
    ...rows.map(
      (row) =>
        `| ${row.name} | ${row.runs} | ${row.p50.toFixed(1)} | ${row.p95.toFixed(1)} | ${(row.p50 / reference.p50).toFixed(2)} |`,
    ),
  ];
}
