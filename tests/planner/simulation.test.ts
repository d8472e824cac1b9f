import { describe, expect, it } from 'vitest';
import { backward } from '../../planner/belief/backward.ts';
import type { Evidence } from '../../planner/belief/evidence.ts';
import { posterior } from '../../planner/belief/forward.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { simulateHistory } from './simulate-history.ts';
import { TOY_FROM, toyKernels } from './toy-system.ts';

const HISTORIES = 400_000;
const kernels = toyKernels();
const built = 1912 - TOY_FROM;

/** Four standard errors of a simulated share, and a little for rounding. */
function margin(p: number, n: number): number {
  return 4 * Math.sqrt(Math.max(p * (1 - p), 1e-6) / n) + 1e-6;
}

const sum = (row: Float64Array | undefined): number => Array.from(row ?? []).reduce((a, b) => a + b, 0);

describe('the exact posterior against 400,000 simulated histories', () => {
  const next = random(20261124);
  const histories = Array.from({ length: HISTORIES }, () => simulateHistory(kernels, built, next));

  it('agrees on both portions and on their joint, with no evidence', () => {
    const exact = posterior(kernels, { reachable: null, hidden: null, records: [] }, built);
    for (let h = 0; h < kernels.ids.length; h++)
      for (let r = 0; r < kernels.ids.length; r++) {
        const seen =
          histories.filter((x) => x.hidden.material === h && x.reachable.material === r).length / HISTORIES;
        const p = exact.joint[h]?.[r] ?? 0;
        expect(Math.abs(seen - p), `${kernels.ids[h]} hidden, ${kernels.ids[r]} reachable`).toBeLessThan(
          margin(p, HISTORIES),
        );
      }
  });

  it('agrees on the years in which both portions were last renewed', () => {
    const exact = posterior(kernels, { reachable: null, hidden: null, records: [] }, built);
    for (const from of [0, 40, 60, 80, 100]) {
      const within = (year: number): boolean => year >= from && year < from + 20;
      const hidden = exact.hidden.reduce((total, row) => total + sum(row.slice(from, from + 20)), 0);
      const seen = histories.filter((x) => within(x.hidden.year)).length / HISTORIES;
      expect(Math.abs(seen - hidden)).toBeLessThan(margin(hidden, HISTORIES));
      const reachable = exact.reachable.reduce((total, row) => total + sum(row.slice(from, from + 20)), 0);
      const seenReachable = histories.filter((x) => within(x.reachable.year)).length / HISTORIES;
      expect(Math.abs(seenReachable - reachable)).toBeLessThan(margin(reachable, HISTORIES));
    }
  });

  it('agrees with two dated records and a look at the reachable portion', () => {
    const plastic = kernels.ids.indexOf('plastic');
    const reachable = kernels.ids.map((_, m) =>
      new Float64Array(kernels.last + 1).fill(m === plastic ? 0.9 : 0.2),
    );
    const records = [
      { year: 62, complete: 3, partial: 2, nothing: 0.6 },
      { year: 88, complete: 1.5, partial: 4, nothing: 0.7 },
    ];
    const evidence: Evidence = { reachable, hidden: null, records };
    const weigh = (x: (typeof histories)[number]): number => {
      let w = reachable[x.reachable.material]?.[x.reachable.year] ?? 0;
      for (const r of records)
        w *= x.complete.includes(r.year) ? r.complete : x.partial.includes(r.year) ? r.partial : r.nothing;
      return w;
    };
    const weights = histories.map(weigh);
    const total = weights.reduce((a, b) => a + b, 0);
    const z = backward(kernels, evidence).z[built] ?? 0;
    const variance = weights.reduce((a, w) => a + (w - total / HISTORIES) ** 2, 0) / HISTORIES;
    expect(Math.abs(total / HISTORIES - z)).toBeLessThan(4 * Math.sqrt(variance / HISTORIES));

    const exact = posterior(kernels, evidence, built);
    for (let h = 0; h < kernels.ids.length; h++) {
      const p = sum(exact.hidden[h]);
      const seen =
        histories.reduce((a, x, i) => a + (x.hidden.material === h ? (weights[i] ?? 0) : 0), 0) / total;
      const effective = total ** 2 / weights.reduce((a, w) => a + w * w, 0);
      expect(Math.abs(seen - p)).toBeLessThan(margin(p, effective));
    }
  });
});

describe('the passes among themselves', () => {
  it('the forward posterior adds to 1 under evidence: its normaliser is the backward likelihood', () => {
    const next = random(7);
    for (let trial = 0; trial < 30; trial++) {
      const weights = () =>
        kernels.ids.map(() => Float64Array.from({ length: kernels.last + 1 }, () => 0.05 + next()));
      const evidence: Evidence = {
        reachable: weights(),
        hidden: trial % 2 === 0 ? weights() : null,
        records: [
          {
            year: 30 + trial,
            complete: 5 * next(),
            partial: 5 * next(),
            nothing: trial % 3 === 0 ? 1 : 0.3 + next(),
          },
          {
            year: 70 + trial,
            complete: 5 * next(),
            partial: 5 * next(),
            nothing: trial % 3 === 0 ? 1 : 0.3 + next(),
          },
        ],
      };
      const p = posterior(kernels, evidence, trial);
      for (const table of [p.hidden, p.reachable, p.joint])
        expect(table.reduce((a, row) => a + sum(row), 0)).toBeCloseTo(1, 12);
    }
  });
});
