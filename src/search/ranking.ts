import type { Asked } from './asking.ts';
import type { FiledEntry, SearchKind } from './search-file.ts';
import type { Searcher } from './searcher.ts';

/** What is looked for first: how a thing fails; then what it is; then how to look and what to ask. */
const KIND_WEIGHT: Record<SearchKind, number> = {
  failure: 1,
  system: 0.85,
  material: 0.8,
  check: 0.7,
  era: 0.6,
  paper: 0.5,
  question: 0.5,
  clue: 0.5,
};

/** What is left of a hit that answers none of the words, how much a like name and a fitting system add. */
const NO_WORD = 0.3;
const LIKE_NAME = 1.5;
const FITTING_SYSTEM = 1.5;

/** Hits among which the system that is spoken of is looked for. */
const SPOKEN = 20;

export interface Hit {
  entry: FiledEntry;
  /** lunr's score, and the words of the index it was found by. */
  score: number;
  terms: ReadonlySet<string>;
}

export interface Ranked {
  entry: FiledEntry;
  score: number;
  matched: string[];
}

/** Weighs hits again by what lunr has no eye for: how many of the words, rare ones most, an entry answers, whether
 * it is called what was asked, what kind it is, and whether its system is the one that the best hits speak of. */
export function rank(searcher: Searcher, asked: Asked, hits: readonly Hit[]): Ranked[] {
  const share = answeredShare(searcher, asked);
  const likeness = likenessOf(searcher, asked);
  const ranked = hits.map(({ entry, score, terms }) => {
    const { answered, matched } = share(terms);
    const weight = (NO_WORD + (1 - NO_WORD) * answered) * (1 + LIKE_NAME * likeness(entry));
    return { entry, score: score * weight * KIND_WEIGHT[entry.kind], matched };
  });
  const best = ranked.toSorted((a, b) => b.score - a.score).slice(0, SPOKEN);
  const total = best.reduce((sum, { score }) => sum + score, 0);
  const spoken = new Map<string, number>();
  for (const { entry, score } of best)
    if (entry.system !== null) spoken.set(entry.system, (spoken.get(entry.system) ?? 0) + score / total);
  return ranked.map((hit) => ({
    ...hit,
    score: hit.score * (1 + FITTING_SYSTEM * (spoken.get(hit.entry.system ?? '') ?? 0)),
  }));
}

/** The share of what was asked that words of an entry answer; a rare word is a larger share. */
function answeredShare(
  searcher: Searcher,
  asked: Asked,
): (terms: ReadonlySet<string>) => { answered: number; matched: string[] } {
  const rarity = (word: string): number => {
    const number = searcher.numbers.get(word);
    const spread = number === undefined ? 0 : (searcher.spread[number] ?? 0);
    return Math.log(1 + searcher.entries.length / (1 + spread));
  };
  const words = asked.words.map(({ typed, answers }) => ({
    typed,
    answers: [...answers],
    // A word that stands nowhere is more likely small talk or a slip past mending than the point of the question.
    weight: answers.size === 0 ? 0.3 : Math.max(...[...answers.keys()].map(rarity)),
  }));
  const total = words.reduce((sum, { weight }) => sum + weight, 0);
  return (terms) => {
    let answered = 0;
    const matched: string[] = [];
    for (const { typed, answers, weight } of words) {
      const best = answers.reduce((most, [word, how]) => (terms.has(word) ? Math.max(most, how) : most), 0);
      if (best > 0) matched.push(typed);
      answered += weight * best;
    }
    return { answered: total === 0 ? 0 : answered / total, matched };
  };
}

/** How like a name of an entry is to what was asked, 0 to 1.5: the share of words that the two have in common, and
 * more if they stand side by side. "Brown water in the morning" is more like "brown water" than a page that speaks
 * of brown pipe and, elsewhere, of water. */
function likenessOf(searcher: Searcher, asked: Asked): (entry: FiledEntry) => number {
  const wanted = new Map<number, number>();
  for (const { answers } of asked.words)
    for (const [word, how] of answers) {
      const number = searcher.numbers.get(word);
      if (number !== undefined) wanted.set(number, Math.max(how, wanted.get(number) ?? 0));
    }
  const count = asked.words.filter(({ answers }) => answers.size > 0).length;
  const mostPairs = Math.min(3, asked.pairs.size);
  const text = (word: number | undefined): string => searcher.words[word ?? -1] ?? '';
  const alike = (name: readonly number[]): number => {
    let shared = 0;
    let apart = 0;
    let pairs = 0;
    for (const [i, word] of name.entries()) {
      const how = wanted.get(word);
      const again = name.indexOf(word) < i;
      if (how === undefined) apart += again ? 0 : 1;
      else {
        shared += again ? 0 : how;
        if (i > 0 && wanted.has(name[i - 1] ?? -1) && asked.pairs.has(`${text(name[i - 1])} ${text(word)}`))
          pairs += 1;
      }
    }
    if (shared === 0) return 0;
    return shared / (count + apart) + (mostPairs === 0 ? 0 : 0.5 * Math.min(1, pairs / mostPairs));
  };
  return (entry) => entry.names.reduce((most, name) => Math.max(most, alike(name)), 0);
}
