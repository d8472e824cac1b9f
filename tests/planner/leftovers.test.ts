import { describe, expect, it } from 'vitest';
import { NO_EVIDENCE } from '../../planner/belief/evidence.ts';
import { avoiding, inSteps, STEP } from '../../planner/belief/leftovers.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { simulateHistory } from './simulate-history.ts';
import { TOY_FROM, toyKernels } from './toy-system.ts';

describe('whether a material was ever in the house', () => {
  it('agrees with simulated histories: one less the likelihood of histories that never hold it', () => {
    const kernels = toyKernels();
    const built = 1912 - TOY_FROM;
    const next = random(99);
    const n = 60_000;
    const histories = Array.from({ length: n }, () => simulateHistory(kernels, built, next));
    for (const id of ['iron', 'copper', 'plastic']) {
      const m = kernels.ids.indexOf(id);
      const ever = 1 - (avoiding(kernels, NO_EVIDENCE, m)[built] ?? 0);
      const seen = histories.filter((h) => h.ever.has(m)).length / n;
      expect(Math.abs(seen - ever)).toBeLessThan(4 * Math.sqrt((ever * (1 - ever)) / n) + 1e-4);
    }
  });
});

describe('following histories in steps of several years', () => {
  it('moves the odds of what is left over by less than three in a hundred', () => {
    const kernels = toyKernels();
    const coarse = inSteps(kernels);
    for (const id of ['iron', 'copper', 'plastic'])
      for (const built of [0, 12, 30, 60]) {
        const m = kernels.ids.indexOf(id);
        const exact = avoiding(kernels, NO_EVIDENCE, m)[built] ?? 0;
        const rough = avoiding(coarse, NO_EVIDENCE, m)[Math.round(built / STEP)] ?? 0;
        expect(Math.abs(exact - rough), `${id} in a house of ${TOY_FROM + built}`).toBeLessThan(0.03);
      }
  });
});
