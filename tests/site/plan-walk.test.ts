import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planned } from './planned.ts';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());
describe('the walk under the person’s hands', () => {
  const HOUSE = '/plan/#built=1913&foundation=crawl&place=KY&minutes=240&as-of=2026';
  const titles = (page: Page): Promise<string[]> => page.locator('.stop h3').allTextContents();
  const openAll = (page: Page): Promise<void> => page.click('text=Open all stops');
  const open = (page: Page): Promise<string[]> => page.locator('.stop-fold[open] h3').allTextContents();

  it('shows each stop as a row, the one to go to open; the gates of a stop stand before its checks', async () => {
    const { page, close } = await watch(site, { viewport: { width: 360, height: 740 } });
    await page.goto(site.url + HOUSE);
    await planned(page);
    expect(await open(page)).toEqual((await titles(page)).slice(0, 1));
    const height = await page.locator('#walk').evaluate((e) => e.getBoundingClientRect().height);
    expect(height).toBeLessThan(5000);
    await openAll(page);
    expect(await page.locator('.stop-fold:not([open])').count()).toBe(0);
    // Of every stop that counts gates, each gate is read before or beside the check that it holds up.
    const stops = await page.locator('.stop').evaluateAll((all) =>
      all.map((stop) => ({
        said: Number(/(\d+) gates?/.exec(stop.querySelector('.gate-count')?.textContent ?? '')?.[1] ?? 0),
        shown: [...stop.querySelectorAll<HTMLElement>('.gates li')].filter((g) => g.offsetHeight > 0).length,
      })),
    );
    expect(stops.some((s) => s.said > 0)).toBe(true);
    for (const { said, shown } of stops) expect(shown).toBe(said);
    await page.click('text=Fold all');
    expect(await open(page)).toEqual([]);
    await close();
  });

  it('goes on to the next stop when one is done, by keyboard too', async () => {
    const { page, close } = await watch(site);
    await page.goto(site.url + HOUSE);
    await planned(page);
    const all = await titles(page);
    await page.locator('.stop-fold[open] [data-act="done"]').focus();
    await page.keyboard.press('Enter');
    expect(await open(page)).toEqual([all[1]]);
    expect(await page.evaluate(() => document.activeElement?.querySelector('h3')?.textContent)).toBe(all[1]);
    await page.keyboard.press('Enter');
    expect(await open(page)).toEqual([]);
    await close();
  });

  it.each(['Letter', 'A4'])(
    'prints on %s with every stop, what to pack and numbered sheets',
    async (format) => {
      const { page, close } = await watch(site);
      await page.goto(site.url + HOUSE);
      await planned(page);
      const pdf = await page.pdf({ format });
      const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
      expect(sheets).toBeGreaterThan(10);
      expect(sheets).toBeLessThan(22);
      // Patterns would go to paper as pictures of whole sheets.
      expect(pdf.length).toBeLessThan(1_000_000);
      await page.emulateMedia({ media: 'print' });
      await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
      const shown = await page
        .locator('#walk details[data-whole] > :not(summary, .screen-only)')
        .evaluateAll((all) => all.map((e) => e.getBoundingClientRect().height));
      expect(Math.min(...shown)).toBeGreaterThan(0);
      await close();
    },
  );

  it('opens every stop for paper, and folds them again after', async () => {
    const { page, close } = await watch(site);
    await page.goto(site.url + HOUSE);
    await planned(page);
    const before = await open(page);
    await page.emulateMedia({ media: 'print' });
    const heights = await page
      .locator('.stop-checks')
      .evaluateAll((all) => all.map((list) => list.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThan(0);
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    expect(await page.locator('.stop-fold:not([open])').count()).toBe(0);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    expect(await open(page)).toEqual(before);
    await close();
  });

  it('marks a stop done, and keeps the mark over a reload and a new clue', async () => {
    const { page, faults, close } = await watch(site);
    await page.goto(site.url + HOUSE);
    await planned(page);
    await openAll(page);
    await page.click('[data-act="done"] >> nth=1');
    expect(await page.locator('.stop-done').count()).toBe(1);
    const done = await page.locator('.stop-done h3').textContent();
    expect(await page.locator('#status').textContent()).toContain('done');
    await page.reload();
    await planned(page);
    expect(await page.locator('.stop-done h3').textContent()).toBe(done);
    await page.goto(`${site.url}${HOUSE}&clue=porcelain-knobs-seen`);
    await planned(page);
    expect(await page.locator('.stop-done h3').textContent()).toBe(done);
    expect(faults).toEqual([]);
    await close();
  });

  it('moves a stop by keyboard alone, and the keyboard stays on it', async () => {
    const { page, close } = await watch(site);
    await page.goto(site.url + HOUSE);
    await planned(page);
    const before = await titles(page);
    await page.locator('.stop-fold > summary >> nth=2').focus();
    await page.keyboard.press('Enter');
    const third = page.locator('.stop >> nth=2');
    await third.locator('.stop-more > summary').focus();
    await page.keyboard.press('Enter');
    await third.locator('[data-act="earlier"]').waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    const once = await titles(page);
    expect(once[1]).toBe(before[2]);
    expect(once[2]).toBe(before[1]);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-act'))).toBe('earlier');
    expect(await page.locator('#walk').textContent()).toContain('Your order');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await titles(page)).toEqual(before);
    await close();
  });

  it('sets a stop aside: its checks leave the walk, but for what guards life; it can be brought back', async () => {
    const { page, close } = await watch(site);
    await page.goto(site.url + HOUSE);
    await planned(page);
    const checks = (): Promise<string[]> => page.locator('.stop .check-name').allTextContents();
    const before = await checks();
    // Of all stops the one with the most checks has some that do not guard life.
    const counts = await page
      .locator('.stop')
      .evaluateAll((all) => all.map((s) => s.querySelectorAll('.check').length));
    const fullest = page.locator('.stop').nth(counts.indexOf(Math.max(...counts)));
    await openAll(page);
    await fullest.locator('.stop-more > summary').click();
    await fullest.locator('[data-act="aside"]').click();
    await planned(page);
    const listed = (await page.locator('.aside-stops li').textContent()) ?? '';
    const left = before.filter((title) => listed.includes(title));
    expect(left.length).toBe(Math.max(...counts));
    const after = await checks();
    expect(left.some((title) => !after.includes(title))).toBe(true);
    await page.locator('.aside-stops [data-act="back"]').click();
    await planned(page);
    expect(await checks()).toEqual(before);
    expect(await page.locator('.aside-stops').count()).toBe(0);
    await close();
  });

  it('pins a stop, and says so', async () => {
    const { page, close } = await watch(site);
    await page.goto(site.url + HOUSE);
    await planned(page);
    await openAll(page);
    await page.locator('.stop-more > summary >> nth=3').click();
    await page.locator('.stop >> nth=3').locator('[data-act="pin"]').click();
    await planned(page);
    expect(await page.locator('.stop-head strong', { hasText: 'pinned' }).count()).toBe(1);
    await close();
  });
});
