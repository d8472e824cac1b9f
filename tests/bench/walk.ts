import loadHighs from 'highs';
import { upperBound } from '../../planner/walk/bound.ts';
import { AT_ONCE, chooseChecks, REFINED } from '../../planner/walk/choose.ts';
import { type Choice, Search } from '../../planner/walk/search.ts';
import { faults } from './walk-audit.ts';
import { type Case, fullCase, smallCase } from './walk-cases.ts';
import { milp } from './walk-milp.ts';
import { greedy, nearestNext } from './walk-rivals.ts';

/** Seconds that the solver may take over one case. */
const SOLVER_SECONDS = 60;

/** One way to choose a walk over all cases: shares of the certified or true best left, times in milliseconds. */
interface Row {
  name: string;
  gaps: number[];
  times: number[];
  faults: number;
}

/** Markdown lines: true gaps on small cases against a solver, certified gaps on cases of full size. */
export async function benchWalk(small = 100, full = 200): Promise<string[]> {
  return [...(await smallTable(small)), '', ...fullTable(full)];
}

/** Small cases: gap to the solver's optimum, for walks chosen at once. */
export async function solveSmall(count: number): Promise<{ ours: Row; solver: Row; unsolved: number }> {
  const highs = await loadHighs();
  const ours: Row = { name: 'the walk, at once', gaps: [], times: [], faults: 0 };
  const solver: Row = { name: 'HiGHS', gaps: [], times: [], faults: 0 };
  let unsolved = 0;
  for (let seed = 0; seed < count; seed++) {
    const { problem, minutes } = smallCase(seed);
    const begun = performance.now();
    const choice = chooseChecks(new Search(problem), minutes, AT_ONCE)?.best;
    const chosen = performance.now();
    const solved = highs.solve(milp(problem, minutes), {
      output_flag: false,
      time_limit: SOLVER_SECONDS,
      mip_rel_gap: 1e-6,
    });
    ours.times.push(chosen - begun);
    solver.times.push(performance.now() - chosen);
    if (solved.Status !== 'Optimal') unsolved++;
    if (choice === undefined || solved.Status !== 'Optimal') continue;
    ours.gaps.push(1 - choice.worth / solved.ObjectiveValue);
    solver.gaps.push(0);
    ours.faults += faults(problem, choice, minutes).length;
  }
  return { ours, solver, unsolved };
}

async function smallTable(count: number): Promise<string[]> {
  const { ours, solver, unsolved } = await solveSmall(count);
  return [
    `${count} small cases (15 to 25 checks, 5 places, one to three people), ${unsolved} not solved within ${SOLVER_SECONDS} s:`,
    '',
    '| | true gap p50 | p95 | worst | faults | ms p50 | ms p95 | times the walk |',
    '| --- | --: | --: | --: | --: | --: | --: | --: |',
    ...[ours, solver].map((row) => line(row, middle(row.times) / middle(ours.times))),
  ];
}

/** Full size: certified gap of each way under one bound, the tightest computed. */
export function runFull(count: number): Row[] {
  const ways: { name: string; choose: (c: Case) => Choice | null; own: boolean }[] = [
    { name: 'nearest next', choose: ({ problem, minutes }) => nearestNext(problem, minutes), own: false },
    { name: 'greedy', choose: ({ problem, minutes }) => greedy(problem, minutes), own: false },
    {
      name: 'the walk, at once',
      choose: ({ problem, minutes }) => chooseChecks(new Search(problem), minutes, AT_ONCE)?.best ?? null,
      own: true,
    },
    {
      name: 'the walk, refined',
      choose: ({ problem, minutes }) => chooseChecks(new Search(problem), minutes, REFINED)?.best ?? null,
      own: false,
    },
  ];
  const rows: Row[] = ways.map(({ name }) => ({ name, gaps: [], times: [], faults: 0 }));
  for (let seed = 0; seed < count; seed++) {
    const one = fullCase(seed);
    const choices = ways.map(({ choose, own }, k) => {
      const begun = performance.now();
      const choice = choose(one);
      // What is shown at once is certified at once: its own bound is part of its time.
      const bound =
        choice !== null && own ? upperBound(one.problem, choice, one.minutes, AT_ONCE.bound) : null;
      rows[k]?.times.push(performance.now() - begun);
      return { choice, bound };
    });
    const refined = choices.at(-1)?.choice;
    if (refined === undefined || refined === null) continue;
    const begun = performance.now();
    const tight = upperBound(one.problem, refined, one.minutes, REFINED.bound);
    const last = rows.at(-1)?.times;
    if (last !== undefined) last.push((last.pop() ?? 0) + performance.now() - begun);
    choices.forEach(({ choice, bound }, k) => {
      const row = rows[k];
      if (choice === null || row === undefined) return;
      row.gaps.push(1 - choice.worth / (bound ?? tight));
      row.faults += faults(one.problem, choice, one.minutes).length;
    });
  }
  return rows;
}

function fullTable(count: number): string[] {
  const rows = runFull(count);
  const atOnce = middle(rows.find((r) => r.name === 'the walk, at once')?.times ?? []);
  return [
    `${count} cases of full size (90 checks, 18 required, 12 places, 110 failure modes, teams of one to four). The walk at once is certified by its own quick bound, the others by the bound refined:`,
    '',
    '| | certified gap p50 | p95 | worst | faults | ms p50 | ms p95 | times the walk |',
    '| --- | --: | --: | --: | --: | --: | --: | --: |',
    ...rows.map((row) => line(row, middle(row.times) / atOnce)),
  ];
}

function line(row: Row, ratio: number): string {
  const gap = (q: number): string => `${(100 * quantile(row.gaps, q)).toFixed(2)}%`;
  return `| ${row.name} | ${gap(0.5)} | ${gap(0.95)} | ${gap(1)} | ${row.faults} | ${middle(row.times).toFixed(1)} | ${quantile(row.times, 0.95).toFixed(1)} | ${ratio.toFixed(2)} |`;
}

export function quantile(values: number[], q: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? 0;
}

function middle(values: number[]): number {
  return quantile(values, 0.5);
}
