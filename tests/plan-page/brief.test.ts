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

  it('words no risk as a finding in a house that nobody has looked at', () => {
    const risks = demo.plan.risks
      .map((r) => demo.words.failures[r.failure]?.say ?? '')
      .filter((say) => html.includes(say));
    expect(risks.length).toBeGreaterThan(10);
    for (const say of risks) expect(html).toContain(`If it is met: </span>${say}`);
    expect(html).toContain('Nothing here is a finding.');
  });

  it('asks the buyer, who reads it, and not "the client"', () => {
    expect(html).toContain('For you to answer.');
    expect(html).not.toContain('Ask the client');
  });

  it('says who may balk as a sentence', () => {
    const balks = [...html.matchAll(/>([^<>]*) may balk at this/g)].map((m) => m[1] ?? '');
    expect(balks.length).toBeGreaterThan(3);
    for (const who of balks) expect(who).toMatch(/^[A-Z](?!.* and .* and )/);
  });
});
