import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

describe('search', () => {
  it('finds as one types, and a result leads to its page', async () => {
    const { page, faults, close } = await watch(site);
    await page.goto(`${site.url}/search/`);
    await page.locator('#q').pressSequentially('cloth wiring falling apart');
    await page.locator('#results a').first().waitFor();
    const titles = await page.locator('#results a').allTextContents();
    expect(titles.slice(0, 5).join(' ').toLowerCase()).toMatch(/wir|cloth/);
    await page.locator('#results a').first().click();
    await page.locator('h1').waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it('takes the words from the address, and says so when it finds nothing', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/search/#q=knob+and+tube`);
    await page.locator('#results a').first().waitFor();
    expect(await page.inputValue('#q')).toBe('knob and tube');
    await page.fill('#q', 'zzzzqqqq');
    await page.waitForFunction(() =>
      document.querySelector('#status')?.textContent?.includes('Nothing found'),
    );
    await close();
  });

  it('walks by keys: down to the results, up and Escape back to the box; Enter goes to the first', async () => {
    const { page, faults, close } = await watch(site, { viewport: { width: 360, height: 740 } });
    await page.goto(`${site.url}/search/#q=chimny+leaning`);
    await page.locator('#results a.hit').first().waitFor();
    const first = await page.locator('#results a.hit').first().textContent();
    const focused = (): Promise<string | null | undefined> =>
      page.evaluate(() => document.activeElement?.id || document.activeElement?.textContent);
    await page.focus('#q');
    await page.keyboard.press('ArrowDown');
    expect(await focused()).toBe(first);
    await page.keyboard.press('ArrowUp');
    expect(await focused()).toBe('q');
    await page.keyboard.press('Enter');
    expect(await focused()).toBe(first);
    await page.keyboard.press('Escape');
    expect(await focused()).toBe('q');
    await page.keyboard.press('Escape');
    expect(await page.inputValue('#q')).toBe('');
    expect(await page.locator('#results a').count()).toBe(0);
    expect(faults).toEqual([]);
    await close();
  });

  it('keeps what was searched on the device, marks what was met and fits a narrow screen', async () => {
    const { page, close } = await watch(site, { viewport: { width: 360, height: 740 } });
    await page.goto(`${site.url}/search/`);
    await page.fill('#q', 'chimny leaning');
    await page.locator('#results mark').first().waitFor();
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.goto(`${site.url}/about/`);
    await page.goto(`${site.url}/search/`);
    expect(await page.locator('#recent a').allTextContents()).toEqual(['chimny leaning']);
    await page.click('#forget');
    expect(await page.locator('#recent a').count()).toBe(0);
    await close();
  });
});
