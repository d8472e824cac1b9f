import { planHouse, resolveHouse } from '../../planner/index.ts';
import type { Plan } from '../../planner/plan-types.ts';
import { DEMO } from '../plan-page/demo.ts';
import { readParams } from '../plan-page/params.ts';
import { type PlanWords, wordsFor } from '../plan-page/words.ts';
import { base } from './knowledge.ts';
import { thisYear } from './today.ts';

/** The invented house, planned at build: what a first visit sees, also with scripts off. */
export const demo: { plan: Plan; words: PlanWords } = (() => {
  const input = { ...readParams(new URLSearchParams(DEMO)), asOf: thisYear };
  const resolved = resolveHouse(base, input);
  if ('problems' in resolved)
    throw new Error(`the demo house is not understood: ${resolved.problems.map((p) => p.option).join(', ')}`);
  const plan = planHouse(base, resolved.house, input);
  return { plan, words: wordsFor(base, plan) };
})();
