import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

export const base: Base = readKnowledge(join(import.meta.dirname, '../../knowledge')).base;

/** The entry of that id; a test that asks for one that is not there fails with its name. */
export function entry<T extends { id: string }>(list: T[], id: string): T {
  const found = list.find((e) => e.id === id);
  if (found === undefined) throw new Error(`the base has no entry "${id}"`);
  return found;
}

/** All prose of an entry, to look for what it says. */
export function proseOf(value: unknown): string {
  if (typeof value === 'string') return value;
  if (Array.isArray(value)) return value.map(proseOf).join('\n');
  if (typeof value === 'object' && value !== null) return Object.values(value).map(proseOf).join('\n');
  return '';
}
