import { describe, expect, it } from 'vitest';
import { backward } from '../../planner/belief/backward.ts';
import { type Evidence, NO_EVIDENCE } from '../../planner/belief/evidence.ts';
import { mixedTables } from '../../planner/belief/mixed-tables.ts';
import { evidenceByPair, yearsAndOwners } from '../../planner/belief/mixture.ts';
import { nodePairs, renewingNodes } from '../../planner/belief/renewing.ts';
import type { Part } from '../../planner/house/house.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { simulateHistory } from './simulate-history.ts';
import { TOY_FROM, toyNodes } from './toy-system.ts';

const HISTORIES = 400_000;
const NOTHING = { evidence: NO_EVIDENCE, backs: [] };
const SPREADS = { inside: 0.9, outside: 0.6, correlation: 0.3 };
const YEARS = [
  { value: 1912, p: 0.6 },
  { value: 1931, p: 0.4 },
];
const part: Part = {
  name: 'main block',
  built: { given: '1912 or 1931', years: YEARS },
  foundation: [],
  walls: [],
  roof: [],
  storeys: 1,
};
const sum = (row: Float64Array | undefined): number => Array.from(row ?? []).reduce((a, b) => a + b, 0);

describe('nodes of owners', () => {
  it('have mean 1 and the spread asked for', () => {
    for (const spread of [0.2, 0.5, 0.92]) {
      const nodes = renewingNodes(spread);
      expect(nodes.reduce((a, n) => a + n.weight, 0)).toBeCloseTo(1, 14);
      const mean = nodes.reduce((a, n) => a + n.weight * Math.log(n.factor), 0);
      const variance = nodes.reduce((a, n) => a + n.weight * (Math.log(n.factor) - mean) ** 2, 0);
      expect(Math.sqrt(variance)).toBeCloseTo(spread, 12);
      // Three nodes give the mean of a log-normal to the seventh power of its spread.
      expect(Math.abs(nodes.reduce((a, n) => a + n.weight * n.factor, 0) - 1)).toBeLessThan(0.02);
    }
  });

  it('come in pairs with the right marginals and correlation', () => {
    for (const correlation of [-0.5, -0.1, 0, 0.3, 0.5]) {
      const pairs = nodePairs({ ...SPREADS, correlation });
      const at = (i: number): number => (i - 1) * Math.sqrt(3);
      for (const i of [0, 1, 2]) {
        const weight = renewingNodes(1)[i]?.weight ?? 0;
        for (const side of ['inside', 'outside'] as const)
          expect(pairs.reduce((a, p) => a + (p[side] === i ? p.weight : 0), 0)).toBeCloseTo(weight, 14);
      }
      expect(pairs.reduce((a, p) => a + p.weight * at(p.inside) * at(p.outside), 0)).toBeCloseTo(
        correlation,
        14,
      );
      expect(pairs.every((p) => p.weight >= 0)).toBe(true);
    }
  });
});

