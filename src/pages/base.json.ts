import { compactBase } from '../site/compact.ts';
import { base } from '../site/knowledge.ts';

/** The knowledge base for planning in the browser. */
export function GET(): Response {
  return new Response(JSON.stringify(compactBase(base)), {
    headers: { 'content-type': 'application/json; charset=utf-8' },
  });
}
