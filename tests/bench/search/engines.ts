import { gzipSync } from 'node:zlib';
import type { Base } from '../../../knowledge/schema/base.ts';
import { documentsOf } from '../../../src/search/documents.ts';
import { fieldTexts } from '../../../src/search/fields.ts';
import { makeIndex } from '../../../src/search/make-index.ts';
import { search } from '../../../src/search/search.ts';
import { openIndex } from '../../../src/search/searcher.ts';
import { synonymsOf } from '../../../src/search/synonyms.ts';
import { rivals } from './rivals.ts';

export interface Engine {
  name: string;
  /** Ids of the ten best entries, best first. */
  find(query: string): string[];
  kilobytes: number;
  gzipped: number;
}

/** Ours first, then the others over the same fields with the same weights and the same synonyms. */
export function enginesOf(base: Base): Engine[] {
  const file = JSON.stringify(makeIndex(base));
  const searcher = openIndex(JSON.parse(file));
  const synonyms = synonymsOf(base.terms);
  const entries = documentsOf(base).map((d) => ({ id: `${d.kind}:${d.id}`, ...fieldTexts(d, synonyms) }));
  const ours = {
    name: 'ours',
    find: (query: string) => search(searcher, query).map(({ kind, id }) => `${kind}:${id}`),
    bytes: file,
  };
  return [ours, ...rivals(entries)].map(({ name, find, bytes }) => ({
    name,
    // Entries of different kinds may share an id; what is judged is the id.
    find: (query: string) => [...new Set(find(query).map((key) => key.slice(key.indexOf(':') + 1)))],
    kilobytes: Buffer.byteLength(bytes) / 1024,
    gzipped: gzipSync(bytes, { level: 9 }).length / 1024,
  }));
}
