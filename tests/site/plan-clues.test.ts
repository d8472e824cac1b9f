import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planned } from './planned.ts';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

describe('clues on the planning page', () => {
  it('a clue changes the odds, and a dated one asks for its year', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/plan/#built=1913&foundation=crawl&place=KY`);
    const before = await planned(page);
    await page.evaluate(() => {
      for (const details of document.querySelectorAll<HTMLDetailsElement>('#house details'))
        details.open = true;
    });
    await page.check('#in-clue-porcelain-knobs-seen');
    await page.waitForFunction(() => location.hash.includes('porcelain-knobs-seen'));
    const met = await planned(page);
    expect(met).not.toBe(before);
    // Looked for and not met takes its place.
    await page.check('[id="in-clue-not:porcelain-knobs-seen"]');
    await page.waitForFunction(() => location.hash.includes('not%3Aporcelain-knobs-seen'));
    expect(await page.isChecked('#in-clue-porcelain-knobs-seen')).toBe(false);
    const missed = await planned(page);
    expect(missed).not.toBe(met);
    expect(missed).not.toBe(before);
    await page.check('#in-clue-rewired');
    await page.locator('#in-year-rewired-wrong').waitFor({ state: 'visible' });
    await page.fill('#in-year-rewired', '1998');
    await page.waitForFunction(() => location.hash.includes('year.rewired=1998'));
    await planned(page);
    expect(await page.locator('.wrong:visible').count()).toBe(0);
    await close();
  });

  it('takes what came of a look where it is asked for, and the keyboard stays there', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/plan/#built=1913&foundation=crawl&place=KY`);
    await planned(page);
    const button = page.locator('#before [data-tell^="not:"]').first();
    const clue = await button.getAttribute('data-tell');
    await button.click();
    await page.waitForFunction((id) => location.hash.includes(encodeURIComponent(id ?? '')), clue);
    await planned(page);
    expect(await page.locator(`#before [data-tell="${clue}"]`).count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('before');
    expect(await page.isChecked(`[id="in-clue-${clue}"]`)).toBe(true);
    // Paper has nothing to press.
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('#plan button:visible').count()).toBe(0);
    await close();
  });

  it('asks in which of several dwellings a clue was met, and carries it in the address', async () => {
    const { page, close } = await watch(site);
    const plate = 'heating-plate-year';
    await page.goto(
      `${site.url}/plan/#built=1913&foundation=crawl&place=KY&as-of=2026&units=3&clue=fuses-seen&unit.fuses-seen=2&clue=${plate}&year.${plate}=2005&year.${plate}.3=2019`,
    );
    await planned(page);
    expect(await page.isChecked('#in-unit-fuses-seen-2')).toBe(true);
    expect(await page.isChecked('#in-unit-fuses-seen-1')).toBe(false);
    expect(await page.inputValue(`#in-year-${plate}-3`)).toBe('2019');
    const told = await page.locator('.risk-odds', { hasText: 'in any one dwelling' }).count();
    expect(told).toBeGreaterThan(0);
    // With fewer dwellings the third is not asked about, and its year is gone.
    const units = page.locator('#in-units');
    await units.evaluate((box) => {
      for (
        let fold = box.closest('details');
        fold !== null;
        fold = fold.parentElement?.closest('details') ?? null
      )
        fold.open = true;
    });
    await units.fill('2');
    await page.waitForFunction(() => !location.hash.includes('2019'));
    expect(new URL(page.url()).hash).toContain('unit.fuses-seen=2');
    expect(await page.locator(`#in-year-${plate}-3`).count()).toBe(0);
    await close();
  });
});
