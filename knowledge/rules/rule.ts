import type { Base, Finding } from '../schema/base.ts';

/** A rule that the whole base must satisfy. */
export interface Rule {
  name: string;
  /** What must hold, in one sentence. */
  must: string;
  run(base: Base): Omit<Finding, 'rule'>[];
}

/** Where an entry of a kind is written. */
export function fileOf(kind: string, id: string): string {
  const inOwnFile = ['systems', 'materials', 'failures', 'checks', 'eras'].includes(kind);
  if (kind === 'chains') return `knowledge/chains.yaml (entry ${id})`;
  if (kind === 'rulesThen') return `knowledge/rules-then.yaml (entry ${id})`;
  return inOwnFile ? `knowledge/${kind}/${id}.mdx` : `knowledge/${kind}/ (entry ${id})`;
}

/** Kinds of entries that hold prose of ours (sources keep their own titles). */
export const WRITTEN_KINDS = [
  'systems',
  'materials',
  'failures',
  'checks',
  'eras',
  'clues',
  'questions',
  'papers',
  'chains',
  'rulesThen',
] as const;
