import { describe, expect, it } from 'vitest';
import { avoiding } from '../../planner/belief/avoiding.ts';
import { backward } from '../../planner/belief/backward.ts';
import { type Evidence, NO_EVIDENCE } from '../../planner/belief/evidence.ts';
import { makeGrid, type Step } from '../../planner/belief/grid.ts';
import { type Kernels, makeKernels } from '../../planner/belief/kernels.ts';
import { COARSE } from '../../planner/belief/leftovers.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { base } from './any-house.ts';
import { simulateHistory } from './simulate-history.ts';
import { TOY_FROM, toyKernels } from './toy-system.ts';

const YEARLY: Step = () => 1;

describe('whether a material was ever in the house', () => {
  it('agrees with simulated histories: one less the likelihood of histories that never hold it', () => {
    const kernels = toyKernels();
    const built = 1912 - TOY_FROM;
    const next = random(99);
    const n = 60_000;
    const histories = Array.from({ length: n }, () => simulateHistory(kernels, built, next));
    const grid = makeGrid(kernels, [built], YEARLY);
    for (const id of ['iron', 'copper', 'plastic']) {
      const m = kernels.ids.indexOf(id);
      const ever = 1 - (avoiding(grid, NO_EVIDENCE, m)[0] ?? 0);
      const seen = histories.filter((h) => h.ever.has(m)).length / n;
      expect(Math.abs(seen - ever)).toBeLessThan(4 * Math.sqrt((ever * (1 - ever)) / n) + 1e-4);
    }
  });

  it('has the likelihood of the plain backward pass along all histories, with clues and records', () => {
    const kernels = toyKernels();
    const evidence: Evidence = {
      reachable: kernels.ids.map((id) => new Float64Array(kernels.last + 1).fill(id === 'copper' ? 1 : 0.2)),
      hidden: kernels.ids.map((_, m) =>
        Float64Array.from({ length: kernels.last + 1 }, (__, t) => 1 / (1 + m + t / 50)),
      ),
      records: [
        { year: 61, complete: 8, partial: 5, nothing: 1 },
        { year: 90, complete: 0.4, partial: 2, nothing: 0.5 },
      ],
    };
    const { z } = backward(kernels, evidence);
    const years = [3, 12, 50, 75];
    const all = avoiding(makeGrid(kernels, years, YEARLY), evidence, null);
    years.forEach((year, b) => {
      expect((all[b] ?? 0) / (z[year] ?? 1)).toBeCloseTo(1, 10);
    });
  });
});

describe('following histories in steps of several years', () => {
  it('moves the odds of what was ever there by at most one in a hundred, in every system of the base', () => {
    for (const built of [1875, 1925, 1968])
      for (const system of base.systems) {
        const kernels = kernelsOf(system.id, built);
        const [exact, rough] = [makeGrid(kernels, [0], YEARLY), makeGrid(kernels, [0], COARSE)];
        // The last row is that of no system at all.
        const asked = [0, Math.floor((kernels.ids.length - 1) / 2)];
        for (const m of asked) {
          const [a, b] = [avoiding(exact, NO_EVIDENCE, m)[0] ?? 0, avoiding(rough, NO_EVIDENCE, m)[0] ?? 0];
          expect(Math.abs(a - b), `${kernels.ids[m]} in a house of ${built}`).toBeLessThan(0.01);
        }
      }
  });
});

describe('a record on a grid of several years', () => {
  it('weighs its year alone: the odds move by at most one in a hundred', () => {
    const kernels = toyKernels();
    const built = 1912 - TOY_FROM;
    for (const year of [1955, 1963, 1998]) {
      const records = [{ year: year - TOY_FROM, complete: 150, partial: 40, nothing: 1 }];
      const evidence: Evidence = { ...NO_EVIDENCE, records };
      const never = (step: Step): number[] => {
        const grid = makeGrid(kernels, [built], step, [year - TOY_FROM]);
        const all = avoiding(grid, evidence, null)[0] ?? 1;
        return [0, 1, 2].map((m) => (avoiding(grid, evidence, m)[0] ?? 0) / all);
      };
      const [exact, rough] = [never(YEARLY), never(COARSE)];
      exact.forEach((p, m) => {
        expect(Math.abs(p - (rough[m] ?? 0)), `${kernels.ids[m]}, ${year}`).toBeLessThan(0.01);
      });
    }
  });
});

function kernelsOf(id: string, built: number): Kernels {
  const system = base.systems.find((s) => s.id === id);
  if (system === undefined) throw new Error(`no system ${id}`);
  const materials = base.materials
    .filter((m) => m.system === id)
    .map((m) => ({ id: m.id, life: m.life.best, shape: m.shape, whole: m.whole }));
  return makeKernels(system, materials, built, 2026);
}
