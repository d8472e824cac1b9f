import type { Base, Finding } from '../schema/base.ts';
import { fileOf, type Rule, WRITTEN_KINDS } from './rule.ts';

/** Two entries of a kind share less than this part of their runs of five words. */
export const MOST_SHARED = 0.3;
const RUN = 5;

/** Entries say different things: near copies are one entry, or one of them was never thought through. */
export const overlap: Rule = {
  name: 'overlap',
  must: `No two entries share ${MOST_SHARED} or more of their runs of ${RUN} words (Jaccard).`,
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    const entries = proseOf(base);
    const holders = new Map<string, number[]>();
    entries.forEach(({ runs }, i) => {
      for (const run of runs) holders.set(run, [...(holders.get(run) ?? []), i]);
    });
    const shared = new Map<number, number>();
    for (const holding of holders.values())
      for (const [k, a] of holding.entries())
        for (const b of holding.slice(k + 1)) {
          const pair = a * entries.length + b;
          shared.set(pair, (shared.get(pair) ?? 0) + 1);
        }
    for (const [pair, count] of shared) {
      const one = entries[Math.floor(pair / entries.length)];
      const other = entries[pair % entries.length];
      if (one === undefined || other === undefined) continue;
      const jaccard = count / (one.runs.size + other.runs.size - count);
      if (jaccard >= MOST_SHARED)
        findings.push({
          file: one.file,
          field: '',
          problem: `shares ${Math.round(jaccard * 100)}% of its wording with ${other.file}`,
          fix: 'merge the two, or say what sets each apart',
        });
    }
    return findings;
  },
};

/** Each entry's whole prose as its set of runs of five words. */
function proseOf(base: Base): { file: string; runs: Set<string> }[] {
  return WRITTEN_KINDS.flatMap((kind) =>
    base[kind].map((e) => ({ file: fileOf(kind, e.id), runs: runsOf(e) })),
  ).filter((entry) => entry.runs.size > 0);
}

/** Ids, grades and numbers are no prose: only values with a space in them count. */
function runsOf(entry: unknown): Set<string> {
  const runs = new Set<string>();
  const visit = (value: unknown): void => {
    if (typeof value === 'string') {
      if (!value.includes(' ')) return;
      const words = value.toLowerCase().match(/[a-z0-9']+/g) ?? [];
      for (let i = 0; i + RUN <= words.length; i++) runs.add(words.slice(i, i + RUN).join(' '));
    } else if (Array.isArray(value)) value.forEach(visit);
    else if (typeof value === 'object' && value !== null) Object.values(value).forEach(visit);
  };
  visit(entry);
  return runs;
}
