import type { HouseInput } from '../../planner/house/house.ts';
import type { Problem } from '../../planner/house/resolve.ts';
import type { Plan } from '../../planner/plan-types.ts';
import type { PlanWords } from './words.ts';

/** What the page asks of whoever plans, and what comes back. */
export interface PlanRequest {
  id: number;
  /** Address of the compact base: fetched once. */
  base: string;
  input: HouseInput;
}

export type PlanReply = { id: number } & PlanAnswer;

export type PlanAnswer =
  | { kind: 'plan'; plan: Plan; words: PlanWords; milliseconds: number }
  | { kind: 'problems'; problems: Problem[] }
  | { kind: 'failed'; message: string };
