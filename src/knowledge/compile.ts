import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Base, Finding } from '../../knowledge/schema/base.ts';

/** The knowledge, compiled: what was read, what is wrong with it, and which files it was made of. */
export interface Compiled {
  /** Hash of the names and contents of all files under knowledge/ and of the code that reads them. */
  key: string;
  base: Base;
  findings: Finding[];
}

const ROOT = join(import.meta.dirname, '../..');
const KNOWLEDGE = join(ROOT, 'knowledge');
const KEPT = join(ROOT, '.cache/base.json');

/** Compiles the knowledge, or takes what was compiled before if no file has changed since. */
export async function compileBase(): Promise<Compiled> {
  const key = keyOf();
  const kept = readKept(key);
  if (kept !== null) return kept;
  // Readers and schemas are loaded only when they are needed: a command on a compiled base stays quick.
  const { readKnowledge } = await import('./read.ts');
  const { checkBase } = await import('../../knowledge/rules/check-base.ts');
  const { base, findings } = readKnowledge(KNOWLEDGE);
  const compiled: Compiled = { key, base, findings: [...findings, ...checkBase(base)] };
  keep(compiled);
  return compiled;
}

function keyOf(): string {
  const hash = createHash('sha256');
  hash.update(readFileSync(join(import.meta.dirname, 'read.ts')));
  const files = readdirSync(KNOWLEDGE, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  for (const file of files) hash.update(`\0${file.slice(KNOWLEDGE.length)}\0`).update(readFileSync(file));
  return hash.digest('hex').slice(0, 32);
}

function readKept(key: string): Compiled | null {
  try {
    const kept: Compiled = JSON.parse(readFileSync(KEPT, 'utf8'));
    return kept.key === key ? kept : null;
  } catch {
    return null;
  }
}

/** Written beside and moved into place, so that two runs at once never read half a file. A folder that
 * can't be written only costs the next run its time. */
function keep(compiled: Compiled): void {
  try {
    mkdirSync(dirname(KEPT), { recursive: true });
    const beside = `${KEPT}.${process.pid}`;
    writeFileSync(beside, JSON.stringify(compiled));
    renameSync(beside, KEPT);
  } catch {
    return;
  }
}
