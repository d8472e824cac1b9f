import loadHighs from 'highs';
import type { Base } from '../../knowledge/schema/base.ts';
import { upperBound } from '../../planner/walk/bound.ts';
import { AT_ONCE, chooseChecks, type Effort, REFINED } from '../../planner/walk/choose.ts';
import type { Choice } from '../../planner/walk/draft.ts';
import { Search } from '../../planner/walk/search.ts';
import { kernel, processorTime, time } from './kernel.ts';
import { faults } from './walk-audit.ts';
import { type Case, fullCase, smallCase } from './walk-cases.ts';
import { PARTIES, runHouses } from './walk-houses.ts';
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

/** What times are divided by: the kernel's, and the solver's over a small case, both of this run. */
interface Yardsticks {
  kernel: number;
  solver: number;
}

/** Markdown lines: true gaps on small cases against a solver, certified gaps on cases of full size and on the real base. */
export async function benchWalk(base: Base, small = 100, full = 200, houses = 40): Promise<string[]> {
  kernel();
  const { ours, solver, unsolved } = await solveSmall(small);
  const by: Yardsticks = {
    kernel: time('kernel', 15, () => kernel, processorTime).p50,
    solver: middle(solver.times),
  };
  const head = (gap: string): string[] => [
    `| | ${gap} gap p50 | p95 | worst | faults | ms p50 | ms p95 | times the kernel p50 | p95 | times the solver p50 |`,
    '| --- | --: | --: | --: | --: | --: | --: | --: | --: | --: |',
  ];
  const fullRows = runFull(full);
  return [
    `Times are processor time of this run, so that other work on the machine hardly counts; the kernel (10^7 multiply-adds) took ${by.kernel.toFixed(1)} ms, the solver (HiGHS) ${by.solver.toFixed(0)} ms over the middle small case. Every walk of the first two tables is audited from its timetable alone.`,
    '',
    `${small} small cases (15 to 25 checks, 5 places, one to three people), ${unsolved} not solved within ${SOLVER_SECONDS} s. The gap is the true one, to the solver's optimum:`,
    '',
    ...head('true'),
    ...[ours, solver].map((row) => line(row, by)),
    '',
    `${full} cases of full size (90 checks, 18 required, 12 places, 110 failure modes, teams of one to four). The walks at once and refined are certified by their own bounds, whose time is counted; the others by the refined bound:`,
    '',
    ...head('certified'),
    ...fullRows.map((row) => line(row, by)),
    '',
    `${houses} invented houses with the real base: the whole walk as a plan holds it (choosing, timing, bound, ranges, words), odds ready beforehand, at once the best of three. Houses whose required scope alone needs more minutes are timed without a gap:`,
    '',
    ...head('certified').map((l) => l.replace('faults', 'too short')),
    ...PARTIES.flatMap((party) =>
      [false, true].map((refined) => runHouses(base, party, houses, refined)),
    ).map((row) => line({ ...row, faults: row.short }, by)),
  ];
}

/** Small cases: gap to the solver's optimum, for walks chosen at once. */
export async function solveSmall(count: number): Promise<{ ours: Row; solver: Row; unsolved: number }> {
  const highs = await loadHighs();
  const ours: Row = { name: 'the walk, at once', gaps: [], times: [], faults: 0 };
  const solver: Row = { name: 'HiGHS', gaps: [], times: [], faults: 0 };
  let unsolved = 0;
  for (let seed = 0; seed < count; seed++) {
    const { problem, minutes } = smallCase(seed);
    const begun = processorTime();
    const choice = chooseChecks(new Search(problem), minutes, AT_ONCE)?.best;
    const chosen = processorTime();
    const solved = highs.solve(milp(problem, minutes), {
      output_flag: false,
      time_limit: SOLVER_SECONDS,
      mip_rel_gap: 1e-6,
    });
    ours.times.push(chosen - begun);
    solver.times.push(processorTime() - chosen);
    if (solved.Status !== 'Optimal') unsolved++;
    if (choice === undefined || solved.Status !== 'Optimal') continue;
    ours.gaps.push(1 - choice.worth / solved.ObjectiveValue);
    solver.gaps.push(0);
    ours.faults += faults(problem, choice, minutes).length;
  }
  return { ours, solver, unsolved };
}

/** Full size: certified gap of each way. */
export function runFull(count: number): Row[] {
  const effort: Record<string, Effort> = { 'the walk, at once': AT_ONCE, 'the walk, refined': REFINED };
  const rivals: Record<string, (problem: Case['problem'], minutes: number) => Choice | null> = {
    'nearest next': nearestNext,
    greedy,
  };
  const rows = [...Object.keys(rivals), ...Object.keys(effort)].map(
    (name): Row => ({ name, gaps: [], times: [], faults: 0 }),
  );
  for (let seed = 0; seed < count; seed++) {
    const { problem, minutes } = fullCase(seed);
    let least = Number.POSITIVE_INFINITY;
    for (const row of [...rows].reverse()) {
      const way = effort[row.name];
      const begun = processorTime();
      const choice =
        way === undefined
          ? (rivals[row.name]?.(problem, minutes) ?? null)
          : (chooseChecks(new Search(problem), minutes, way)?.best ?? null);
      // What is certified by its own bound has the bound's time counted.
      const own =
        way === undefined || choice === null ? null : upperBound(problem, choice, minutes, way.bound);
      row.times.push(processorTime() - begun);
      if (choice === null) continue;
      if (own !== null) least = Math.min(least, own);
      row.gaps.push(1 - choice.worth / (own ?? least));
      row.faults += faults(problem, choice, minutes).length;
    }
  }
  return rows;
}

function line(row: Row, by: Yardsticks): string {
  const gap = (q: number): string => `${(100 * quantile(row.gaps, q)).toFixed(2)}%`;
  const [p50, p95] = [middle(row.times), quantile(row.times, 0.95)];
  const times = (ms: number, of: number): string => (ms / of).toFixed(ms / of < 0.1 ? 3 : 2);
  return `| ${row.name} | ${gap(0.5)} | ${gap(0.95)} | ${gap(1)} | ${row.faults} | ${p50.toFixed(1)} | ${p95.toFixed(1)} | ${times(p50, by.kernel)} | ${times(p95, by.kernel)} | ${times(p50, by.solver)} |`;
}

export function quantile(values: number[], q: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? 0;
}

function middle(values: number[]): number {
  return quantile(values, 0.5);
}
