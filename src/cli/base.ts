import { compileBase } from '../knowledge/compile.ts';
import { countsOf, findingLines, wordOf } from '../knowledge/report.ts';
import { Options } from './options.ts';
import type { Output } from './output.ts';
import { noWords } from './words.ts';

/** `datestone base`: what the knowledge base holds and what is wrong with it. */
export async function base(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read({ json: 'flag' }, argv);
  noWords('base', options);
  const { base: knowledge, findings } = await compileBase();
  const counts = countsOf(knowledge);
  if (options.has('json')) {
    await output.out(`${JSON.stringify({ base: knowledge.hash, counts, errors: findings })}\n`);
    return;
  }
  const lines = Object.entries(counts).map(([kind, count]) => `${String(count).padStart(6)} ${wordOf(kind)}`);
  const faults =
    findings.length === 0 ? ['no faults'] : [`${findings.length} faults`, ...findings.map(findingLines)];
  await output.out(`knowledge base ${knowledge.hash}\n${[...lines, ...faults].join('\n')}\n`);
}
