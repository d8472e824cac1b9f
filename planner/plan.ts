import type { Base } from '../knowledge/schema/base.ts';
import { indexBase } from './base-index.ts';
import { believe } from './belief/believe.ts';
import { judge } from './condition/condition.ts';
import { cautions } from './explain/cautions.ts';
import { explainRisk } from './explain/explain-risk.ts';
import { explainSystem } from './explain/explain-system.ts';
import type { House, HouseInput } from './house/house.ts';
import type { Plan } from './plan-types.ts';
import { ask } from './questions/questions.ts';
import { makeWalk } from './walk/walk.ts';

/** Odds under which a failure mode is not listed; it still counts in the walk. */
const LISTED_ODDS = 0.002;

/** The whole plan for a house: believe, judge, choose and order, ask, tell. The same input gives the same bytes.
 * `given` is the input as typed, to say what had to be taken for granted. */
export function planHouse(base: Base, house: House, given: HouseInput | null = null): Plan {
  const index = indexBase(base);
  const states = believe(index, house);
  const conditions = judge(index, house, states);
  const walk = makeWalk(index, house, conditions);
  const { questions, looks } = ask(index, house, states, conditions);
  const risks = conditions
    .filter((c) => c.probability >= LISTED_ODDS)
    .map((c) => explainRisk(index, c, house.client))
    .sort((a, b) => b.priority - a.priority || (a.failure < b.failure ? -1 : 1));
  return {
    schema: 'datestone.plan/1',
    base: base.hash,
    house,
    systems: states.map((state) => explainSystem(index, house, state)),
    risks,
    walk,
    questions,
    looks,
    cautions: cautions(index, house, walk, given),
  };
}
