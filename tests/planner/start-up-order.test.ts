import { describe, expect, it } from 'vitest';
import { planHouse } from '../../planner/index.ts';
import { base, resolved } from './any-house.ts';

/** Checks of the heating stop in the order in which they are done. */
function atTheHeating(team: number): string[] {
  const plan = planHouse(
    base,
    resolved({
      asOf: 2026,
      place: 'OH',
      parts: [{ built: 1908, foundation: 'basement-stone' }],
      visit: { team, outdoorF: 38, minutes: 240 },
    }),
  );
  const stop = plan.walk.stops.find((s) => s.checks.some((c) => c.check === 'start-heat'));
  return stop?.checks.map((c) => c.check) ?? [];
}

describe('the start-up round', () => {
  it('lights no burner before the gas line is walked and the water heater read', () => {
    for (const team of [1, 2]) {
      const order = atTheHeating(team);
      for (const first of [
        'gas-piping-walk',
        'water-heater-look',
        'vent-connector-look',
        'heating-plant-look',
      ])
        expect(order.indexOf(first)).toBeLessThan(order.indexOf('start-heat'));
      expect(order).toEqual(expect.arrayContaining(['gas-piping-walk', 'water-heater-look']));
    }
  });

  it('watches the draft as the burner lights, while the flue is cold', () => {
    for (const team of [1, 2]) {
      const order = atTheHeating(team);
      expect(order.indexOf('cold-start-draft-look')).toBe(order.indexOf('start-heat') + 1);
    }
  });
});
