import { pathBySet } from '../../planner/walk/paths.ts';
import type { Problem } from '../../planner/walk/problem.ts';

/** The walk as a mixed-integer linear programme, in the LP format; docs/benchmarks-walk.md says what it means. Waits and
 * the order that needs ask for are left out, so that its optimum is at least that of any walk. */
export function milp(problem: Problem, minutes: number): string {
  const { tasks, targets, team, owned, geometry, block } = problem;
  const sizes = 1 << owned.length;
  const path = pathBySet(geometry, owned, problem.door, problem.end);
  const stopBit = new Map(owned.map((stop, b) => [stop, b]));
  const people = Array.from({ length: team }, (_, w) => w);
  const together = (i: number): boolean => block[i] === 'arrival' || block[i] === 'closing';
  const goal: string[] = [];
  const rows: string[] = [];
  const binary: string[] = [];
  const positive: string[] = [];

  tasks.forEach((task, i) => {
    binary.push(`x${i}`);
    if (task.fixed) rows.push(`x${i} = 1`);
    for (const need of task.needs) rows.push(`x${i} - x${need} <= 0`);
    if (together(i)) return;
    // m: part of the check that each person does; only where the stop is theirs.
    rows.push(`${people.map((w) => `m${i}_${w}`).join(' + ')} - x${i} = 0`);
    for (const w of people) {
      positive.push(`m${i}_${w}`);
      rows.push(`m${i}_${w} - y${stopBit.get(task.stop) ?? 0}_${w} <= 0`);
    }
  });
  owned.forEach((_, b) => {
    rows.push(`${people.map((w) => `y${b}_${w}`).join(' + ')} <= 1`);
    for (const w of people) {
      const sets = list(sizes).filter((set) => (set & (1 << b)) !== 0);
      rows.push(`y${b}_${w} - ${sets.map((set) => `r${set}_${w}`).join(' - ')} = 0`);
      binary.push(`y${b}_${w}`);
    }
  });
  for (const w of people) {
    rows.push(
      `${list(sizes)
        .map((set) => `r${set}_${w}`)
        .join(' + ')} = 1`,
    );
    const terms = tasks.map((task, i) => `${task.minutes} ${together(i) ? `x${i}` : `m${i}_${w}`}`);
    for (const set of list(sizes)) {
      binary.push(`r${set}_${w}`);
      const opening = owned.reduce(
        (sum, s, b) => sum + ((set & (1 << b)) === 0 ? 0 : (geometry.opening[s] ?? 0)),
        0,
      );
      if (set > 0) terms.push(`${((path[set] ?? 0) + opening).toFixed(9)} r${set}_${w}`);
    }
    rows.push(`${terms.join(' + ')} <= ${minutes}`);
  }
  targets.forEach((target, j) => {
    const finders = tasks.flatMap((t, i) =>
      t.finds.filter((f) => f.target === j).map((f) => ({ i, chance: f.chance })),
    );
    if (finders.length === 0) return;
    const patterns = list(1 << finders.length);
    rows.push(`${patterns.map((z) => `p${j}_${z}`).join(' + ')} = 1`);
    finders.forEach(({ i }, k) => {
      rows.push(
        `${patterns
          .filter((z) => (z & (1 << k)) !== 0)
          .map((z) => `p${j}_${z}`)
          .join(' + ')} - x${i} = 0`,
      );
    });
    for (const z of patterns) {
      positive.push(`p${j}_${z}`);
      const missed = finders.reduce((left, f, k) => ((z & (1 << k)) === 0 ? left : left * (1 - f.chance)), 1);
      if (z > 0) goal.push(`${(target.worth * (1 - missed)).toFixed(9)} p${j}_${z}`);
    }
  });
  const lines = (terms: string[]): string => terms.join('\n + ');
  return [
    'Maximize',
    ` worth: ${lines(goal)}`,
    'Subject To',
    ...rows.map((row, k) => ` c${k}: ${row}`),
    'Bounds',
    ...positive.map((v) => ` 0 <= ${v} <= 1`),
    'Binary',
    ` ${binary.join('\n ')}`,
    'End',
  ].join('\n');
}

function list(n: number): number[] {
  return Array.from({ length: n }, (_, i) => i);
}
