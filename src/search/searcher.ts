import type lunr from 'lunr';
import { lunrIndexOf } from './packing.ts';
import type { FiledEntry, SearchFile } from './search-file.ts';

/** A search index ready to be asked. */
export interface Searcher {
  index: lunr.Index;
  entries: FiledEntry[];
  /** Words by number; those from `indexed` on stand in no entry. */
  words: string[];
  indexed: number;
  /** Numbers by word, of indexed words. */
  numbers: Map<string, number>;
  /** In how many entries each indexed word stands. */
  spread: number[];
  /** Groups of phrases that mean the same, each phrase as words with a blank at both ends. */
  groups: { keys: string[]; phrases: string[][] }[];
  terms: string[];
}

export function openIndex(file: SearchFile): Searcher {
  const indexed = file.words === '' ? [] : file.words.split(' ');
  const words = [...indexed, ...(file.otherWords === '' ? [] : file.otherWords.split(' '))];
  const spread = indexed.map(() => 0);
  for (const lists of Object.values(file.fields))
    for (const list of lists) {
      let word = 0;
      for (const step of list) {
        word += step;
        spread[word] = (spread[word] ?? 0) + 1;
      }
    }
  return {
    index: lunrIndexOf(file),
    entries: file.entries,
    words,
    indexed: indexed.length,
    numbers: new Map(indexed.map((word, i) => [word, i])),
    spread,
    groups: file.groups.map((group) => {
      const phrases = group.map((phrase) => phrase.map((word) => words[word] ?? ''));
      return { keys: phrases.map((phrase) => ` ${phrase.join(' ')} `), phrases };
    }),
    terms: file.terms,
  };
}
