import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadBase } from '../../src/knowledge/load.ts';
import { kernel, type Timing, time } from './kernel.ts';
import { timePlans } from './plan.ts';
import { benchSearch } from './search.ts';
import { benchWalk } from './walk.ts';

/** `npm run -s bench [-- plan|walk|find] [--data FOLDER] [--write]`: times as multiples of a fixed kernel timed in the
 * same run; the walk against a solver; search against other engines on the queries in FOLDER. `--write` puts the
 * result into docs/benchmarks.md. */
const args = process.argv.slice(2);
const folder = args.includes('--data') ? (args[args.indexOf('--data') + 1] ?? '') : '../shared/data';
const parts = ['plan', 'walk', 'find'].filter((part) => args.includes(part));
const wanted = parts.length > 0 ? parts : ['plan', 'walk', 'find'];

const { base } = await loadBase((line) => console.error(line));
const lines = ['# Benchmarks', '', 'Made by `npm run -s bench -- --write`; do not edit by hand.', ''];
if (wanted.includes('plan')) lines.push('## Plans', '', ...planTable(), '');
if (wanted.includes('walk')) lines.push('## The walk', '', ...(await benchWalk()), '');
if (wanted.includes('find')) lines.push('## Search', '', ...(await benchSearch(base, folder)), '');
lines.push(
  'The formulation of the walk against a solver, and a longer run: [benchmarks-walk.md](benchmarks-walk.md).',
);
console.log(lines.slice(4).join('\n'));
if (args.includes('--write'))
  writeFileSync(join(import.meta.dirname, '../../docs/benchmarks.md'), `${lines.join('\n')}\n`);

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
