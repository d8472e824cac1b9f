import { makeIndex } from '../search/make-index.ts';
import type { SearchPageFile } from '../search-page/protocol.ts';
import { base } from '../site/knowledge.ts';

/** The search index, fetched by the search page's worker, with the system that each clue is shown under. */
export function GET(): Response {
  const file: SearchPageFile = {
    ...makeIndex(base),
    clueSystems: Object.fromEntries(base.clues.map((c) => [c.id, c.system])),
  };
  return new Response(JSON.stringify(file), {
    headers: { 'content-type': 'application/json; charset=utf-8' },
  });
}
