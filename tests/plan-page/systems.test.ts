import { describe, expect, it } from 'vitest';
import type { Plan } from '../../planner/plan-types.ts';
import { toHtml } from '../../src/markup/html.ts';
import { systemsView } from '../../src/plan-page/view/systems.ts';
import { demo } from '../../src/site/demo-plan.ts';

const shown = (plan: Plan): string =>
  systemsView(plan, demo.words)
    .map((mark) => (mark === null ? '' : toHtml(mark)))
    .join('');

describe('the schedule of systems', () => {
  it('gives odds with the range that the plan gives, and says what the range holds', () => {
    const ranges = demo.plan.systems
      .flatMap((s) => s.materials)
      .map((m) => m.range.anywhere.map((p) => Math.round(p * 100)))
      .filter(([low = 0, high = 0]) => high - low > 10);
    expect(ranges.length).toBeGreaterThan(5);
    const html = shown(demo.plan);
    expect(html).toContain('four times in five');
    const met = ranges.filter(([low, high]) => html.includes(`(${low} to ${high})`));
    expect(met.length).toBe(ranges.length);
  });

  it('leaves a range out where both ends are the same', () => {
    const systems = demo.plan.systems.map((s) => ({
      ...s,
      materials: s.materials.map((m) => ({
        ...m,
        range: { reachable: [0.4, 0.4], hidden: [0.4, 0.4], anywhere: [0.4, 0.4] } as typeof m.range,
      })),
    }));
    expect(shown({ ...demo.plan, systems })).not.toMatch(/\(\d+ to \d+\)/);
  });
});
