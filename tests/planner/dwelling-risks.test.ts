import { describe, expect, it } from 'vitest';
import type { Failure } from '../../knowledge/schema/failure.ts';
import { indexBase } from '../../planner/base-index.ts';
import { believe, type SystemState } from '../../planner/belief/believe.ts';
import { TOGETHER, type Weighed } from '../../planner/belief/draft.ts';
import { NO_EVIDENCE } from '../../planner/belief/evidence.ts';
import { middleOf } from '../../planner/belief/system-kernels.ts';
import { unitTables } from '../../planner/belief/unit-tables.ts';
import { type Condition, judge } from '../../planner/condition/condition.ts';
import { overDwellings } from '../../planner/condition/dwellings.ts';
import type { ClueInput, HouseInput } from '../../planner/house/house.ts';
import { planHouse } from '../../planner/index.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { base, resolved } from './any-house.ts';
import { type History, simulateHistory } from './simulate-history.ts';
import { TOY_FROM, toyNodes } from './toy-system.ts';

const practice = { grade: 'practice' as const, source: [] };
/** Invented: iron within reach fails with age, copper anywhere is faulty from the start in three of ten. */
const CAUSES: Failure['causes'] = [
  {
    cause: 'ageing',
    of: ['iron'],
    portion: 'reachable',
    half: { best: 35, low: 25, high: 45, ...practice },
    shape: 3,
    ceiling: 0.8,
  },
  {
    cause: 'built-in',
    of: ['copper'],
    portion: 'anywhere',
    share: { best: 0.3, low: 0.2, high: 0.4, ...practice },
  },
];

describe('a failure mode over the dwellings of a house', () => {
  it('agrees with 60,000 simulated houses of three, of two years, renewed as one or each by itself', () => {
    const nodes = toyNodes(0.8);
    const { kernels } = middleOf(nodes);
    const [iron, copper] = ['iron', 'copper'].map((id) => kernels.ids.indexOf(id));
    const years = [1912 - TOY_FROM, 1975 - TOY_FROM];
    const nothing: Weighed = { evidence: NO_EVIDENCE, backs: [] };
    const { tables, units } = unitTables(
      nodes,
      years,
      nodes.map(({ weight }) => [0.6 * weight, 0.4 * weight]),
      nothing,
      [{ weighed: nothing, units: [1, 2, 3] }],
    );
    const state = { kernels, tables, units } as unknown as SystemState;
    const over = overDwellings(state, units, CAUSES, 80, 1);

    const next = random(20261129);
    const fails = ({ hidden, reachable }: History): number => {
      const age = kernels.last - reachable.year + 0.5;
      const aged = reachable.material === iron ? 0.8 * (1 - 2 ** -((age / 35) ** 3)) : 0;
      const faulty = hidden.material === copper || reachable.material === copper ? 0.3 : 0;
      return 1 - (1 - aged) * (1 - faulty);
    };
    const n = 60_000;
    let [any, some] = [0, 0];
    for (let i = 0; i < n; i++) {
      const u = next();
      const node = nodes[u < 1 / 6 ? 0 : u < 5 / 6 ? 1 : 2]?.kernels ?? kernels;
      const built = years[next() < 0.6 ? 0 : 1] ?? 0;
      const live = (): boolean => next() < fails(simulateHistory(node, built, next));
      const dwellings = next() < TOGETHER ? [live()] : [live(), live(), live()];
      const failed = dwellings.filter((f) => f).length;
      any += failed / dwellings.length;
      if (failed > 0) some++;
    }
    // Ages are taken in steps of three years, and causes as independent: both together move a chance by less than 0.01.
    expect(Math.abs(over.anyOne() - any / n)).toBeLessThan(0.012);
    expect(Math.abs(over.atLeastOne() - some / n)).toBeLessThan(0.012);
    // Dwellings that knew nothing of each other, or were always alike, would be further off.
    expect(1 - (1 - over.anyOne()) ** 3 - over.atLeastOne()).toBeGreaterThan(0.1);
    expect(over.atLeastOne() - over.anyOne()).toBeGreaterThan(0.08);
  });
});

const index = indexBase(base);
const house = (units: number, clues: ClueInput[] = [], built = '1924'): HouseInput => ({
  asOf: 2026,
  place: 'OH',
  form: 'two-to-four',
  units,
  parts: [{ built }],
  clues,
});
const judged = (input: HouseInput): Map<string, Condition> => {
  const of = resolved(input);
  return new Map(judge(index, of, believe(index, of)).map((c) => [c.failure.id, c]));
};
const ofUnits = base.failures.filter((f) => base.systems.find((s) => s.id === f.system)?.scope === 'unit');

