import { describe, expect, it } from 'vitest';
import { inDollars } from '../../src/drawings/cost-chart.ts';
import { toHtml } from '../../src/markup/html.ts';
import { dueFor, HORIZON, type Piece, yearsUntil } from '../../src/plan-page/due.ts';
import { briefView } from '../../src/plan-page/view/brief.ts';
import { costRows, moneyView } from '../../src/plan-page/view/money.ts';
import { demo } from '../../src/site/demo-plan.ts';
import { base } from '../../src/site/knowledge.ts';

const { plan, words } = demo;
const one = (age: number, life: number, shape: number): Piece[] => [{ weight: 1, age, life, shape }];

describe('years until things are renewed', () => {
  it('of new things half are renewed at the age that is their life', () => {
    for (const [life, shape] of [
      [20, 3],
      [50, 1],
      [13, 5],
    ])
      expect(yearsUntil(one(0, life ?? 0, shape ?? 0), 0.5)).toBeCloseTo(life ?? 0, 0);
  });

  it('agrees with the closed form of the Weibull law for things of any age', () => {
    for (const age of [0, 8, 20, 45])
      for (const shape of [1, 2.5, 4])
        for (const share of [0.1, 0.5, 0.9]) {
          // (a + h)^k = a^k + L^k log2(1 / (1 - share)), solved for h.
          const halvings = Math.log2(1 / (1 - share));
          const exact = (age ** shape + 25 ** shape * halvings) ** (1 / shape) - age;
          expect(Math.abs(yearsUntil(one(age, 25, shape), share) - exact)).toBeLessThanOrEqual(0.25);
        }
  });

  it('without wear-out (shape 1) age does not matter', () => {
    expect(yearsUntil(one(60, 30, 1), 0.5)).toBe(yearsUntil(one(0, 30, 1), 0.5));
  });
});

describe('what comes due', () => {
  const due = dueFor(base, plan);

  it('comes soonest first, in order within each, inside the horizon', () => {
    expect(due.length).toBeGreaterThan(5);
    expect(due.map((d) => d.middle)).toEqual(due.map((d) => d.middle).sort((a, b) => a - b));
    for (const { early, middle, late } of due) {
      expect(early).toBeLessThanOrEqual(middle);
      expect(middle).toBeLessThanOrEqual(late);
      expect(middle).toBeLessThanOrEqual(HORIZON);
    }
  });

  it('a roof put in lately comes due later than one put in long ago', () => {
    const roofOf = (year: number): number => {
      const systems = plan.systems
        .filter((s) => s.system === 'roof-covering' && s.part === plan.house.parts[0]?.name)
        .map((s) => ({
          ...s,
          materials: s.materials
            .filter((m) => m.material === 'asphalt-shingle')
            .map((m) => ({
              ...m,
              installed: { ...m.installed, reachable: { p10: year - 1, p50: year, p90: year + 1 } },
            })),
        }));
      return dueFor(base, { ...plan, systems })[0]?.middle ?? 0;
    };
    expect(roofOf(2022)).toBeGreaterThan(roofOf(2008) + 5);
    expect(roofOf(1990)).toBeGreaterThan(0);
  });
});

describe('money on the plan page', () => {
  const html = toHtml(moneyView(plan, words));

  it('shows the ranges of the base and their grades, and says that they are no estimate for this house', () => {
    const rows = costRows(plan, words);
    expect(rows.length).toBeGreaterThan(5);
    for (const { risk, cost } of rows) {
      expect(base.failures.find((f) => f.id === risk.failure)?.cost).toEqual(cost);
      expect(html).toContain(`${inDollars(cost.low)} to ${inDollars(cost.high)} in ${cost.year}`);
    }
    expect(html).toContain('No estimate for this house');
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('is closed until somebody wants it, and on no sheet for the buyer', () => {
    expect(html).not.toMatch(/^<details[^>]* open/);
    expect(html).not.toContain('data-whole');
    const brief = briefView(plan, words).map(toHtml).join('');
    expect(brief).not.toMatch(/\$\d|nine in ten/);
  });

  it('writes dollars with commas', () => {
    expect([950, 2400, 20_000, 1_250_000].map(inDollars)).toEqual([
      '$950',
      '$2,400',
      '$20,000',
      '$1,250,000',
    ]);
  });
});
