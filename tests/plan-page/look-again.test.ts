import { describe, expect, it } from 'vitest';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import { toHtml } from '../../src/markup/html.ts';
import { readParams } from '../../src/plan-page/params.ts';
import { lookAgain, topFirmness } from '../../src/plan-page/view/look-again.ts';
import { demo } from '../../src/site/demo-plan.ts';
import { base } from '../../src/site/knowledge.ts';

const text = (mark: Parameters<typeof toHtml>[0] | null): string =>
  mark === null ? '' : toHtml(mark).replace(/<[^>]*>/g, ' ');

describe('what does not sit together', () => {
  it('is said at the head of the plan, with the least surprising reading', () => {
    const input = {
      ...readParams(
        new URLSearchParams('built=1958&foundation=crawl&place=KY&clue=porcelain-knobs-seen&as-of=2026'),
      ),
    };
    const resolved = resolveHouse(base, input);
    if ('problems' in resolved) throw new Error('not understood');
    const plan = planHouse(base, resolved.house, input);
    expect(plan.contradictions.length).toBeGreaterThan(0);
    for (const c of plan.contradictions) {
      const said = text(lookAgain(plan));
      expect(said).toContain(c.say.split('"')[0]);
      if (c.leastSurprising !== null) expect(said).toContain(c.leastSurprising.say);
    }
  });

  it('is not mentioned where all sits together', () => {
    expect(demo.plan.contradictions).toEqual([]);
    expect(lookAgain(demo.plan)).toBeNull();
  });
});

describe('how firm the top of the risks is', () => {
  it('is said in words alone', () => {
    expect(text(topFirmness({ first: 5, same: 0.1, stay: 3.6 }))).toContain('four of them stay');
    expect(text(topFirmness({ first: 5, same: 0.9, stay: 4.9 }))).toContain('the same ones');
    expect(text(topFirmness({ first: 5, same: 0.1, stay: 3.6 }))).not.toMatch(/\d/);
    expect(topFirmness(null)).toBeNull();
  });
});
