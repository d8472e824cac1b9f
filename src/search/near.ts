import type { Searcher } from './searcher.ts';

const MOST = 6;

/** Terms of the base that look like what was typed, for when nothing is found: those that share most of their
 * three-letter pieces. */
export function nearTerms(searcher: Searcher, query: string): string[] {
  const typed = piecesOf(query.slice(0, 200));
  if (typed.size === 0) return [];
  return searcher.terms
    .map((term) => ({ term, likeness: likeness(typed, piecesOf(term)) }))
    .filter(({ likeness }) => likeness >= 0.2)
    .sort((a, b) => b.likeness - a.likeness || (a.term < b.term ? -1 : 1))
    .slice(0, MOST)
    .map(({ term }) => term);
}

function piecesOf(text: string): Set<string> {
  const letters = text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();
  const padded = ` ${letters} `;
  return letters === ''
    ? new Set()
    : new Set(Array.from({ length: padded.length - 2 }, (_, i) => padded.slice(i, i + 3)));
}

function likeness(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  let shared = 0;
  for (const piece of a) if (b.has(piece)) shared += 1;
  return (2 * shared) / Math.max(1, a.size + b.size);
}
