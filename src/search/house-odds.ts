import type { Plan } from '../../planner/plan-types.ts';

/** Chances in one house, by id: of failure modes, and of materials being there. */
export type HouseOdds = ReadonlyMap<string, number>;

/** The most that odds may move an entry, down and up: they break near ties and overrule no word. */
const LEAST = 0.85;
const MOST = 1.25;

/** How the odds in the house weigh an entry: one in seven leaves it where it is. */
export function oddsWeight(probability: number): number {
  const held = Math.min(1, Math.max(0, probability));
  return LEAST + (MOST - LEAST) * Math.sqrt(held);
}

/** The odds that a plan holds; where several parts of the house have an entry, the highest. */
export function oddsOf(plan: Pick<Plan, 'risks' | 'systems'>): HouseOdds {
  const odds = new Map<string, number>();
  const take = (id: string, chance: number): void => {
    odds.set(id, Math.max(chance, odds.get(id) ?? 0));
  };
  for (const { failure, probability } of plan.risks) take(failure, probability);
  for (const { materials } of plan.systems)
    for (const { material, anywhere } of materials) if (material !== 'none') take(material, anywhere);
  return odds;
}
