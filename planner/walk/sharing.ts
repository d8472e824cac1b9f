import type { Problem } from './problem.ts';
import { isOwned } from './routes.ts';

/** Shares the stops out by the minutes of these tasks: longest stop to whoever has least to do. */
export function shareStops(problem: Problem, work: readonly number[]): Int8Array {
  const { geometry, team, tasks, block, owned, mayOwn } = problem;
  const owner = new Int8Array(geometry.stops.length);
  const load = new Array<number>(team).fill(0);
  const minutes = new Array<number>(geometry.stops.length).fill(0);
  for (const i of work) {
    const task = tasks[i];
    if (task === undefined) continue;
    if (isOwned(problem, i)) minutes[task.stop] = (minutes[task.stop] ?? 0) + task.minutes;
    else if (block[i] === 'start-up' || block[i] === 'first') load[0] = (load[0] ?? 0) + task.minutes;
  }
  const stops = owned.map((stop) => ({
    stop,
    minutes: (minutes[stop] ?? 0) + (geometry.opening[stop] ?? 0),
  }));
  stops.sort((a, b) => b.minutes - a.minutes || a.stop - b.stop);
  for (const { stop, minutes: m } of stops) {
    const person = leastLoaded(load, mayOwn, stop * team);
    owner[stop] = person;
    load[person] = (load[person] ?? 0) + m + 1;
  }
  return owner;
}

function leastLoaded(load: readonly number[], mayOwn: Uint8Array, from: number): number {
  let least = 0;
  for (let w = 1; w < load.length; w++)
    if (mayOwn[from + w] === 1 && (load[w] ?? 0) < (load[least] ?? 0)) least = w;
  return least;
}

/** Hands stops over and swaps them as long as that costs less; `cost` weighs the owners as they stand. Changes `owner`;
 * returns the least cost. */
export function balance({ owned, team, mayOwn }: Problem, owner: Int8Array, cost: () => number): number {
  let least = cost();
  const isBetter = (): boolean => {
    const now = cost();
    if (now >= least - 1e-9) return false;
    least = now;
    return true;
  };
  for (let better = true; better; ) {
    better = false;
    for (const a of owned) {
      for (let w = 0; w < team; w++) {
        const was = owner[a] ?? 0;
        if (w === was || mayOwn[a * team + w] !== 1) continue;
        owner[a] = w;
        if (isBetter()) better = true;
        else owner[a] = was;
      }
      for (const b of owned) {
        const [mine, theirs] = [owner[a] ?? 0, owner[b] ?? 0];
        if (b <= a || mine === theirs) continue;
        if (mayOwn[a * team + theirs] !== 1 || mayOwn[b * team + mine] !== 1) continue;
        owner[a] = theirs;
        owner[b] = mine;
        if (isBetter()) better = true;
        else {
          owner[a] = mine;
          owner[b] = theirs;
        }
      }
    }
  }
  return least;
}
