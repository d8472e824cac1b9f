import { create, insertMultiple, save, search as searchOrama } from '@orama/orama';
import { Document } from 'flexsearch';
import Fuse from 'fuse.js';
import lunr from 'lunr';
import MiniSearch from 'minisearch';
import { FIELDS, type FieldTexts, WEIGHTS } from '../../../src/search/fields.ts';

/** A search library over the same fields, the same weights and the same synonym field as ours. */
export interface Rival {
  name: string;
  /** Ids of entries, best first. */
  find(query: string): string[];
  /** The index as it would be sent. */
  bytes: string;
}

export interface RivalEntry extends FieldTexts {
  id: string;
}

const MOST = 10;

/** Every rival set for this use: any word, beginnings and slips where it has them. Of the settings that were tried,
 * the ones that did best here stand (docs/search.md). */
export function rivals(entries: RivalEntry[]): Rival[] {
  return [plainLunr(entries), miniSearch(entries), flexSearch(entries), fuse(entries), orama(entries)];
}

function plainLunr(entries: RivalEntry[]): Rival {
  const index = lunr(function () {
    this.ref('id');
    for (const field of FIELDS) this.field(field, { boost: WEIGHTS[field] });
    for (const entry of entries) this.add(entry);
  });
  return {
    name: 'lunr, plain',
    // Its operators would throw on what people type, so they are taken out, as a page has to.
    find: (query) =>
      index
        .search(query.replace(/[-+~^:*]/g, ' '))
        .slice(0, MOST)
        .map((hit) => hit.ref),
    bytes: JSON.stringify(index),
  };
}

function miniSearch(entries: RivalEntry[]): Rival {
  const index = new MiniSearch<RivalEntry>({
    fields: FIELDS,
    searchOptions: {
      boost: { ...WEIGHTS },
      prefix: (_, i, words) => i === words.length - 1,
      fuzzy: (word) => (word.length > 4 ? 0.2 : false),
    },
  });
  index.addAll(entries);
  return {
    name: 'minisearch 7.2.0',
    find: (query) =>
      index
        .search(query)
        .slice(0, MOST)
        .map((hit) => String(hit.id)),
    bytes: JSON.stringify(index),
  };
}

/** It has no weights and no scores: fields are asked in order of weight and their lists merged by rank. */
function flexSearch(entries: RivalEntry[]): Rival {
  const index = new Document({
    document: { id: 'id', index: FIELDS.map((field) => ({ field, tokenize: 'forward' as const })) },
  });
  for (const entry of entries) index.add({ ...entry });
  const parts: string[] = [];
  index.export((key: string, data: string) => {
    parts.push(`${key}${data}`);
  });
  return {
    name: 'flexsearch 0.8.212',
    find: (query) => {
      const scores = new Map<string, number>();
      for (const { field, result } of index.search(query, { limit: 50, suggest: true }))
        result.forEach((id, rank) => {
          const weight = FIELDS.find((name) => name === field);
          const gain = (weight === undefined ? 1 : WEIGHTS[weight]) / (10 + rank);
          scores.set(String(id), (scores.get(String(id)) ?? 0) + gain);
        });
      return [...scores]
        .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
        .slice(0, MOST)
        .map(([id]) => id);
    },
    bytes: parts.join('\n'),
  };
}

function fuse(entries: RivalEntry[]): Rival {
  const keys = FIELDS.map((name) => ({ name, weight: WEIGHTS[name] }));
  const index = new Fuse(entries, { keys, ignoreLocation: true, useTokenSearch: true });
  return {
    name: 'fuse.js 7.5.0',
    find: (query) => index.search(query, { limit: MOST }).map((hit) => hit.item.id),
    bytes: JSON.stringify(Fuse.createIndex(FIELDS, entries).toJSON()) + JSON.stringify(entries),
  };
}

function orama(entries: RivalEntry[]): Rival {
  const schema = Object.fromEntries(FIELDS.map((field) => [field, 'string' as const]));
  const index = create({ schema });
  insertMultiple(index, entries);
  return {
    name: 'orama 3.1.18',
    find: (query) => {
      const found = searchOrama(index, { term: query, boost: { ...WEIGHTS }, tolerance: 1, limit: MOST });
      return 'hits' in found ? found.hits.map((hit) => String(hit.id)) : [];
    },
    bytes: JSON.stringify(save(index)),
  };
}
