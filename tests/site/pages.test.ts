import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, PAGES, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

describe('every page type', () => {
  it.each(PAGES)(
    '%s loads without a fault, from this origin alone, with one name and its landmarks',
    async (path) => {
      const { page, faults, hosts, close } = await watch(site);
      const response = await page.goto(site.url + path, { waitUntil: 'networkidle' });
      expect(response?.status()).toBe(200);
      expect(await page.locator('h1').count()).toBe(1);
      expect(await page.locator('header.masthead, main, footer').count()).toBe(3);
      expect(await page.locator('[style], style, script:not([src])').count()).toBe(0);
      expect(faults).toEqual([]);
      expect([...hosts]).toEqual([new URL(site.url).host]);
      await close();
    },
  );

  it.each(PAGES)('%s fits a phone: nothing scrolls sideways at 320 and 360 pixels', async (path) => {
    const { page, close } = await watch(site, { viewport: { width: 360, height: 740 } });
    await page.goto(site.url + path, { waitUntil: 'networkidle' });
    for (const width of [360, 320]) {
      await page.setViewportSize({ width, height: 740 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }
    await close();
  });

  it('an address that leads nowhere gives a page that helps', async () => {
    const { page, close } = await watch(site);
    const response = await page.goto(`${site.url}/no/such/sheet/`);
    expect(response?.status()).toBe(404);
    expect(await page.locator('h1').textContent()).toBe('No such sheet');
    await close();
  });

  it('every link between pages leads somewhere', async () => {
    const { page, close } = await watch(site, { javaScriptEnabled: false });
    const paths = new Set<string>();
    for (const path of PAGES) {
      await page.goto(site.url + path);
      const links = await page
        .locator('a[href^="/"]')
        .evaluateAll((all) => all.map((a) => a.getAttribute('href') ?? ''));
      for (const link of links) paths.add(link.replace(/#.*$/, ''));
    }
    const broken: string[] = [];
    for (const path of paths) {
      const response = await page.request.get(site.url + path);
      if (response.status() !== 200) broken.push(path);
    }
    expect(paths.size).toBeGreaterThan(50);
    expect(broken).toEqual([]);
    await close();
  });
});

describe('with scripts off', () => {
  it.each(PAGES)('%s can be read', async (path) => {
    const { page, close } = await watch(site, { javaScriptEnabled: false });
    await page.goto(site.url + path);
    expect((await page.locator('main').textContent())?.length).toBeGreaterThan(120);
    expect(await page.locator('button:visible').count()).toBe(0);
    await close();
  });

  it('the planning page shows an invented house and says why it can do no more', async () => {
    const { page, close } = await watch(site, { javaScriptEnabled: false });
    await page.goto(`${site.url}/plan/`);
    const text = await page.locator('main').textContent();
    expect(text).toContain('needs scripts');
    expect(text).toContain('Settle first');
    await close();
  });
});
