import { type Child, fold, h, type Mark } from '../../markup/h.ts';

/** The tail of a list: folded, or only its count where the tail itself is left out. What belongs on paper is
 * `whole`: it opens for it. */
export function folded(
  key: string,
  words: string | null,
  content: (() => Child) | null,
  whole = false,
): Mark | null {
  if (words === null) return null;
  if (content === null) return h('p', { class: 'tail quiet' }, words);
  return fold({ 'data-key': key, 'data-whole': whole }, h('summary', {}, words), content);
}
