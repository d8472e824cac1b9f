import type { Base } from '../../knowledge/schema/base.ts';
import { chanceAhead } from './search/bootstrap.ts';
import { type Engine, enginesOf } from './search/engines.ts';
import { type Judged, type JudgedQuery, type Marks, marksOf, readJudged } from './search/judged.ts';

/** Relevance, size and speed of the search beside other libraries, as lines of Markdown. `folder` holds
 * queries-dev.json and queries-terse-dev.json; without them there is nothing to measure, and the lines say so. */
export async function benchSearch(base: Base, folder: string): Promise<string[]> {
  const judged = readJudged(folder);
  if (judged === null)
    return [
      `search: no questions to measure by: ${folder} holds no queries-dev.json and queries-terse-dev.json`,
    ];
  const runs = enginesOf(base).map((engine) => runOf(engine, judged.queries));
  return [
    `### Search: ${judged.queries.length} questions as people ask them`,
    '',
    ...remarks(judged),
    '',
    ...SETS.flatMap((set) => tableOf(set, runs, judged.queries)),
    ...costs(runs),
  ];
}

const SETS = [
  { name: 'all', has: (): boolean => true },
  { name: 'specific', has: (q: JudgedQuery): boolean => q.set === 'specific' },
  { name: 'vague', has: (q: JudgedQuery): boolean => q.set === 'vague' },
  { name: 'terse', has: (q: JudgedQuery): boolean => q.set === 'terse' },
];

/** Each question is asked so often again, and the best time counts. One that took longer than SLOW milliseconds is not
 * asked again. */
const ROUNDS = 4;
const SLOW = 100;

interface Run {
  engine: Engine;
  marks: Marks[];
  /** Milliseconds of processor time for each question, the best of its rounds, rising. */
  times: number[];
}

function runOf(engine: Engine, queries: readonly JudgedQuery[]): Run {
  const marks: Marks[] = [];
  const times: number[] = [];
  const timed = (query: string): { found: string[]; took: number } => {
    const begun = process.cpuUsage();
    const found = engine.find(query);
    const { user, system } = process.cpuUsage(begun);
    return { found, took: (user + system) / 1000 };
  };
  for (const { query, grades } of queries) {
    const { found, took } = timed(query);
    marks.push(marksOf(found, grades));
    const again = took > SLOW ? [] : Array.from({ length: ROUNDS }, () => timed(query).took);
    times.push(Math.min(took, ...again));
  }
  return { engine, marks, times: times.sort((a, b) => a - b) };
}

function remarks({ gaps, unjudged }: Judged): string[] {
  const lines = [
    'Success counts entries judged to be the answer (grade 2); close ones (1) count in nDCG@10.',
  ];
  if (gaps.length > 0) lines.push(`Left out, with nothing in the base that answers: ${gaps.join('; ')}.`);
  if (unjudged.length > 0) lines.push(`Topics nobody has judged: ${[...new Set(unjudged)].join('; ')}.`);
  return lines;
}

function tableOf(set: (typeof SETS)[number], runs: Run[], queries: readonly JudgedQuery[]): string[] {
  const within = queries.flatMap((query, i) => (set.has(query) ? [i] : []));
  if (within.length === 0) return [];
  const column = (run: Run, of: keyof Marks): number[] => within.map((i) => run.marks[i]?.[of] ?? 0);
  const [ours] = runs;
  const ndcg = ours === undefined ? [] : column(ours, 'ndcg');
  return [
    `| ${set.name} (${within.length}) | success@1 | success@5 | nDCG@10 | chance that ours is better on nDCG |`,
    '| --- | --: | --: | --: | --: |',
    ...runs.map((run) => {
      const ahead = run === ours ? '' : chanceAhead(ndcg, column(run, 'ndcg')).toFixed(3);
      const means = (['first', 'five', 'ndcg'] as const).map((of) => mean(column(run, of)).toFixed(3));
      return `| ${[run.engine.name, ...means, ahead].join(' | ')} |`;
    }),
    '',
  ];
}

function costs(runs: Run[]): string[] {
  return [
    '| engine | index KB | gzipped KB | p50 CPU ms | p95 CPU ms |',
    '| --- | --: | --: | --: | --: |',
    ...runs.map(({ engine, times }) => {
      const at = (q: number): string => (times[Math.floor(q * (times.length - 1))] ?? 0).toFixed(2);
      const sizes = `${engine.kilobytes.toFixed(0)} | ${engine.gzipped.toFixed(0)}`;
      return `| ${engine.name} | ${sizes} | ${at(0.5)} | ${at(0.95)} |`;
    }),
    '',
  ];
}

const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / Math.max(1, list.length);
