import type { Base } from '../../knowledge/schema/base.ts';
import type { HouseInput } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import type { PlanAnswer } from './protocol.ts';
import { wordsFor } from './words.ts';

let loading: { address: string; base: Promise<Base> } | null = null;

/** Plans a house in whatever thread it is called. The base is fetched once and kept. */
export async function answer(address: string, input: HouseInput): Promise<PlanAnswer> {
  if (loading?.address !== address) loading = { address, base: load(address) };
  try {
    const base = await loading.base;
    const begun = performance.now();
    const resolved = resolveHouse(base, input);
    if ('problems' in resolved) return { kind: 'problems', problems: resolved.problems };
    const plan = planHouse(base, resolved.house, input);
    return { kind: 'plan', plan, words: wordsFor(base, plan), milliseconds: performance.now() - begun };
  } catch (error) {
    loading = null;
    return { kind: 'failed', message: error instanceof Error ? error.message : String(error) };
  }
}

async function load(address: string): Promise<Base> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`the knowledge base did not load (${response.status})`);
  return (await response.json()) as Base;
}