describe('failure modes of systems that each dwelling has its own of', () => {
  it('are in any one dwelling as in a house of one, in at least one more often, the more dwellings', () => {
    const [one, two, four] = [1, 2, 4].map((units) => judged(house(units)));
    let differ = 0;
    for (const { id } of ofUnits) {
      const [alone, pair, all] = [one?.get(id), two?.get(id), four?.get(id)];
      if (alone === undefined || pair === undefined || all === undefined || alone.applies < 1) continue;
      expect(alone.anyOne).toBeNull();
      expect(Math.abs((all.anyOne ?? 0) - alone.probability), id).toBeLessThan(0.02);
      expect(pair.probability, id).toBeGreaterThanOrEqual((pair.anyOne ?? 0) - 1e-12);
      expect(all.probability, id).toBeGreaterThanOrEqual(pair.probability - 1e-12);
      // Half of the houses are as one, so that four dwellings at most add half of what is left.
      expect(all.probability, id).toBeLessThanOrEqual(0.5 + (all.anyOne ?? 0) / 2 + 1e-9);
      if (all.probability > (all.anyOne ?? 0) + 0.05) differ++;
    }
    expect(differ).toBeGreaterThan(20);
  });

  it('hang together through a vague year: old houses have it in every dwelling, new ones in none', () => {
    const vague = judged(house(4, [], 'unknown')).get('brittle-wire-insulation');
    const independent = 1 - (1 - (vague?.anyOne ?? 0)) ** 4;
    expect(vague?.probability).toBeLessThan((vague?.anyOne ?? 0) / 2 + independent / 2 - 0.005);
  });

  it('hear a clue in the dwelling where it was met', () => {
    const failure = 'cracked-heat-exchanger';
    const said = (unit: number, id = 'co-alarm-history'): ClueInput => ({ id, unit });
    const before = judged(house(4)).get(failure);
    const first = judged(house(4, [said(1)])).get(failure);
    const both = judged(house(4, [said(1), said(2)])).get(failure);
    const alone = judged(house(1, [said(1)])).get(failure);
    expect(first?.probability).toBeGreaterThan(before?.probability ?? 1);
    // Where the dwellings are not as one, three of four have not heard of it.
    expect(first?.anyOne).toBeLessThan((alone?.probability ?? 0) - 0.02);
    expect(both?.anyOne).toBeGreaterThan(first?.anyOne ?? 1);
    // One clue of one house told twice is no second clue for a house as one.
    expect(both?.factor).toBeCloseTo(first?.factor ?? 0, 12);
  });

  it('take each dwelling with its own nameplate', () => {
    const plate = (unit: number, year: number): ClueInput => ({ id: 'heating-plate-year', year, unit });
    const failure = 'heating-plant-past-life';
    const fresh = judged(house(2, [plate(1, 2022), plate(2, 2021)])).get(failure);
    const mixed = judged(house(2, [plate(1, 2022), plate(2, 1994)])).get(failure);
    expect(fresh?.probability).toBeLessThan(0.1);
    // As likely in the house as in a house of one with the old machine; in any one dwelling half as likely.
    const old = judged(house(1, [plate(1, 1994)])).get(failure)?.probability ?? 0;
    expect(Math.abs((mixed?.probability ?? 0) - old)).toBeLessThan(0.05);
    expect(Math.abs((mixed?.anyOne ?? 0) - old / 2)).toBeLessThan(0.05);
  });

  it('are told in the plan with both odds, and ranged and ranked by at least one', () => {
    const input = house(3);
    const plan = planHouse(base, resolved(input), input);
    const told = plan.risks.filter((r) => r.units !== undefined);
    expect(told.length).toBeGreaterThan(20);
    for (const r of told) {
      expect(r.units?.atLeastOne).toBe(r.probability);
      expect(r.units?.anyOne).toBeLessThan(r.probability);
      expect(r.low).toBeLessThanOrEqual(r.probability);
      expect(r.high).toBeGreaterThanOrEqual(r.probability);
      expect(r.why.some((why) => /in any one of them .*, in at least one/.test(why.say))).toBe(true);
      expect(ofUnits.some((f) => f.id === r.failure)).toBe(true);
    }
    const alone = planHouse(base, resolved(house(1)), house(1));
    expect(alone.risks.some((r) => 'units' in r)).toBe(false);
    expect(plan.walk.worth).toBeGreaterThan(0);
  });
});
