import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planned } from './planned.ts';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

describe('the planning page', () => {
  it('shows an invented house first, and says that it is invented', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/plan/`);
    expect(await page.locator('#demo-note').isVisible()).toBe(true);
    expect(await page.locator('#plan').textContent()).toContain('1904');
    await close();
  });

  it('plans anew as inputs change, and puts them after # in the address', async () => {
    const { page, faults, close } = await watch(site);
    await page.goto(`${site.url}/plan/`, { waitUntil: 'networkidle' });
    await page.fill('#in-built', '1931');
    await page.selectOption('#in-foundation', 'crawl');
    await page.waitForFunction(
      () => location.hash.includes('built=1931') && location.hash.includes('foundation=crawl'),
    );
    const text = await planned(page);
    expect(text).toContain('1931');
    expect(text).toContain('over a crawl space');
    expect(await page.locator('#demo-note').isVisible()).toBe(false);
    expect(faults).toEqual([]);
    await close();
  });

  it('a shared address gives the same plan, and the same form', async () => {
    const first = await watch(site);
    await first.page.goto(
      `${site.url}/plan/#built=1890s&foundation=piers&place=KY&name.2=back+room&built.2=1941&client=children`,
    );
    const text = await planned(first.page);
    const address = first.page.url();
    await first.close();
    const second = await watch(site);
    await second.page.goto(address);
    expect(await planned(second.page)).toBe(text);
    expect(await second.page.inputValue('#in-built')).toBe('1890s');
    expect(await second.page.inputValue('#in-built-2')).toBe('1941');
    expect(await second.page.isChecked('#in-client-children')).toBe(true);
    expect(second.page.url()).toBe(address);
    await second.close();
  });

  it('says beside the field what is accepted, and the nearest word; the plan before stays', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/plan/#built=1913&foundation=crawl&place=KY`);
    await planned(page);
    await page.fill('#in-built', 'long ago');
    await page.locator('#in-built-wrong').waitFor({ state: 'visible' });
    expect(await page.locator('#in-built-wrong').textContent()).toContain('1910s');
    expect(await page.getAttribute('#in-built', 'aria-invalid')).toBe('true');
    await page.fill('#in-built', '1913');
    await page.fill('#in-place', 'Kentuky');
    await page.locator('#in-place-wrong').waitFor({ state: 'visible' });
    expect(await page.locator('#in-place-wrong').textContent()).toContain('Kentucky');
    expect(await page.locator('#plan').textContent()).toContain('1913');
    await close();
  });

  it('refuses minutes that are too few and says how many it needs', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/plan/#built=1913&foundation=crawl&place=KY&minutes=30`);
    expect(await planned(page)).toMatch(/30 minutes is too short for this house: it needs \d+ hour/);
    await close();
  });

  it('additions can be added and removed', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/plan/#built=1913&foundation=crawl&place=KY`);
    await planned(page);
    await page.locator('summary', { hasText: 'Additions' }).click();
    await page.click('#add-part');
    await page.fill('#in-built-2', '1952');
    await page.selectOption('#in-foundation-2', 'slab');
    await page.waitForFunction(() => location.hash.includes('foundation.2=slab'));
    expect(await planned(page)).toContain('addition 1 of 1952');
    await page.click('[data-remove-part="2"]');
    await page.waitForFunction(() => !location.hash.includes('built.2'));
    expect(await planned(page)).not.toContain('addition 1 of 1952');
    await close();
  });

  it('what is typed stays text', async () => {
    const { page, faults, close } = await watch(site);
    const hostile = '<img src=x onerror="window.struck=1"><script>window.struck=1</script>';
    const params = new URLSearchParams({
      built: '1913',
      'name.2': hostile,
      'built.2': '1950',
      place: 'KY',
      foundation: 'crawl',
    });
    await page.goto(`${site.url}/plan/#${params}`);
    expect(await planned(page)).toContain('<img src=x');
    await page.fill('#in-place', hostile);
    await page.locator('#in-place-wrong').waitFor({ state: 'visible' });
    expect(await page.evaluate(() => 'struck' in window)).toBe(false);
    expect(await page.locator('#plan img, #house img, #plan script').count()).toBe(0);
    await page.goto(`${site.url}/search/#q=${encodeURIComponent(hostile)}`);
    await page.waitForFunction(() => document.querySelector('#status')?.textContent !== '');
    expect(await page.locator('main img, main script').count()).toBe(0);
    expect(faults).toEqual([]);
    await close();
  });

  it('plans without a worker too', async () => {
    const { page, faults, close } = await watch(site);
    await page.addInitScript(() => {
      Object.defineProperty(window, 'Worker', { value: undefined });
    });
    await page.goto(`${site.url}/plan/#built=1913&foundation=crawl&place=KY`);
    expect(await planned(page)).toContain('1913');
    expect(faults).toEqual([]);
    await close();
  });
});

describe('the cover', () => {
  it('leads to a plan, with nothing in what the host sees', async () => {
    const { page, close } = await watch(site);
    await page.goto(site.url);
    await page.fill('#in-built', '1925');
    await page.selectOption('#in-foundation', 'basement-block');
    await page.fill('#in-place', 'OH');
    await page.click('button[type=submit]');
    await page.waitForURL(/\/plan\/#/);
    expect(new URL(page.url()).search).toBe('');
    expect(await planned(page)).toContain('1925');
    await close();
  });
});
