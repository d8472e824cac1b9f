import { Worth } from '../../planner/value/worth.ts';
import { addTo } from '../../planner/walk/choose.ts';
import type { Choice } from '../../planner/walk/draft.ts';
import type { Problem } from '../../planner/walk/problem.ts';
import { Search } from '../../planner/walk/search.ts';

/** The required scope, then whatever is worth most per minute: no search, no second thoughts. */
export function greedy(problem: Problem, minutes: number): Choice | null {
  const search = new Search(problem);
  const least = search.least();
  return least === null ? null : addTo(search, least, minutes);
}

/** How people walk without a plan: after the required scope, each goes to the nearest stop that has something left and
 * does there what is worth most per minute, until nothing fits. */
export function nearestNext(problem: Problem, minutes: number): Choice | null {
  const { tasks, closure, geometry } = problem;
  const search = new Search(problem);
  const choice = search.least();
  if (choice === null) return null;
  const worth = new Worth(problem.targets, tasks);
  choice.chosen.forEach((c, i) => {
    if (c === 1) worth.add(i);
  });
  let here = problem.door;
  const barred = new Set<number>();
  for (;;) {
    const open = tasks.flatMap((t, i) =>
      choice.chosen[i] === 1 || barred.has(i) ? [] : [{ i, stop: t.stop }],
    );
    const [nearest] = open.sort(
      (a, b) => distance(here, a.stop) - distance(here, b.stop) || rate(b.i) - rate(a.i),
    );
    if (nearest === undefined) break;
    const bundle = (closure[nearest.i] ?? []).filter((b) => choice.chosen[b] !== 1);
    for (const b of bundle) choice.chosen[b] = 1;
    const length = search.clock.run(choice.chosen, choice.owner);
    if (length <= minutes + 1e-9) {
      for (const b of bundle) worth.add(b);
      choice.length = length;
      here = nearest.stop;
    } else {
      for (const b of bundle) choice.chosen[b] = 0;
      barred.add(nearest.i);
    }
  }
  choice.worth = worth.total;
  return choice;

  function distance(a: number, b: number): number {
    return geometry.minutes[a * geometry.stops.length + b] ?? 0;
  }
  function rate(i: number): number {
    return worth.gain(i) / (tasks[i]?.minutes ?? 1);
  }
}
