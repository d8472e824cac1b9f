import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import type { HouseInput } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import { knownStates } from '../../planner/known-states.ts';
import { anyInput, base, resolved } from './any-house.ts';

describe('a plan from a base that plans were made from before', { timeout: 120_000 }, () => {
  it('is the same bytes as one from a base of its own: after clues, without them again, for another client or visit', () => {
    fc.assert(
      fc.property(anyInput, fc.constantFrom('children', 'landlord'), (input, client) => {
        const plain = { ...input, clues: [] };
        const worn = structuredClone(base);
        const otherVisit = { ...plain, visit: { minutes: 200, team: 3 } };
        for (const asked of [plain, input, { ...plain, client: [client] }, otherVisit, plain, input])
          expect(firstDifference(bytes(worn, asked), bytes(structuredClone(base), asked))).toBeNull();
      }),
      { numRuns: 5, seed: 20261126, endOnFailure: true },
    );
  });
});

describe('a clue of one system', () => {
  it('leaves systems that it says nothing of exactly as they were, where the year is known', () => {
    for (const built of [1893, 1900, 1917, 1931, 1955]) {
      const house = resolved({
        asOf: 2026,
        place: 'OH',
        parts: [{ built, foundation: 'crawl' }],
        clues: [{ id: 'porcelain-knobs-seen' }],
      });
      const index = indexBase(base);
      const plain = { ...house, clues: [] };
      const before = knownStates(index, plain, believe(index, plain));
      const after = knownStates(index, house, believe(index, house));
      // Wiring is renewed with the other works inside; what the owners do outside is not tied to them.
      const moved = after.filter((state, i) => state !== before[i]);
      expect(moved.length).toBeGreaterThan(0);
      expect(moved.filter((state) => state.system.renewedWith !== 'inside')).toEqual([]);
    }
  });
});

function bytes(of: Base, input: HouseInput): string {
  const result = resolveHouse(of, input);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return JSON.stringify(planHouse(of, result.house, input));
}

/** Where two texts part, with a few words of each; null if they are the same. */
function firstDifference(a: string, b: string): string | null {
  if (a === b) return null;
  let at = 0;
  while (a[at] === b[at]) at++;
  return `${a.slice(at - 80, at + 80)} | ${b.slice(at - 80, at + 80)}`;
}
