import { describe, expect, it } from 'vitest';
import { NO_EVIDENCE } from '../../planner/belief/evidence.ts';
import { posterior } from '../../planner/belief/forward.ts';
import { replacedOdds } from '../../planner/explain/replaced.ts';
import { planHouse } from '../../planner/index.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { base, resolved } from './any-house.ts';
import { type History, simulateHistory } from './simulate-history.ts';
import { TOY_FROM, toyKernels } from './toy-system.ts';

describe('how much of a system was replaced', () => {
  it('agrees with simulated histories', () => {
    const kernels = toyKernels();
    const built = 1920 - TOY_FROM;
    const next = random(7);
    const n = 40_000;
    const none = kernels.ids.indexOf('none');
    const histories = Array.from({ length: n }, () => simulateHistory(kernels, built, next)).filter(
      (h) => h.hidden.material !== none || h.reachable.material !== none,
    );
    const share = (of: (h: History) => boolean): number => histories.filter(of).length / histories.length;
    const first = (piece: { material: number; year: number }): boolean =>
      piece.year === built && piece.material !== none;
    const believed = {
      kernels,
      tables: posterior(kernels, NO_EVIDENCE, built),
      years: [{ value: TOY_FROM + built, p: 1 }],
    };
    const odds = replacedOdds(believed, new Set(kernels.ids.flatMap((_, m) => (m === none ? [] : [m]))));
    const seen = {
      allFirst: share((h) => first(h.hidden) && first(h.reachable)),
      partly: share((h) => first(h.hidden) && !first(h.reachable)),
      allSince: share((h) => !first(h.hidden)),
      twoAges: share((h) => h.hidden.year !== h.reachable.year),
      twoMaterials: share((h) => h.hidden.material !== h.reachable.material),
    };
    for (const kind of Object.keys(seen) as (keyof typeof seen)[]) {
      const p = odds?.[kind] ?? -1;
      expect(Math.abs(p - seen[kind]), kind).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / n) + 1e-4);
    }
  });

  it('adds to 1, and is not said where no portion is out of reach', () => {
    const house = resolved({ asOf: 2026, place: 'VT', parts: [{ built: '1890s', foundation: 'crawl' }] });
    for (const s of planHouse(base, house).systems) {
      const hidden = base.systems.find((x) => x.id === s.system)?.portions.hidden;
      if (hidden === null) expect(s.replaced, s.system).toBeNull();
      else if (s.replaced !== null)
        expect(s.replaced.allFirst + s.replaced.partly + s.replaced.allSince, s.system).toBeCloseTo(1, 5);
    }
  });

  it('moves to the mixed reading when a paper says that part of it was replaced', () => {
    const part = [{ built: 1925, foundation: 'crawl' as const }];
    for (const [system, id] of [
      ['branch-wiring', 'part-rewired'],
      ['supply-piping', 'part-repiped'],
      ['drains', 'part-of-drains-replaced'],
      ['roof-covering', 'part-of-roof-replaced'],
      ['cladding', 'part-resided'],
      ['windows', 'some-windows-replaced'],
    ] as const) {
      const replaced = (clues: { id: string; year: number }[]) =>
        planHouse(base, resolved({ asOf: 2026, place: 'OH', parts: part, clues })).systems.find(
          (s) => s.system === system,
        )?.replaced;
      const [before, after] = [replaced([]), replaced([{ id, year: 2005 }])];
      if (before == null || after == null) {
        expect(base.systems.find((s) => s.id === system)?.portions.hidden, system).toBeNull();
        continue;
      }
      expect(after.twoAges, system).toBeGreaterThan(before.twoAges + 0.1);
      expect(after.allFirst, system).toBeLessThan(before.allFirst);
    }
  });
});
