import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { backward } from '../../planner/belief/backward.ts';
import { believe, renewedSince } from '../../planner/belief/believe.ts';
import { posterior } from '../../planner/belief/forward.ts';
import { makeKernels } from '../../planner/belief/kernels.ts';
import { planHouse } from '../../planner/index.ts';
import { anyInput, base, resolved } from './any-house.ts';
import { auditWalk } from './audit-walk.ts';

const RUNS = { numRuns: 25, seed: 20261124 };
/** Plans are many and machines may be small. */
const PATIENCE = 120_000;
const index = indexBase(base);
/** Chance that the portion still is what was put in when the house was built. */
const original = (table: Float64Array[]): number => table.reduce((total, row) => total + (row[0] ?? 0), 0);

const sum = (row: Float64Array | undefined): number => Array.from(row ?? []).reduce((a, b) => a + b, 0);

describe('any house', { timeout: PATIENCE }, () => {
  it('has probabilities in 0..1 and ranges that hold them', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const plan = planHouse(base, resolved(input), input);
        for (const s of plan.systems)
          for (const m of s.materials)
            for (const p of [m.reachable, m.hidden, m.anywhere, m.disconnected, s.present])
              expect(p >= 0 && p <= 1, `${s.system} ${m.material} ${p}`).toBe(true);
        for (const r of plan.risks)
          expect(
            0 <= r.low && r.low <= r.probability && r.probability <= r.high && r.high <= 1,
            r.failure,
          ).toBe(true);
      }),
      RUNS,
    );
  });

  it('has materials that add to 1 in each portion of each system', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        for (const state of believe(index, resolved(input)))
          for (const table of [state.tables.hidden, state.tables.reachable, state.tables.joint])
            expect(table.reduce((total, row) => total + sum(row), 0)).toBeCloseTo(1, 9);
      }),
      RUNS,
    );
  });

  it('has a walk that honours every need, wait, gate, permission and person', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const house = resolved(input);
        expect(auditWalk(planHouse(base, house, input), house)).toEqual([]);
      }),
      RUNS,
    );
  });

  it('gives the same bytes for the same input', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const once = JSON.stringify(planHouse(base, resolved(input), input));
        expect(JSON.stringify(planHouse(structuredClone(base), resolved(input), input))).toBe(once);
      }),
      { ...RUNS, numRuns: 8 },
    );
  });

  it('is never worth less with more time', () => {
    fc.assert(
      fc.property(anyInput, fc.integer({ min: 1, max: 120 }), (input, more) => {
        const minutes = input.visit?.minutes ?? 180;
        const longer = { ...input, visit: { ...input.visit, minutes: minutes + more } };
        const short = planHouse(base, resolved(input), input).walk;
        const long = planHouse(base, resolved(longer), longer).walk;
        expect(long.worth).toBeGreaterThanOrEqual(short.worth - 1e-9);
      }),
      { ...RUNS, numRuns: 20 },
    );
  });
});

describe('word of renewal', () => {
  it('never raises the odds of the original work in either portion', () => {
    const system = fc.constantFrom(...base.systems);
    const cases = fc.record({
      system,
      built: fc.integer({ min: 1850, max: 1980 }),
      reachable: fc.boolean(),
      hidden: fc.boolean(),
    });
    fc.assert(
      fc.property(cases, ({ system: s, built, reachable, hidden }) => {
        const materials = (index.materialsOf.get(s.id) ?? []).map((m) => ({
          id: m.id,
          life: m.life.best,
          shape: m.shape,
          whole: m.whole,
        }));
        const kernels = makeKernels(s, materials, built, 2026);
        const weights = renewedSince(kernels, 0);
        const evidence = {
          reachable: reachable ? weights : null,
          hidden: hidden ? weights : null,
          records: [],
        };
        if (!(reachable || hidden) || (backward(kernels, evidence).z[0] ?? 0) < 1e-9) return;
        const before = posterior(kernels, { reachable: null, hidden: null, records: [] }, 0);
        const after = posterior(kernels, evidence, 0);
        for (const portion of ['hidden', 'reachable'] as const)
          expect(original(after[portion])).toBeLessThanOrEqual(original(before[portion]) + 1e-9);
      }),
      { numRuns: 300, seed: 20261124 },
    );
  });
});
