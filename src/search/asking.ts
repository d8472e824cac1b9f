import { fold } from './fold.ts';
import type { Searcher } from './searcher.ts';
import { slipsBetween, slipsForgiven } from './slips.ts';
import { foldedWords, formsOf, tellingWords, wordsOf } from './words.ts';

/** A word as typed, and the words of the index that answer it, each with how well: 1 is the word itself. */
export interface AskedWord {
  typed: string;
  answers: Map<string, number>;
}

export interface Asked {
  words: AskedWord[];
  /** Words of phrases that mean the same as one that was typed: they help to find, but nothing is held to them. */
  others: Map<string, number>;
  /** Neighbouring words of the question, folded. */
  pairs: Set<string>;
}

/** How well a word answers that only begins as typed, or is typed with one slip, or means the same. */
const BEGINS = 0.3;
const SLIPPED = 0.6;
const MEANS_SAME = 0.25;

/** Words that a beginning may stand for, and words that a slip may have been meant for, at most. */
const BEGINNINGS = 20;
const SLIPS = 3;

/** Words of other phrases that are looked for, at most: the rarest, which tell most and cost least. */
const OTHERS = 14;

/** What of a question is looked for. Long ones are cut: past the first words little is left to tell entries apart. */
export function ask(searcher: Searcher, query: string): Asked {
  const typed = wordsOf(query.slice(0, 400));
  const telling = tellingWords(typed).slice(0, 24);
  const last = typed.at(-1);
  const words = telling.map((word) => ({
    typed: word,
    answers: answersTo(searcher, word, word === last),
  }));
  const folded = telling.map(fold);
  return {
    words,
    others: sameMeaning(searcher, ` ${foldedWords(query.slice(0, 400)).join(' ')} `),
    pairs: new Set(folded.slice(1).map((word, i) => `${folded[i] ?? ''} ${word}`)),
  };
}

function answersTo(searcher: Searcher, word: string, isLast: boolean): Map<string, number> {
  const answers = new Map<string, number>();
  for (const form of formsOf(word)) if (searcher.numbers.has(form)) answers.set(form, 1);
  if (isLast && word.length >= 2 && !/^\d+$/.test(word))
    for (const beginning of beginningWith(searcher, word))
      if (!answers.has(beginning)) answers.set(beginning, BEGINS);
  if (answers.size === 0)
    for (const { word: meant, slips } of slippedFrom(searcher, fold(word)))
      answers.set(meant, SLIPPED / slips);
  return answers;
}

/** Words of the index that begin so, the most widespread first. */
function beginningWith(searcher: Searcher, start: string): string[] {
  const { words, indexed, spread } = searcher;
  const found: number[] = [];
  for (let i = firstFrom(words, indexed, start); i < indexed && words[i]?.startsWith(start); i++)
    found.push(i);
  return found
    .sort((a, b) => (spread[b] ?? 0) - (spread[a] ?? 0) || a - b)
    .slice(0, BEGINNINGS)
    .map((i) => words[i] ?? '');
}

/** The place of the first word that does not stand before `start`. */
function firstFrom(words: readonly string[], count: number, start: string): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((words[middle] ?? '') < start) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Words that may have been meant, the fewest slips first. The first letter is taken to be right: it mostly is,
 * and to doubt it costs twenty times the looking. */
function slippedFrom(searcher: Searcher, word: string): { word: string; slips: number }[] {
  const most = slipsForgiven(word.length);
  if (most === 0 || /\d/.test(word)) return [];
  const { words, indexed, spread } = searcher;
  const letter = word.slice(0, 1);
  const found: { word: string; slips: number; spread: number }[] = [];
  for (let i = firstFrom(words, indexed, letter); i < indexed && words[i]?.startsWith(letter); i++) {
    const meant = words[i] ?? '';
    const slips = slipsBetween(word, meant, most);
    if (slips <= most) found.push({ word: meant, slips, spread: spread[i] ?? 0 });
  }
  return found.sort((a, b) => a.slips - b.slips || b.spread - a.spread).slice(0, SLIPS);
}

/** Words of the other phrases of every group of which the question holds a phrase. */
function sameMeaning(searcher: Searcher, question: string): Map<string, number> {
  const others = new Map<string, number>();
  for (const { keys, phrases } of searcher.groups) {
    const held = keys.findIndex((key) => key.trim() !== '' && question.includes(key));
    if (held < 0) continue;
    for (const [i, phrase] of phrases.entries())
      if (i !== held)
        for (const word of phrase)
          if (searcher.numbers.has(word) && !phrases[held]?.includes(word))
            others.set(word, Math.max(others.get(word) ?? 0, MEANS_SAME / phrase.length));
  }
  const spread = (word: string): number => searcher.spread[searcher.numbers.get(word) ?? -1] ?? 0;
  return new Map([...others].sort(([a], [b]) => spread(a) - spread(b) || (a < b ? -1 : 1)).slice(0, OTHERS));
}
