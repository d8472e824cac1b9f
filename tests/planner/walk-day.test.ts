import { describe, expect, it } from 'vitest';
import type { HouseInput, VisitInput } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import type { Plan } from '../../planner/plan-types.ts';
import { base, resolved } from './any-house.ts';

const house: HouseInput = {
  asOf: 2026,
  place: 'OH',
  parts: [{ built: 1920, foundation: 'basement-stone', storeys: 2 }],
};

function planOn(visit: VisitInput, more: Partial<HouseInput> = {}): Plan {
  const input = { ...house, ...more, visit: { minutes: 300, team: 1, outdoorF: 50, ...visit } };
  return planHouse(base, resolved(input), input);
}

const checksOf = (plan: Plan): string[] => plan.walk.stops.flatMap((s) => s.checks.map((c) => c.check));
const left = (plan: Plan, check: string) => plan.walk.leftOut.find((l) => l.check === check);
const today = (plan: Plan, place: string): string =>
  plan.walk.stops
    .filter((s) => s.place === place)
    .flatMap((s) => s.today)
    .join(' ');

describe('the day of the visit', () => {
  it.each([{ snow: true }, { windy: true }, { rainHours: 1 }])('keeps ladders down: %o', (visit) => {
    const plan = planOn(visit);
    expect(checksOf(plan)).not.toContain('roof-from-ladder');
    expect(left(plan, 'roof-from-ladder')).toMatchObject({ again: true });
    expect(checksOf(plan)).toContain('roof-from-ground');
  });

  it('says what snow, drought, rain and dusk change where they change it', () => {
    expect(today(planOn({ snow: true }), 'street')).toContain('Snow covers');
    expect(today(planOn({ droughtDays: 40 }), 'exterior')).toContain('40 days without rain');
    expect(today(planOn({ droughtDays: 5 }), 'exterior')).not.toContain('days without rain');
    expect(today(planOn({ rainHours: 10 }), 'basement')).toContain('Rain 10 hours ago');
    expect(today(planOn({}), 'basement')).toContain('dry here says little');
    expect(today(planOn({ daylightMinutes: 5 }), 'exterior')).toContain('Daylight is gone');
  });

  it('starts nothing in a shut-off house, and nothing that waits for it', () => {
    const plan = planOn({}, { utilities: 'off', occupied: 'vacant' });
    for (const check of ['start-heat', 'heat-re-read', 'run-water', 'drain-load-test', 'first-draw-sample']) {
      expect(checksOf(plan)).not.toContain(check);
      expect(left(plan, check), check).toMatchObject({ again: true });
    }
  });

  it('does the attic first on a hot day and the outside first on a mild one', () => {
    const order = (plan: Plan): string[] => plan.walk.stops.map((s) => s.place);
    const hot = order(planOn({ outdoorF: 95 }));
    expect(hot.indexOf('attic')).toBeLessThan(hot.indexOf('street'));
    const mild = order(planOn({}));
    expect(mild.indexOf('street')).toBeLessThan(mild.indexOf('attic'));
  });

  it('draws the first water before any other runs', () => {
    const plan = planOn({}, { walk: { pin: ['first-draw-sample'] } });
    const rows = plan.walk.stops.flatMap((s) => s.checks);
    const first = rows.find((r) => r.check === 'first-draw-sample');
    for (const row of rows)
      if (['run-water', 'functional-flow', 'toilet-and-floor-look'].includes(row.check))
        expect(row.start).toBeGreaterThanOrEqual((first?.start ?? 999) + (first?.minutes ?? 0));
  });
});

describe('a meter that is watched', () => {
  it('has the water to itself, whoever runs it', () => {
    const plan = planOn(
      { team: 3, minutes: 400 },
      { walk: { pin: ['meter-leak-test', 'first-draw-sample'] }, water: 'town' },
    );
    const rows = plan.walk.stops.flatMap((s) => s.checks);
    const meter = rows.find((r) => r.check === 'meter-leak-test');
    const [from, to] = [meter?.start ?? -1, (meter?.start ?? -1) + (meter?.minutes ?? 0)];
    expect(from).toBeGreaterThan(0);
    const wet = new Set<string>(
      base.checks.flatMap((c) => (c.runs === 'water' || c.id === 'first-draw-sample' ? [c.id] : [])),
    );
    const running = rows.filter((r) => wet.has(r.check));
    expect(running.length).toBeGreaterThan(3);
    for (const r of running)
      expect(r.start >= to - 0.11 || r.start + r.minutes <= from + 0.11, r.check).toBe(true);
  });
});

