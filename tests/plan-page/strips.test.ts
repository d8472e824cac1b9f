import { describe, expect, it } from 'vitest';
import { shareAt } from '../../src/drawings/share-bands.ts';
import { toHtml } from '../../src/markup/html.ts';
import { weightiest } from '../../src/plan-page/strips.ts';
import { stripsView } from '../../src/plan-page/view/strips.ts';
import { demo } from '../../src/site/demo-plan.ts';
import { base } from '../../src/site/knowledge.ts';

const { plan, words } = demo;
const view = (lean = false): string => {
  const mark = stripsView(plan, words.strips, lean);
  return mark === null ? '' : toHtml(mark);
};

describe('the house among the years', () => {
  it('draws the systems that weigh most, all over the same years, each year a whole', () => {
    const order = weightiest(plan);
    const drawn = words.strips.map((s) => order.indexOf(s.system));
    expect(drawn.length).toBeGreaterThan(2);
    expect([...drawn].sort((a, b) => a - b)).toEqual(drawn);
    for (const { years, bands } of words.strips) {
      expect([years[0], years.at(-1)]).toEqual([1879, plan.house.asOf]);
      for (const i of years.keys())
        expect(bands.reduce((sum, band) => sum + (band.shares[i] ?? 0), 0)).toBeCloseTo(1, 6);
    }
  });

  it('shows the figures of the base and no others', () => {
    for (const { system, years, bands } of words.strips) {
      const table = base.systems.find((s) => s.id === system)?.shares.new;
      for (const band of bands)
        expect(shareAt(years, band.shares, 1904)).toBeCloseTo(
          shareAt(table?.years ?? [], table?.rows[band.id] ?? [], 1904),
          9,
        );
    }
  });

  it('marks the years of the parts, and says the build year in words and in a table', () => {
    const html = view();
    expect(html.split('class="built-mark"').length - 1).toBe(2 * words.strips.length);
    expect(html).toContain('Of a hundred new houses of 1904');
    expect(html.split('<table').length - 1).toBe(words.strips.length);
    expect(view(true)).not.toContain('<table');
    expect(html).not.toMatch(/NaN|undefined/);
  });

  it('does not point at a year that is not known', () => {
    const [main] = plan.house.parts;
    if (main === undefined) throw new Error('the invented house has no part');
    const years = [1880, 1910, 1950].map((value) => ({ value, p: 1 / 3 }));
    const vague = {
      ...plan,
      house: { ...plan.house, parts: [{ ...main, built: { given: 'unknown', years } }] },
    };
    const mark = stripsView(vague, words.strips);
    const html = mark === null ? '' : toHtml(mark);
    expect(html).not.toContain('built-mark');
    expect(html).toContain('the year of this house is not known');
  });
});
