import { describe, expect, it } from 'vitest';
import { toHtml } from '../../src/markup/html.ts';
import { briefView } from '../../src/plan-page/view/brief.ts';
import { demo } from '../../src/site/demo-plan.ts';

describe('the briefing', () => {
  const html = briefView(demo.plan, demo.words).map(toHtml).join('');

  it('says of what is renewed in kind when the present one came, and leaves no cell empty', () => {
    expect(html).toMatch(/Renewed in kind\. What is there now is mostly of \d{4} to \d{4}; ask when\./);
    expect(html).not.toMatch(/>\s*The same\.\s*</);
    expect(html).not.toMatch(/<td[^>]*><\/td>/);
  });

  it('says who may balk as a sentence', () => {
    const balks = [...html.matchAll(/>([^<>]*) may balk at this/g)].map((m) => m[1] ?? '');
    expect(balks.length).toBeGreaterThan(3);
    for (const who of balks) expect(who).toMatch(/^[A-Z](?!.* and .* and )/);
  });
});
