import { type Asked, ask } from './asking.ts';
import { FIELDS, type Field } from './fields.ts';
import { type HouseOdds, oddsWeight } from './house-odds.ts';
import { type Hit, rank } from './ranking.ts';
import type { SearchResult } from './search-file.ts';
import type { Searcher } from './searcher.ts';

export interface SearchOptions {
  /** At most so many results. */
  limit?: number;
  /** Chances in the house that is being looked at: they move the order, by a bounded amount. */
  odds?: HouseOdds;
}

/** Hits that are weighed again; lunr alone ranks the rest away. */
const WEIGHED = 150;

/** Best entries for what was typed, best first. Never throws: nothing typed is read as an operator. */
export function search(searcher: Searcher, query: string, options: SearchOptions = {}): SearchResult[] {
  const asked = ask(searcher, query);
  const { limit = 10, odds } = options;
  const weighed = rank(searcher, asked, hitsOf(searcher, asked)).map((ranked) => {
    const chance = odds?.get(ranked.entry.id) ?? null;
    const moves = chance === null ? 1 : oddsWeight(chance);
    return { ...ranked, score: ranked.score * moves, chance, moves };
  });
  return weighed
    .sort((a, b) => b.score - a.score || (keyOf(a.entry) < keyOf(b.entry) ? -1 : 1))
    .slice(0, limit)
    .map(({ entry, score, matched, chance, moves }) => {
      const { id, kind, title, answer, soon } = entry;
      const check = searcher.entries[entry.check ?? -1];
      return {
        id,
        kind,
        title,
        answer,
        score: Math.round(score * 1000) / 1000,
        soon,
        check: check === undefined ? null : { id: check.id, title: check.title },
        odds: chance,
        moved: moves > 1.02 ? 'up' : moves < 0.98 ? 'down' : null,
        matched,
      };
    });
}

const keyOf = ({ kind, id }: { kind: string; id: string }): string => `${kind}:${id}`;

/** Fields in which a thing is named and told in short. */
const TELLING: Field[] = ['title', 'symptoms', 'also', 'answer'];

/** A word that stands in more places than this share of the entries is looked for where things are named and told in
 * short: in prose it tells nothing apart and costs most of the time. */
const COMMON = 0.12;

function hitsOf(searcher: Searcher, asked: Asked): Hit[] {
  const boosts = new Map<string, number>();
  for (const { answers } of asked.words)
    for (const [word, how] of answers) boosts.set(word, Math.max(how, boosts.get(word) ?? 0));
  const fieldsFor = (word: string): Field[] => {
    const spread = searcher.spread[searcher.numbers.get(word) ?? -1] ?? 0;
    return spread > COMMON * searcher.entries.length ? TELLING : FIELDS;
  };
  // Small talk alone finds nothing: what only means the same does not make a question.
  if (asked.words.every(({ answers }) => answers.size === 0)) return [];
  const found = searcher.index.query((query) => {
    for (const [word, boost] of boosts)
      query.term(word, { boost, fields: fieldsFor(word), usePipeline: false });
    for (const [word, boost] of asked.others)
      if (!boosts.has(word)) query.term(word, { boost, fields: fieldsFor(word), usePipeline: false });
  });
  return found.slice(0, WEIGHED).flatMap(({ ref, score, matchData }): Hit[] => {
    const entry = searcher.entries[Number(ref)];
    return entry === undefined ? [] : [{ entry, score, terms: new Set(Object.keys(matchData.metadata)) }];
  });
}
