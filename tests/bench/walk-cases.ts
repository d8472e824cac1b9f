import { exp } from '../../planner/numerics/functions.ts';
import { normalQuantile, random } from '../../planner/numerics/sampling.ts';
import type { Geometry } from '../../planner/walk/geometry.ts';
import { makeProblem, type Problem, type Target, type Task } from '../../planner/walk/problem.ts';
import { Search } from '../../planner/walk/search.ts';

/** An invented house to walk: its problem and the minutes given. */
export interface Case {
  problem: Problem;
  minutes: number;
}

export interface Size {
  checks: number;
  required: number;
  places: number;
  targets: number;
  /** Pairs of checks one of which comes before the other. */
  needs: number;
  /** Checks that are read again some minutes after another. */
  waits: number;
  team: number;
  /** Required checks that the lead does in a round before the main walk. */
  round?: number;
}

/** 90 checks, 18 of them required, in 12 places; 110 failure modes; 10 needs, 3 waits. */
export function fullCase(seed: number): Case {
  return makeCase(seed, {
    checks: 90,
    required: 18,
    places: 12,
    targets: 110,
    needs: 10,
    waits: 3,
    team: 1 + (seed % 4),
  });
}

/** Small enough for a solver to finish: at most 25 checks in 5 places. */
export function smallCase(seed: number): Case {
  const checks = 15 + (seed % 11);
  return makeCase(seed, {
    checks,
    required: 5,
    places: 5,
    targets: 30,
    needs: 4,
    // The solver's model has no clock, so that waits would be its advantage.
    waits: 0,
    team: 1 + (seed % 3),
  });
}

/** Small enough to try every walk: at most 9 optional checks in 4 places; `round` of the required ones start things up. */
export function tinyCase(seed: number, round = 0): Case {
  return makeCase(seed, {
    round,
    checks: 12,
    required: 4,
    places: 4,
    targets: 12,
    needs: 2,
    waits: 1,
    team: 1 + (seed % 2),
  });
}

function makeCase(seed: number, size: Size): Case {
  const next = random(seed * 7919 + 17);
  const upTo = (n: number): number => Math.min(n - 1, Math.floor(next() * n));
  const targets: Target[] = Array.from({ length: size.targets }, (_, j) => ({
    failure: `failure ${j}`,
    worth: exp(1.1 * normalQuantile(0.02 + 0.96 * next())),
  }));
  const tasks = Array.from({ length: size.checks }, (_, i): Task => {
    const door = i === 0 ? 0 : i === 1 ? size.places + 1 : null;
    return {
      id: `check ${String(i).padStart(2, '0')}`,
      stop: door ?? 1 + upTo(size.places),
      phase: i === 0 ? 'arrival' : i === 1 ? 'closing' : i < 2 + (size.round ?? 0) ? 'start-up' : 'main',
      minutes: i === 0 ? 3 : i === 1 ? 10 : 1 + upTo(10),
      people: 1,
      guided: false,
      fixed: i < size.required,
      needs: [],
      follows: [],
      waits: [],
      finds: finds(size, next, upTo),
    };
  });
  for (let k = 0; k < size.needs; k++) {
    const later = tasks[size.required + upTo(size.checks - size.required)];
    // As in the base, what is needed is at the same stop (open the hatch, then look) and earlier in the list.
    const near = tasks.flatMap((t, i) => (t.stop === later?.stop && i < tasks.indexOf(later) ? [i] : []));
    const need = near[upTo(near.length)];
    if (later !== undefined && need !== undefined && later.needs.length === 0) later.needs.push(need);
  }
  for (let k = 0; k < size.waits; k++) {
    const again = tasks[size.required + upTo(size.checks - size.required)];
    if (again === undefined || again.needs.length > 0) continue;
    again.phase = 're-read';
    again.waits = [{ after: 2 + (k % (size.required - 2)), minutes: 10 }];
  }
  const problem = makeProblem({
    team: size.team,
    geometry: plan(size.places, next),
    tasks,
    targets,
    prefer: [],
  });
  const needed = new Search(problem).least()?.length ?? 0;
  const all = tasks.reduce((sum, t) => sum + t.minutes, 0) / size.team;
  const share = 0.25 + 0.5 * next();
  return { problem, minutes: Math.ceil(needed + share * Math.max(0, all - needed)) };
}

function finds(size: Size, next: () => number, upTo: (n: number) => number): Task['finds'] {
  const list = new Map<number, number>();
  const count = 1 + upTo(5);
  for (let k = 0; k < count; k++) list.set(upTo(size.targets), 0.1 + 0.8 * next());
  return [...list].map(([target, chance]) => ({ target, chance }));
}

/** Places strewn over a plot, a quarter of them costing minutes to open; the door and the way out at one corner. */
function plan(places: number, next: () => number): Geometry {
  const n = places + 2;
  const at = Array.from({ length: n }, (_, i) =>
    i === 0 || i === n - 1 ? { x: 0, y: 0 } : { x: next(), y: next() },
  );
  const minutes = Float64Array.from({ length: n * n }, (_, k) => {
    const [a, b] = [at[Math.floor(k / n)], at[k % n]];
    return a === undefined || b === undefined ? 0 : 2 * Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2);
  });
  const stops = Array.from({ length: n }, (_, i) =>
    i === 0 ? 'arrival' : i === n - 1 ? 'closing' : `place ${i}`,
  );
  const opening = stops.map((_, i) => (i > 0 && i < n - 1 && next() < 0.25 ? 3 + Math.floor(next() * 7) : 0));
  return { stops, at: new Map(stops.map((s, i) => [s, i])), minutes, opening };
}
