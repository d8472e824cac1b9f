import type { SearchFile, SearchResult } from '../search/search-file.ts';

export interface SearchPageFile extends SearchFile {
  /** Clue id to the system whose page tells of it. */
  clueSystems: Record<string, string>;
}

export interface SearchRequest {
  id: number;
  index: string;
  query: string;
  /** Chances in the house that was planned last, by id of entry; empty where there is none or it is left aside. */
  odds: [string, number][];
}

/** A result with its address, and its check's, within the site, without the site's own folder. */
export interface SearchHit extends SearchResult {
  path: string;
  checkPath: string | null;
}

export type SearchReply = { id: number } & ({ hits: SearchHit[]; near: string[] } | { failed: string });
