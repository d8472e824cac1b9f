import type { Base } from '../../knowledge/schema/base.ts';
import type { HouseInput } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { type Timing, time } from './kernel.ts';

/** Times of whole plans for seeded houses of many kinds. A cold plan has a base that no plan was made from yet:
 * nothing is cached. A plan after a clue has the kernels ready. */
export function timePlans(base: Base): Timing[] {
  const inputs = houses(HOUSES);
  const house = (i: number): HouseInput => inputs[i] ?? { parts: [{}] };
  const plan = (b: Base, input: HouseInput): unknown => {
    const resolved = resolveHouse(b, input);
    if ('problems' in resolved) throw new Error(JSON.stringify(resolved.problems));
    return planHouse(b, resolved.house, input);
  };
  const first = time('first plan of the process', 1, () => () => plan(base, house(0)));
  for (const input of inputs) plan(base, input);
  const cold = time('cold plan', HOUSES, (i) => {
    // A base of its own for each: nothing that an earlier plan worked out is there to be used again.
    const fresh = structuredClone(base);
    return () => plan(fresh, house(i));
  });
  const clue = time('plan after one clue', HOUSES, (i) => {
    const fresh = structuredClone(base);
    plan(fresh, house(i));
    return () => plan(fresh, { ...house(i), clues: [{ id: 'porcelain-knobs-seen' }] });
  });
  return [first, cold, clue];
}

const HOUSES = 40;

/** Invented houses: any year from 1850 to 1989, every foundation, five places, one or two people. */
function houses(n: number): HouseInput[] {
  const next = random(20261124);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  return Array.from({ length: n }, () => ({
    asOf: 2026,
    place: pick(['VT', 'GA', 'KS', 'OR', 'OH']),
    parts: [
      {
        built: 1850 + Math.floor(next() * 140),
        foundation: pick(['piers', 'crawl', 'basement-stone', 'basement-block', 'slab'] as const),
      },
    ],
    visit: { minutes: 240, team: pick([1, 2]) },
  }));
}
