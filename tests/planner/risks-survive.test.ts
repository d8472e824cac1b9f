import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { type Condition, judge } from '../../planner/condition/condition.ts';
import { risksSurvive } from '../../planner/explain/risks-survive.ts';
import { priorityOf, stakeOf } from '../../planner/value/stakes.ts';
import { base, resolved } from './any-house.ts';

const index = indexBase(base);
const house = resolved({ asOf: 2026, place: 'OH', parts: [{ built: 1912, foundation: 'crawl' }] });
const rank = (c: Condition, chance: number): number =>
  priorityOf(chance, stakeOf(c.failure, []), c.failure.lifeSafety);
const ranked = judge(index, house, believe(index, house))
  .filter((c) => c.probability >= 0.002)
  .sort((a, b) => rank(b, b.probability) - rank(a, a.probability));

describe('whether the top of the risks survives the ranges', () => {
  it('counts the draws in which sorting the list anew gives the same five', () => {
    const first = new Set(ranked.slice(0, 5));
    const stays = Array.from({ length: 32 }, (_, d) => {
      const again = [...ranked].sort((a, b) => rank(b, b.draws[d] ?? 0) - rank(a, a.draws[d] ?? 0));
      return again.slice(0, 5).filter((c) => first.has(c)).length;
    });
    expect(risksSurvive(ranked, [])).toEqual({
      first: 5,
      same: stays.filter((n) => n === 5).length / 32,
      stay: Math.round((1000 * stays.reduce((a, b) => a + b, 0)) / 32) / 1000,
    });
  });

  it('is certain where no figure has a range, and not said of a list of five', () => {
    const sure = ranked.map((c) => ({ ...c, draws: new Float64Array(32).fill(c.probability) }));
    expect(risksSurvive(sure, [])).toEqual({ first: 5, same: 1, stay: 5 });
    expect(risksSurvive(sure.slice(0, 5), [])).toBeNull();
  });
});
