import lunr from 'lunr';
import type { SearchEntry, SearchFile, SearchKind, SearchResult } from './search-file.ts';
import { fold, formsOf, isStopWord, wordsOf } from './words.ts';

/** A search index ready to be asked. */
export interface Searcher {
  index: lunr.Index;
  entries: SearchEntry[];
}

export function openIndex(file: SearchFile): Searcher {
  return { index: lunr.Index.load(file.index), entries: file.entries };
}

/** What is looked for first: how a thing fails and what it is; then how to look; then what to ask. */
const KIND_WEIGHT: Record<SearchKind, number> = {
  failure: 1,
  material: 0.95,
  system: 0.85,
  check: 0.7,
  era: 0.6,
  paper: 0.5,
  question: 0.5,
  clue: 0.45,
};

/** Letters a word needs before a slip in it is forgiven. */
const SLIP_FROM = 5;

/** Best entries for what was typed, best first. Never throws: nothing typed is read as an operator. */
export function search(searcher: Searcher, query: string, limit = 10): SearchResult[] {
  const typed = wordsOf(query.slice(0, 400));
  const telling = typed.filter((word) => !isStopWord(word));
  const words = [...new Set(telling.length > 0 ? telling : typed)].slice(0, 24);
  if (words.length === 0) return [];
  const last = typed.at(-1) ?? '';
  const asked = words.map((word) => ({ word, clauses: clausesOf(searcher.index, word, word === last) }));
  const found = searcher.index.query((q) => {
    for (const { clauses } of asked) for (const { term, ...how } of clauses) q.term(term, how);
  });
  return found
    .flatMap((hit): SearchResult[] => {
      const entry = searcher.entries[Number(hit.ref)];
      if (entry === undefined) return [];
      const terms = Object.keys(hit.matchData.metadata);
      const met = asked.filter(({ word, clauses }) =>
        terms.some((term) => answers(term, word, clauses)),
      ).length;
      const share = met / asked.length;
      return [{ ...entry, score: hit.score * (0.3 + 0.7 * share) * KIND_WEIGHT[entry.kind] }];
    })
    .sort((a, b) => b.score - a.score || (`${a.kind}:${a.id}` < `${b.kind}:${b.id}` ? -1 : 1))
    .slice(0, limit)
    .map((result) => ({ ...result, score: Math.round(result.score * 1000) / 1000 }));
}

interface Clause {
  term: string;
  boost: number;
  wildcard?: lunr.Query.wildcard;
  editDistance?: number;
  usePipeline: false;
}

/** The word itself; what it folds to; as the beginning of a word if it may be half typed; with a slip
 * forgiven if it is met nowhere. */
function clausesOf(index: lunr.Index, word: string, isLast: boolean): Clause[] {
  const [whole = word, ...folded] = formsOf(word);
  const clauses: Clause[] = [
    { term: whole, boost: 10, usePipeline: false },
    ...folded.map((term): Clause => ({ term, boost: 6, usePipeline: false })),
  ];
  const known = index.query((q) => {
    for (const { term } of clauses) q.term(term, { usePipeline: false });
  });
  if (isLast && word.length >= 2 && !/^\d+$/.test(word))
    clauses.push({ term: word, boost: 2, wildcard: lunr.Query.wildcard.TRAILING, usePipeline: false });
  if (known.length === 0 && word.length >= SLIP_FROM)
    clauses.push({ term: word, boost: 4, editDistance: 1, usePipeline: false });
  return clauses;
}

/** Does a word of the index answer a word that was asked? */
function answers(term: string, word: string, clauses: Clause[]): boolean {
  if (clauses.some((clause) => clause.wildcard === undefined && clause.term === term)) return true;
  if (clauses.some((clause) => clause.wildcard !== undefined && term.startsWith(clause.term))) return true;
  const forgiving = clauses.some((clause) => clause.editDistance !== undefined);
  return forgiving && Math.abs(term.length - word.length) <= 1 && fold(term)[0] === fold(word)[0];
}
