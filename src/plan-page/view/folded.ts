import { h, type Mark } from '../../markup/h.ts';

/** The tail of a list: folded, or only its count where the tail itself is left out. */
export function folded(key: string, words: string | null, content: Mark | null): Mark | null {
  if (words === null) return null;
  if (content === null) return h('p', { class: 'tail quiet' }, words);
  return h('details', { 'data-key': key }, h('summary', {}, words), content);
}
