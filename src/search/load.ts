import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { makeIndex } from './make-index.ts';
import type { SearchFile } from './search-file.ts';
import { openIndex, type Searcher } from './searcher.ts';

const KEPT = join(import.meta.dirname, '../../.cache/search.json');

/** Kept indexes are told apart by the base and by the code that cuts words and weighs fields. */
const CODE = ['words.ts', 'fold.ts', 'documents.ts', 'fields.ts', 'synonyms.ts', 'make-index.ts'];

/** The search index of a base, made once and kept until the base or the way of indexing changes. */
export function loadSearcher(base: Base): Searcher {
  const code = createHash('sha256');
  for (const file of CODE) code.update(readFileSync(join(import.meta.dirname, file)));
  const key = `${base.hash} ${code.digest('hex')}`;
  const kept = readKept(key);
  if (kept !== null) return openIndex(kept);
  const file = makeIndex(base);
  keep(key, file);
  return openIndex(file);
}

function readKept(key: string): SearchFile | null {
  try {
    const kept: { key: string; file: SearchFile } = JSON.parse(readFileSync(KEPT, 'utf8'));
    return kept.key === key ? kept.file : null;
  } catch {
    return null;
  }
}

function keep(key: string, file: SearchFile): void {
  try {
    mkdirSync(dirname(KEPT), { recursive: true });
    const beside = `${KEPT}.${process.pid}`;
    writeFileSync(beside, JSON.stringify({ key, file }));
    renameSync(beside, KEPT);
  } catch {
    return;
  }
}
