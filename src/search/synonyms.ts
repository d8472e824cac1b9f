import type { Base } from '../../knowledge/schema/base.ts';
import { foldedWords } from './words.ts';

/** Finds which groups of same-meaning words a text speaks of. */
export interface Synonyms {
  /** All phrases of the groups of which the text holds one whole phrase. */
  of(text: string): string[];
}

export function synonymsOf(terms: Base['terms']): Synonyms {
  const groups = terms.map(({ term, same }) => {
    const phrases = [term, ...same];
    return { phrases, keys: phrases.map(key).filter((k) => k.trim() !== '') };
  });
  return {
    of(text) {
      const within = key(text);
      return groups
        .filter(({ keys }) => keys.some((k) => within.includes(k)))
        .flatMap(({ phrases }) => phrases);
    },
  };
}

/** Folded words with a blank at both ends, so that a phrase matches whole words only. */
const key = (text: string): string => ` ${foldedWords(text).join(' ')} `;