describe('three systems of one house, two years it may be of, owners who differ', () => {
  const inside = toyNodes(SPREADS.inside);
  const outside = toyNodes(SPREADS.outside);
  const pairs = nodePairs(SPREADS);
  const next = random(20261127);

  // A first inside system is asked about; another inside and an outside one have evidence.
  const draw = <T extends { p: number }>(of: T[]): T => {
    let u = next();
    for (const one of of) {
      u -= one.p;
      if (u < 0) return one;
    }
    return of.at(-1) as T;
  };
  const weighted = pairs.map((pair) => ({ pair, p: pair.weight }));
  const histories = Array.from({ length: HISTORIES }, () => {
    const built = draw(YEARS).value;
    const { pair } = draw(weighted);
    const live = (nodes: typeof inside, i: number) => {
      const kernels = nodes[i]?.kernels;
      if (kernels === undefined) throw new Error('no such node');
      return simulateHistory(kernels, built - TOY_FROM, next);
    };
    return {
      built,
      asked: live(inside, pair.inside),
      second: live(inside, pair.inside),
      third: live(outside, pair.outside),
    };
  });

  const weights = (kind: string, seen: number, otherwise: number): Float64Array[] =>
    (inside[0]?.kernels.ids ?? []).map((id) => new Float64Array(200).fill(id === kind ? seen : otherwise));
  const ofSecond: Evidence = {
    reachable: weights('iron', 0.9, 0.1),
    hidden: null,
    records: [{ year: 70, complete: 0.3, partial: 0.5, nothing: 1 }],
  };
  const ofThird: Evidence = { reachable: null, hidden: weights('iron', 1, 0.2), records: [] };
  const likelihoods = (nodes: typeof inside, evidence: Evidence) =>
    nodes.map(({ kernels }) => backward(kernels, evidence).z);
  const informed = [
    { part, renewedWith: 'inside' as const, from: TOY_FROM, z: likelihoods(inside, ofSecond) },
    { part, renewedWith: 'outside' as const, from: TOY_FROM, z: likelihoods(outside, ofThird) },
  ];
  const joint = yearsAndOwners([part], informed, pairs).get(part) ?? [];

  const seen = histories.map(({ second, third }) => {
    const record = second.complete.includes(70) ? 0.3 : second.partial.includes(70) ? 0.5 : 1;
    const reach = ofSecond.reachable?.[second.reachable.material]?.[0] ?? 0;
    return record * reach * (ofThird.hidden?.[third.hidden.material]?.[0] ?? 0);
  });
  const total = seen.reduce((a, b) => a + b, 0);
  const effective = total ** 2 / seen.reduce((a, w) => a + w * w, 0);
  const margin = (p: number): number => 4 * Math.sqrt(Math.max(p * (1 - p), 1e-6) / effective) + 1e-6;
  const share = (of: (h: (typeof histories)[number]) => boolean): number =>
    histories.reduce((a, h, i) => a + (of(h) ? (seen[i] ?? 0) : 0), 0) / total;

  it('agree with 400,000 simulated houses on the materials of a system of which nothing is known', () => {
    const years = YEARS.map(({ value }) => value - TOY_FROM);
    const odds = inside.map((_, node) =>
      years.map((_, k) =>
        pairs.reduce((a, pair, n) => a + (pair.inside === node ? (joint[n]?.[k] ?? 0) : 0), 0),
      ),
    );
    const mixed = mixedTables(inside, years, odds, NOTHING);
    const alone = mixedTables(
      inside,
      years,
      inside.map(({ weight }) => YEARS.map(({ p }) => p * weight)),
      NOTHING,
    );
    const { ids } = inside[0]?.kernels ?? { ids: [] };
    let moved = 0;
    ids.forEach((id, m) => {
      for (const portion of ['hidden', 'reachable'] as const) {
        const p = sum(mixed[portion][m]);
        const simulated = share((h) => h.asked[portion].material === m);
        expect(Math.abs(simulated - p), `${id} ${portion}`).toBeLessThan(margin(p));
        moved = Math.max(moved, Math.abs(p - sum(alone[portion][m])));
      }
    });
    // The evidence on the other two systems tells something of this one, else the test would be idle.
    expect(moved).toBeGreaterThan(0.02);
    expect(mixed.hidden.reduce((a, row) => a + sum(row), 0)).toBeCloseTo(1, 12);
  });

  it('agree on the build year', () => {
    const p = joint.reduce((a, row) => a + (row[0] ?? 0), 0);
    expect(Math.abs(share((h) => h.built === 1912) - p)).toBeLessThan(margin(p));
    const logs = evidenceByPair(informed, pairs, TOY_FROM, 2020);
    const [older, newer] = YEARS.map(({ value, p: prior }) =>
      pairs.reduce(
        (total, { weight }, n) => total + prior * weight * Math.exp(logs[n]?.[value - TOY_FROM] ?? 0),
        0,
      ),
    );
    expect((older ?? 0) / ((older ?? 0) + (newer ?? 0))).toBeCloseTo(p, 12);
  });
});
