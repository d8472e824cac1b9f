import type { SearchKind, SearchResult } from './search-file.ts';

/** Results of one kind, best first; kinds stand in the order of their best result. */
export interface ResultGroup<T> {
  kind: SearchKind;
  results: T[];
}

export function byKind<T extends Pick<SearchResult, 'kind'>>(results: readonly T[]): ResultGroup<T>[] {
  const groups: ResultGroup<T>[] = [];
  for (const result of results) {
    const group = groups.find(({ kind }) => kind === result.kind);
    if (group === undefined) groups.push({ kind: result.kind, results: [result] });
    else group.results.push(result);
  }
  return groups;
}
