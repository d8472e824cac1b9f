import axe from 'axe-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, PAGES, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const LOOKS = [
  { name: 'light', options: { colorScheme: 'light' } },
  { name: 'dark', options: { colorScheme: 'dark' } },
] as const;

describe.each(LOOKS)('accessibility, $name', ({ options }) => {
  it.each(PAGES)('%s has no violation', async (path) => {
    const { page, close } = await watch(site, { ...options, reducedMotion: 'reduce' });
    await page.goto(site.url + path, { waitUntil: 'networkidle' });
    expect(await violations(page)).toEqual([]);
    await close();
  });

  it('the planning page has none with everything opened', async () => {
    const { page, close } = await watch(site, { ...options, reducedMotion: 'reduce' });
    await page.goto(`${site.url}/plan/`, { waitUntil: 'networkidle' });
    // What is folded inside a fold is made when the outer one opens.
    await page.waitForFunction(() => {
      const closed = document.querySelectorAll<HTMLDetailsElement>('details:not([open])');
      for (const details of closed) details.open = true;
      return closed.length === 0;
    });
    expect(await violations(page)).toEqual([]);
    await close();
  });
});

describe('accessibility, print', () => {
  it.each(PAGES)('%s has no violation', async (path) => {
    const { page, close } = await watch(site);
    await page.goto(site.url + path, { waitUntil: 'networkidle' });
    await page.emulateMedia({ media: 'print' });
    expect(await violations(page)).toEqual([]);
    await close();
  });
});

/** What axe finds wrong: the rule and where. The library is run in the page without becoming part of it. */
async function violations(page: import('playwright-core').Page): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { violations } = await (window as unknown as { axe: typeof axe }).axe.run();
    return violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(' ')}`));
  });
}
