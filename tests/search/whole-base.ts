import { join } from 'node:path';
import { readKnowledge } from '../../src/knowledge/read.ts';
import { makeIndex } from '../../src/search/make-index.ts';
import { search } from '../../src/search/search.ts';
import type { SearchFile } from '../../src/search/search-file.ts';
import { openIndex } from '../../src/search/searcher.ts';

/** The whole base, indexed, sent and opened as the page does it. */
export const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
export const file: SearchFile = JSON.parse(JSON.stringify(makeIndex(base)));
export const searcher = openIndex(file);

export const idsFor = (query: string, limit = 5): string[] =>
  search(searcher, query, { limit }).map((r) => r.id);
