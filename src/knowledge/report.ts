import type { Base, Finding } from '../../knowledge/schema/base.ts';

/** Kinds of entry in the order in which they are counted. */
export const KINDS = [
  'systems',
  'materials',
  'failures',
  'checks',
  'eras',
  'clues',
  'questions',
  'papers',
  'sources',
  'terms',
  'chains',
  'rulesThen',
] as const;

/** How many entries of each kind there are; places are the states. `rulesThen` counts rules and customs by year. */
export function countsOf(base: Base): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const kind of KINDS) counts[kind] = base[kind].length;
  counts.places = base.places.states.length;
  return counts;
}

const WORDS: Record<string, string> = { rulesThen: 'rules then' };

/** The word for a kind in a printed count. */
export const wordOf = (kind: string): string => WORDS[kind] ?? kind;

export function countLine(base: Base): string {
  return Object.entries(countsOf(base))
    .map(([kind, count]) => `${count} ${wordOf(kind)}`)
    .join(', ');
}

/** A finding in two lines: where, then what and what to do. */
export function findingLines(finding: Finding): string {
  const where = finding.field === '' ? finding.file : `${finding.file} ${finding.field}`;
  return `${finding.rule}: ${where}\n    ${finding.problem}; ${finding.fix}`;
}
