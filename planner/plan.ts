import type { Base } from '../knowledge/schema/base.ts';
import { indexBase } from './base-index.ts';
import { believe } from './belief/believe.ts';
import { judge } from './condition/condition.ts';
import { cautions } from './explain/cautions.ts';
import { contradictions } from './explain/contradictions.ts';
import { explainRisk } from './explain/explain-risk.ts';
import { explainSystem } from './explain/explain-system.ts';
import { LeftOut } from './explain/left-out.ts';
import { risksSurvive } from './explain/risks-survive.ts';
import type { House, HouseInput } from './house/house.ts';
import { knownStates } from './known-states.ts';
import type { Plan } from './plan-types.ts';
import { ask } from './questions/questions.ts';
import { makeWalk } from './walk/walk.ts';

/** Odds under which a failure mode is not listed; it still counts in the walk. */
const LISTED_ODDS = 0.002;

/** The whole plan for a house: believe, judge, choose and order, ask, tell. The same input gives the same bytes.
 * `given` is the input as typed, to say what had to be taken for granted. */
export function planHouse(base: Base, house: House, given: HouseInput | null = null): Plan {
  const index = indexBase(base);
  const states = knownStates(index, house, believe(index, house));
  const conditions = judge(index, house, states);
  const walk = makeWalk(index, house, conditions);
  const { questions, looks } = ask(index, house, states, conditions);
  const listed = conditions
    .filter((c) => c.probability >= LISTED_ODDS)
    .map((condition) => ({ condition, risk: explainRisk(index, condition, house.client) }))
    .sort((a, b) => b.risk.priority - a.risk.priority || (a.risk.failure < b.risk.failure ? -1 : 1));
  const leftOut = new LeftOut(index, house);
  const conflicts = contradictions(index, house, states, leftOut);
  return {
    schema: 'datestone.plan/1',
    base: base.hash,
    house,
    systems: states.map((state) => explainSystem(index, house, state, leftOut, conflicts)),
    contradictions: conflicts,
    risks: listed.map((l) => l.risk),
    risksSurvive: risksSurvive(
      listed.map((l) => l.condition),
      house.client,
    ),
    walk,
    questions,
    looks,
    cautions: cautions(index, house, walk, given),
  };
}
