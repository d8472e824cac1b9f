import { oddsInWords } from '../../planner/condition/odds-words.ts';
import { loadBase } from '../knowledge/load.ts';
import { type HouseOdds, oddsOf } from '../search/house-odds.ts';
import { loadSearcher } from '../search/load.ts';
import { nearTerms } from '../search/near.ts';
import { search } from '../search/search.ts';
import type { SearchResult } from '../search/search-file.ts';
import type { Searcher } from '../search/searcher.ts';
import { SOON_WORDS } from '../site/words.ts';
import { HOUSE_OPTIONS, houseFrom } from './house-options.ts';
import { linesOf } from './lines.ts';
import { Options, readNumber } from './options.ts';
import type { Output } from './output.ts';
import { houseFile, planFor, wordsOf } from './plan.ts';
import { refusal, UsageError } from './usage-error.ts';
import { lowerFirst, wrap } from './words.ts';

const OWN = ['json', 'limit', 'batch'];

interface Answer {
  query: string;
  results: SearchResult[];
  /** Terms like what was typed, where nothing was found. */
  near?: string[];
}

/** `datestone find WORDS`: entries for what was typed, best first. */
export async function find(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read(
    { ...HOUSE_OPTIONS, house: 'one', json: 'flag', limit: 'one', batch: 'one' },
    argv,
  );
  const limit = limitOf(options.one('limit'));
  const batch = options.one('batch');
  const query = options.words.join(' ');
  if (batch === undefined && query.trim() === '')
    throw new UsageError('find needs words to look for: datestone find brown water');
  if (batch !== undefined && query !== '')
    throw new UsageError(`find takes words or --batch, not both; words given: ${JSON.stringify(query)}`);
  const lines = batch === undefined ? null : await linesOf('--batch', batch);
  const { base } = await loadBase((line) => output.warn(line));
  const house = options.given.some((name) => !OWN.includes(name))
    ? houseFrom(wordsOf(options), await houseFile(options.one('house')), new Date().getFullYear())
    : null;
  const odds = house === null ? undefined : oddsOf(planFor(base, house));
  const searcher = loadSearcher(base);
  if (lines !== null) {
    for await (const line of lines)
      await output.out(`${JSON.stringify(answerTo(searcher, line, limit, odds))}\n`);
    return;
  }
  const answer = answerTo(searcher, query, limit, odds);
  await output.out(options.has('json') ? `${JSON.stringify(answer)}\n` : textOf(answer, odds !== undefined));
}

function answerTo(searcher: Searcher, query: string, limit: number, odds: HouseOdds | undefined): Answer {
  const results = search(searcher, query, { limit, ...(odds === undefined ? {} : { odds }) });
  return results.length > 0 ? { query, results } : { query, results, near: nearTerms(searcher, query) };
}

function textOf({ query, results, near = [] }: Answer, housed: boolean): string {
  if (results.length === 0) {
    const like = near.length === 0 ? '' : `; terms like it: ${near.join(', ')}`;
    return `nothing found for ${JSON.stringify(query)}; try fewer or other words${like}\n`;
  }
  const note = housed ? ['ranked with the odds in this house, which move an entry by a quarter at most'] : [];
  return `${[...note, ...results.flatMap(linesOfResult)].join('\n')}\n`;
}

function linesOfResult({ kind, id, title, answer, soon, check, odds, moved }: SearchResult): string[] {
  const facts = [
    ...(soon === null ? [] : [lowerFirst(SOON_WORDS[soon].title)]),
    ...(odds === null ? [] : [`here ${oddsInWords(odds)}${moved === null ? '' : `, so moved ${moved}`}`]),
    ...(check === null ? [] : [`to confirm: ${lowerFirst(check.title)} (${check.id})`]),
  ];
  return [
    ...wrap(title, 100),
    ...wrap(`${kind} ${id}`, 100, '    '),
    ...wrap(answer, 100, '    '),
    ...(facts.length === 0 ? [] : wrap(facts.join('; '), 100, '    ')),
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
