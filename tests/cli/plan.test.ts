import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../planner/plan-types.ts';
import { Plan as PlanSchema } from '../../src/plan/plan-schema.ts';
import { datestone } from './run-datestone.ts';

const PIERS = ['plan', '--built', '1913', '--foundation', 'piers', '--place', 'KY', '--as-of', '2026'];

describe('plan --json', () => {
  it('prints one object that its published schema accepts, and nothing else', () => {
    const { code, out } = datestone([...PIERS, '--json']);
    expect(code).toBe(0);
    expect(out.trimEnd()).not.toContain('\n');
    const plan = PlanSchema.parse(JSON.parse(out));
    expect(plan.schema).toBe('datestone.plan/1');
    expect(plan.house.asOf).toBe(2026);
    expect(plan.house.parts[0]?.foundation).toEqual([{ value: 'piers', p: 1 }]);
    expect(plan.house.place.state).toBe('KY');
  });

  it('gives the same bytes for the same house', () => {
    expect(datestone([...PIERS, '--json']).out).toBe(datestone([...PIERS, '--json']).out);
  });

  it('takes this year as today if no year is given, and says so', () => {
    const { out } = datestone(['plan', '--built', '1913', '--json']);
    const plan: Plan = JSON.parse(out);
    expect(plan.house.asOf).toBe(new Date().getFullYear());
  });

  it('takes a house file with an addition; options outrank it', () => {
    const path = join(mkdtempSync(join(tmpdir(), 'datestone-')), 'house.json');
    const house = {
      schema: 'datestone.house/1',
      place: 'OH',
      asOf: 2025,
      parts: [
        { built: 1890, foundation: 'basement-stone' },
        { name: 'kitchen', built: '1950s', foundation: 'slab' },
      ],
      visit: { minutes: 200 },
    };
    writeFileSync(path, JSON.stringify(house));
    const plan: Plan = JSON.parse(
      datestone(['plan', '--house', path, '--place', 'KY', '--outdoor', '-5', '--json']).out,
    );
    expect(plan.house.parts.map((part) => part.name)).toEqual(['main block', 'kitchen']);
    expect(plan.house.place.state).toBe('KY');
    expect(plan.house.asOf).toBe(2025);
    expect(plan.house.visit).toMatchObject({ minutes: 200, outdoorF: -5 });
  });
});

describe('plan as text', () => {
  it('keeps to a hundred columns and shows no odds in figures', () => {
    const { code, out } = datestone(PIERS);
    expect(code).toBe(0);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    expect(out).not.toMatch(/\b\d+(\.\d+)?%/);
    expect(out).toContain('as of 2026');
    expect(out).toContain('THE WALK');
  });
});
