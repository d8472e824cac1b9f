import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';
import { DEMO } from '../../src/plan-page/demo.ts';
import { readParams } from '../../src/plan-page/params.ts';
import { compactBase } from '../../src/site/compact.ts';

describe('the base that the browser gets', () => {
  it.each([DEMO, 'built=1955&foundation=crawl&place=FL&sewer=septic', 'place=unknown'])(
    'gives the same plan as the whole base: %s',
    (address) => {
      const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
      const input = { ...readParams(new URLSearchParams(address)), asOf: 2026 };
      const plans = [base, compactBase(base)].map((one) => {
        const resolved = resolveHouse(one, input);
        if ('problems' in resolved) throw new Error(JSON.stringify(resolved.problems));
        return JSON.stringify(planHouse(one, resolved.house, input));
      });
      expect(plans[1]).toBe(plans[0]);
    },
  );

  it('has no prose', () => {
    const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
    const small = compactBase(base);
    expect(small.materials.every((m) => m.body === '' && m.know.length === 0)).toBe(true);
    expect(JSON.stringify(small).length).toBeLessThan(0.75 * JSON.stringify(base).length);
  });
});
