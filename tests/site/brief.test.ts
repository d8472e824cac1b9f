import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const ADDRESS = '/brief/#built=1913&foundation=crawl&place=40324&form=detached&minutes=240&as-of=2026';

describe('the briefing for the buyer', () => {
  it('speaks of houses like this: odds in words alone, no ZIP, nothing left out shown', async () => {
    const { page, faults, close } = await watch(site);
    await page.goto(site.url + ADDRESS);
    await page.waitForFunction(() =>
      document.querySelector('#brief')?.textContent?.includes('houses of 1913'),
    );
    const text = await page.locator('main').textContent();
    expect(text).toContain('in Kentucky');
    expect(text).not.toContain('40324');
    expect(text).not.toMatch(/\d\s?%|0\.\d/);
    expect(text).not.toMatch(/\b(absent|cleared|proves?|up to code)\b/i);
    expect(faults).toEqual([]);
    await close();
  });

  it.each(['Letter', 'A4'])('prints on %s', async (format) => {
    const { page, close } = await watch(site);
    await page.goto(site.url + ADDRESS);
    await page.waitForFunction(() =>
      document.querySelector('#brief')?.textContent?.includes('houses of 1913'),
    );
    const pdf = await page.pdf({ format });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    expect(pages(pdf)).toBeGreaterThan(1);
    expect(pages(pdf)).toBeLessThan(12);
    await close();
  });

  it('leads back to its plan', async () => {
    const { page, close } = await watch(site);
    await page.goto(site.url + ADDRESS);
    await page.waitForFunction(() =>
      document.querySelector('#plan-link')?.getAttribute('href')?.includes('#'),
    );
    expect(await page.getAttribute('#plan-link', 'href')).toContain('built=1913');
    await close();
  });
});

function pages(pdf: Buffer): number {
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}
