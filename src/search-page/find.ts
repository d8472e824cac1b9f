import { nearTerms } from '../search/near.ts';
import { search } from '../search/search.ts';
import type { SearchKind } from '../search/search-file.ts';
import { openIndex, type Searcher } from '../search/searcher.ts';
import type { SearchHit, SearchPageFile, SearchReply, SearchRequest } from './protocol.ts';

const MOST = 30;

interface Opened {
  searcher: Searcher;
  clueSystems: Record<string, string>;
}

let opening: { address: string; opened: Promise<Opened> } | null = null;

/** Answers a request; the index is fetched and opened once, on the first one. */
export async function answer(request: SearchRequest): Promise<SearchReply> {
  const { id, index, query, odds } = request;
  try {
    const { searcher, clueSystems } = await openedFrom(index);
    const results = search(searcher, query, { limit: MOST, odds: new Map(odds) });
    const hits = results.map((result): SearchHit => {
      const check = result.check === null ? null : pathOf('check', result.check.id, clueSystems);
      return { ...result, path: pathOf(result.kind, result.id, clueSystems), checkPath: check };
    });
    return { id, hits, near: hits.length === 0 ? nearTerms(searcher, query) : [] };
  } catch (error) {
    opening = null;
    return { id, failed: error instanceof Error ? error.message : String(error) };
  }
}

function openedFrom(address: string): Promise<Opened> {
  if (opening?.address !== address) opening = { address, opened: open(address) };
  return opening.opened;
}

async function open(address: string): Promise<Opened> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`the index did not load (${response.status})`);
  const file: SearchPageFile = await response.json();
  return { searcher: openIndex(file), clueSystems: file.clueSystems };
}

function pathOf(kind: SearchKind, id: string, clueSystems: Record<string, string>): string {
  const name = encodeURIComponent(id);
  switch (kind) {
    case 'system':
    case 'material':
    case 'failure':
    case 'check':
    case 'era':
      return `/${kind}s/${name}/`;
    case 'question':
      return `/questions/#ask-${name}`;
    case 'paper':
      return `/questions/#paper-${name}`;
    case 'clue':
      return `/systems/${encodeURIComponent(clueSystems[id] ?? '')}/#clue-${name}`;
  }
}
