import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { believe, type SystemState } from '../../planner/belief/believe.ts';
import { TOGETHER } from '../../planner/belief/draft.ts';
import { NO_EVIDENCE } from '../../planner/belief/evidence.ts';
import { unitTables } from '../../planner/belief/unit-tables.ts';
import type { ClueInput, HouseInput } from '../../planner/house/house.ts';
import { planHouse } from '../../planner/index.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { base, resolved } from './any-house.ts';
import { simulateHistory } from './simulate-history.ts';
import { TOY_FROM, toyNodes } from './toy-system.ts';

const index = indexBase(base);
const triplex = (clues: ClueInput[], units = 3): HouseInput => ({
  asOf: 2026,
  place: 'OH',
  form: 'two-to-four',
  units,
  parts: [{ built: 1924 }],
  clues,
});
const panels = (input: HouseInput): SystemState => {
  const state = believe(index, resolved(input)).find((s) => s.system.id === 'service-equipment');
  if (state === undefined) throw new Error('no service equipment');
  return state;
};
const fuses = (state: SystemState) => {
  const m = state.kernels.ids.indexOf('fuse-panel');
  const any = state.tables.reachable[m]?.reduce((a, b) => a + b, 0) ?? 0;
  return {
    any,
    atLeastOne: state.units?.atLeastOne[m] ?? 0,
    every: state.units?.every[m] ?? 0,
    together: state.units?.together ?? 0,
  };
};

describe('a house of several dwellings', () => {
  it('agrees with 60,000 simulated houses of three, renewed as one or each by itself', () => {
    const nodes = toyNodes(0.8);
    const next = random(20261128);
    const years = [1912 - TOY_FROM];
    const weights = nodes.map(({ weight }) => [weight]);
    const nothing = { evidence: NO_EVIDENCE, backs: [] };
    const { units } = unitTables(nodes, years, weights, nothing, [{ weighed: nothing, units: [1, 2, 3] }]);
    const n = 60_000;
    const ids = nodes[0]?.kernels.ids ?? [];
    const atLeastOne = new Float64Array(ids.length);
    const every = new Float64Array(ids.length);
    for (let i = 0; i < n; i++) {
      const u = next();
      const node = nodes[u < 1 / 6 ? 0 : u < 5 / 6 ? 1 : 2]?.kernels;
      if (node === undefined) throw new Error('no such node');
      const live = () => simulateHistory(node, years[0] ?? 0, next);
      const lived = next() < TOGETHER ? [live()] : [live(), live(), live()];
      for (let m = 0; m < ids.length; m++) {
        let holding = 0;
        for (const { hidden, reachable } of lived) {
          const parts = (hidden.material === m ? 1 : 0) + (reachable.material === m ? 1 : 0);
          // A dwelling is without the system only if both portions are.
          if (parts === 2 || (parts === 1 && ids[m] !== 'none')) holding++;
        }
        if (holding > 0) atLeastOne[m] = (atLeastOne[m] ?? 0) + 1;
        if (holding === lived.length) every[m] = (every[m] ?? 0) + 1;
      }
    }
    ids.forEach((id, m) => {
      for (const [exact, seen] of [
        [units.atLeastOne[m] ?? 0, (atLeastOne[m] ?? 0) / n],
        [units.every[m] ?? 0, (every[m] ?? 0) / n],
      ] as const)
        expect(Math.abs(exact - seen), id).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / n) + 1e-5);
    });
  });

  it('is one of any dwelling like a house of one, and as a whole more likely to hold an old thing', () => {
    const single = fuses(panels({ ...triplex([]), units: 1 }));
    const three = fuses(panels(triplex([])));
    expect(three.any).toBeCloseTo(single.any, 9);
    expect(three.atLeastOne).toBeGreaterThan(three.any + 0.05);
    expect(three.every).toBeLessThan(three.any - 0.05);
    expect(three.together).toBeCloseTo(TOGETHER, 9);
  });

  it('learns of one dwelling from another, but not all', () => {
    const before = fuses(panels(triplex([], 2)));
    const one = fuses(panels(triplex([{ id: 'fuses-seen', unit: 2 }], 2)));
    // Seen in one dwelling they are at least as likely somewhere as in a house of one where they were seen; the other
    // dwelling is dragged along in part.
    const single = fuses(panels({ ...triplex([{ id: 'fuses-seen' }]), units: 1 }));
    expect(one.atLeastOne).toBeGreaterThan(single.any - 1e-9);
    expect(one.every).toBeGreaterThan(before.every + 0.05);
    expect(one.every).toBeLessThan(one.atLeastOne - 0.1);
  });

  it('takes dwellings that differ as each gone its own way', () => {
    const alike = fuses(panels(triplex([{ id: 'fuses-seen' }, { id: 'fuses-seen', unit: 2 }], 2)));
    const different = fuses(panels(triplex([{ id: 'fuses-seen' }, { id: 'breakers-seen', unit: 2 }], 2)));
    expect(alike.together).toBeGreaterThan(TOGETHER);
    expect(different.together).toBeLessThan(TOGETHER - 0.1);
    expect(alike.every).toBeGreaterThan(different.every);
  });

  it('carries the odds into the plan, for systems of which each dwelling has its own', () => {
    const input = triplex([]);
    const plan = planHouse(base, resolved(input), input);
    for (const s of plan.systems) {
      const own = base.systems.find((one) => one.id === s.system)?.scope === 'unit';
      for (const m of s.materials) {
        expect(m.units !== undefined).toBe(own);
        if (m.units === undefined) continue;
        expect(m.units.every).toBeLessThanOrEqual(m.anywhere + 1e-6);
        expect(m.units.atLeastOne).toBeGreaterThanOrEqual(m.anywhere - 1e-6);
      }
    }
  });
});
