import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';

const JUDGMENTS = join(import.meta.dirname, '../../search/relevance.yaml');

const Judgments = z.strictObject({
  topics: z.record(z.string(), z.strictObject({ 2: z.array(z.string()), 1: z.array(z.string()) })),
  gaps: z.array(z.string()),
});

const Queries = z.array(
  z.object({
    id: z.string(),
    q: z.string(),
    topics: z.array(z.string()),
    specificity: z.string().optional(),
  }),
);

/** A question as people ask it, with the entries that answer it: 2 the entry, 1 close to it. */
export interface JudgedQuery {
  id: string;
  query: string;
  set: 'specific' | 'vague' | 'terse';
  grades: Map<string, number>;
}

export interface Judged {
  queries: JudgedQuery[];
  /** Questions whose topics have nothing in the base, and topics that nobody has judged. */
  gaps: string[];
  unjudged: string[];
}

/** Reads the questions of a folder and what answers them; null where the folder does not hold them. */
export function readJudged(folder: string): Judged | null {
  const paths = ['queries-dev.json', 'queries-terse-dev.json'].map((name) => join(folder, name));
  if (!paths.every((path) => existsSync(path))) return null;
  const { topics, gaps } = Judgments.parse(parse(readFileSync(JUDGMENTS, 'utf8')));
  const judged: Judged = { queries: [], gaps: [], unjudged: [] };
  for (const [i, path] of paths.entries())
    for (const { id, q, topics: asked, specificity } of Queries.parse(
      JSON.parse(readFileSync(path, 'utf8')),
    )) {
      const grades = new Map<string, number>();
      for (const topic of asked) {
        const grading = topics[topic];
        if (grading === undefined) {
          if (!gaps.includes(topic)) judged.unjudged.push(topic);
          continue;
        }
        for (const entry of grading[1]) grades.set(entry, Math.max(1, grades.get(entry) ?? 0));
        for (const entry of grading[2]) grades.set(entry, 2);
      }
      if (grades.size === 0) judged.gaps.push(q);
      else
        judged.queries.push({
          id,
          query: q,
          set: i === 1 ? 'terse' : specificity === 'vague' ? 'vague' : 'specific',
          grades,
        });
    }
  return judged;
}

export interface Marks {
  /** An entry of grade 2 stands first, or among the first five: 0 or 1. */
  first: number;
  five: number;
  /** Normalised discounted cumulative gain of the first ten, gain 2^grade - 1. */
  ndcg: number;
}

/** How well a list of entries, best first, answers a question. */
export function marksOf(found: readonly string[], grades: ReadonlyMap<string, number>): Marks {
  const grade = (id: string | undefined): number => (id === undefined ? 0 : (grades.get(id) ?? 0));
  const gain = (list: readonly number[]): number =>
    list.slice(0, 10).reduce((sum, g, i) => sum + (2 ** g - 1) / Math.log2(i + 2), 0);
  const best = [...grades.values()].sort((a, b) => b - a);
  return {
    first: grade(found[0]) === 2 ? 1 : 0,
    five: found.slice(0, 5).some((id) => grade(id) === 2) ? 1 : 0,
    ndcg: gain(found.map(grade)) / gain(best),
  };
}
