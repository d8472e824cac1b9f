import { fold } from './fold.ts';
import { slipsBetween, slipsForgiven } from './slips.ts';
import { formsOf, wordsOf } from './words.ts';

/** A stretch of a text, and whether it is a word that was asked for. */
export interface Stretch {
  text: string;
  hit: boolean;
}

/** Cuts a text where words stand that were asked for: the same word, one that begins so, or one that is a slip
 * away. The stretches together are the text. */
export function highlight(text: string, matched: readonly string[]): Stretch[] {
  const asked = matched.map((word) => ({ word, forms: formsOf(word) }));
  const isHit = (written: string): boolean =>
    wordsOf(written).some((word) =>
      asked.some(
        ({ word: typed, forms }) =>
          forms.includes(fold(word)) ||
          (typed.length >= 3 && word.startsWith(typed)) ||
          slipsBetween(fold(typed), fold(word), slipsForgiven(typed.length)) <= slipsForgiven(typed.length),
      ),
    );
  const stretches: Stretch[] = [];
  for (const part of text.split(/([\p{L}\p{N}'’]+)/u)) {
    if (part === '') continue;
    const hit = asked.length > 0 && isHit(part);
    const last = stretches.at(-1);
    if (last !== undefined && last.hit === hit) last.text += part;
    else stretches.push({ text: part, hit });
  }
  return stretches;
}
