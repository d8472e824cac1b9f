import { loadBase } from '../knowledge/load.ts';
import { loadSearcher } from '../search/load.ts';
import { search } from '../search/search.ts';
import type { SearchResult } from '../search/search-file.ts';
import { linesOf } from './lines.ts';
import { Options, readNumber } from './options.ts';
import type { Output } from './output.ts';
import { refusal, UsageError } from './usage-error.ts';
import { wrap } from './words.ts';

/** `datestone find WORDS`: entries for what was typed, best first. */
export async function find(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read({ json: 'flag', limit: 'one', batch: 'one' }, argv);
  const limit = limitOf(options.one('limit'));
  const batch = options.one('batch');
  const query = options.words.join(' ');
  if (batch === undefined && query.trim() === '')
    throw new UsageError('find needs words to look for: datestone find brown water');
  if (batch !== undefined && query !== '')
    throw new UsageError(`find takes words or --batch, not both; words given: ${JSON.stringify(query)}`);
  const lines = batch === undefined ? null : await linesOf('--batch', batch);
  const { base } = await loadBase(output.warn);
  const searcher = loadSearcher(base);
  if (lines !== null) {
    for await (const line of lines)
      await output.out(`${JSON.stringify({ query: line, results: search(searcher, line, limit) })}\n`);
    return;
  }
  const results = search(searcher, query, limit);
  if (options.has('json')) await output.out(`${JSON.stringify({ query, results })}\n`);
  else if (results.length === 0)
    await output.out(`nothing found for ${JSON.stringify(query)}; try fewer or other words\n`);
  else await output.out(`${results.flatMap(textOf).join('\n')}\n`);
}

function textOf(result: SearchResult): string[] {
  return [
    ...wrap(result.title, 100),
    ...wrap(`${result.kind} ${result.id}`, 100, '    '),
    ...wrap(result.answer, 100, '    '),
  ];
}

function limitOf(text: string | undefined): number {
  if (text === undefined) return 10;
  const accepted = 'a whole number from 1 to 100';
  const limit = readNumber('--limit', text, accepted);
  if (!Number.isInteger(limit) || limit < 1 || limit > 100)
    throw new UsageError(refusal('--limit', text, accepted, null));
  return limit;
}