describe('what the person wants', () => {
  it('keeps a pinned check in, however few the minutes', () => {
    expect(checksOf(planOn({ minutes: 200 }, { walk: { pin: ['sewer-camera'] } }))).toContain('sewer-camera');
  });

  it('leaves a dropped check out and says who dropped it', () => {
    const plan = planOn({}, { walk: { drop: ['gutter-walk', 'walk-around-outside'] } });
    expect(checksOf(plan)).not.toContain('walk-around-outside');
    expect(left(plan, 'walk-around-outside')?.why).toBe('you dropped it');
  });

  it('never drops what guards life, nor what that needs', () => {
    const plan = planOn({}, { walk: { drop: ['alarm-look', 'enter-attic'] } });
    expect(checksOf(plan)).toEqual(expect.arrayContaining(['alarm-look', 'enter-attic']));
  });

  it('refuses an id that is no check', () => {
    expect(resolveHouse(base, { ...house, walk: { pin: ['gutter-wlak'] } })).toMatchObject({
      problems: [{ option: 'pin', nearest: 'gutter-walk' }],
    });
  });
});

describe('what a walk says of itself', () => {
  it('names what 40 minutes more would add, and their worth', () => {
    const { walk } = planOn({ minutes: 225 });
    const longer = planOn({ minutes: 265 }).walk;
    expect(walk.more?.minutes).toBe(40);
    expect(walk.more?.checks.length).toBeGreaterThan(2);
    expect(longer.worth).toBeGreaterThanOrEqual(walk.worth);
    expect(walk.more?.worth ?? 0).toBeLessThanOrEqual(1.1 * (longer.worth - walk.worth) + 1e-9);
    expect(planOn({ minutes: 960 }).walk.more).toBeNull();
  });

  it('survives its ranges in a share of the draws', () => {
    const { survives } = planOn({ minutes: 230 }).walk;
    expect(survives).toBeGreaterThan(0);
    expect(survives).toBeLessThanOrEqual(1);
    expect((survives ?? 0) * 32).toBeCloseTo(Math.round((survives ?? 0) * 32), 1);
  });

  it('names whoever stands idle and what for, and nobody for arriving together', () => {
    const { walk } = planOn({ team: 3 });
    for (const stop of walk.stops)
      if (stop.start < 15) expect(stop.waits, `${stop.place} ${stop.person}`).toEqual([]);
  });
});

describe('trainees on the team', () => {
  const hazardOf = new Map<string, string | undefined>(base.checks.map((c) => [c.id, c.hazard]));
  // Arrival, the round that turns things on and the closing are the lead's or everybody's.
  const alone = (plan: Plan, person: number) =>
    plan.walk.stops.filter((s) => s.person === person && s.place !== 'arrival' && s.place !== 'closing');
  const hazardsOf = (plan: Plan, person: number): string[] =>
    alone(plan, person).flatMap((s) => s.checks.flatMap((c) => hazardOf.get(c.check) ?? []));

  it('walk alone where no hazard waits that they are not signed off for, and elsewhere beside a colleague', () => {
    const plan = planOn({ team: 3, trainees: 2 });
    for (const trainee of [2, 3]) expect(hazardsOf(plan, trainee), `person ${trainee}`).toEqual([]);
    expect(alone(plan, 2).length + alone(plan, 3).length).toBeGreaterThan(0);
    expect(today(plan, 'panel')).toContain('only beside person 1');
    expect(plan.walk.stops.some((s) => s.today.some((t) => t.includes('A trainee walks this alone')))).toBe(
      true,
    );
  });

  it('meet alone what they are signed off for', () => {
    const hazards = ['ladder', 'panel', 'crawl', 'roof', 'gas', 'attic'];
    const signed = planOn({ team: 2, trainees: 1, signedOff: hazards });
    expect(signed.walk.worth).toBe(planOn({ team: 2 }).walk.worth);
    expect(hazardsOf(signed, 2).length + hazardsOf(signed, 1).length).toBeGreaterThan(0);
    expect(today(signed, 'panel')).not.toContain('only beside');
  });

  it('are fewer than the team', () => {
    const asked = resolveHouse(base, { ...house, visit: { team: 2, trainees: 2 } });
    expect('problems' in asked && asked.problems[0]).toMatchObject({ option: 'trainees' });
  });
});
