import { describe, expect, it } from 'vitest';
import { toHtml } from '../../src/markup/html.ts';
import { firmness, partInWords, walkTime } from '../../src/plan-page/view/walk-time.ts';
import { demo } from '../../src/site/demo-plan.ts';

const said = (survives: number | null): string => {
  const mark = firmness(survives);
  return mark === null ? '' : toHtml(mark).replace(/<[^>]*>/g, '');
};

describe('what more time would do, and how firm the choice is', () => {
  it('says in words how often the same checks would be chosen, never as a bare number', () => {
    expect(said(1)).toContain('The choice holds.');
    expect(said(1)).toContain('nearly every time');
    expect(said(0.72)).toContain('about seven times in ten');
    expect(said(0.25)).toContain('The choice is soft.');
    expect(said(0.25)).toContain('about three times in ten');
    expect(said(0)).toContain('hardly ever');
    expect(said(null)).toBe('');
    for (let s = 0; s <= 1; s += 0.05) expect(said(s)).not.toMatch(/\d/);
  });

  it('says a part of the whole in words that rise with it', () => {
    expect(partInWords(0.124)).toBe('about an eighth');
    expect(partInWords(0.25)).toBe('about a quarter');
    expect(partInWords(0.01)).toBe('next to nothing');
  });

  it('names the checks that more time would add, and never the worth itself', () => {
    const { walk } = demo.plan;
    const mark = walkTime(walk);
    const text = mark === null ? '' : toHtml(mark);
    for (const id of walk.more?.checks ?? [])
      expect(text).toContain(walk.leftOut.find((c) => c.check === id)?.title);
    expect(text).not.toContain(String(walk.worth));
    expect(text).not.toContain(String(walk.bound));
    expect(walkTime({ ...walk, feasible: false })).toBeNull();
  });
});
