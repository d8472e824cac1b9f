import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const SCREENS = [
  { name: 'a phone', viewport: { width: 360, height: 740 } },
  { name: 'a desk', viewport: { width: 1280, height: 800 } },
] as const;

type Role = Parameters<Page['getByRole']>[0];

/** A person who knows the tool by nothing but its screen: goes by names, scrolls, presses, types. */
class Person {
  readonly #page: Page;
  /** How far they had to scroll for each thing, in screens. */
  readonly screens: [string, number][] = [];
  constructor(page: Page) {
    this.#page = page;
  }

  async press(role: Role, name: string | RegExp): Promise<void> {
    const target = this.#page.getByRole(role, { name }).and(this.#page.locator(':visible')).first();
    await this.#reach(target, String(name));
    await target.click();
  }

  /** Opens something folded by the words on it. */
  async open(words: string | RegExp): Promise<void> {
    const target = this.#page.locator('summary:visible', { hasText: words }).first();
    await this.#reach(target, String(words));
    await target.click();
  }

  async type(name: string | RegExp, text: string): Promise<void> {
    const target = this.#page
      .getByRole('textbox', { name })
      .or(this.#page.getByRole('combobox', { name }))
      .or(this.#page.getByRole('searchbox', { name }))
      .first();
    await this.#reach(target, String(name));
    await target.click();
    await target.pressSequentially(text);
  }

  async choose(name: string | RegExp, option: string): Promise<void> {
    const target = this.#page.getByRole('combobox', { name }).first();
    await this.#reach(target, String(name));
    await target.selectOption({ label: option });
  }

  /** What stands on the screen now. */
  async sees(words: string | RegExp): Promise<void> {
    const target = this.#page.getByText(words).and(this.#page.locator(':visible')).first();
    await target.waitFor();
    await this.#reach(target, String(words));
  }

  async #reach(target: Locator, name: string): Promise<void> {
    await target.waitFor();
    const before = await this.#page.evaluate(() => window.scrollY);
    await target.scrollIntoViewIfNeeded();
    const after = await this.#page.evaluate(() => window.scrollY);
    const height = this.#page.viewportSize()?.height ?? 1;
    this.screens.push([name, Math.round((Math.abs(after - before) / height) * 10) / 10]);
    const box = await target.boundingBox();
    expect(box, `${name} can be seen`).not.toBeNull();
    expect(box?.height ?? 0, `${name} is high enough for a thumb`).toBeGreaterThanOrEqual(20);
  }
}

async function arrive(viewport: {
  width: number;
  height: number;
}): Promise<{ page: Page; me: Person; end: () => Promise<void> }> {
  const { page, faults, close } = await watch(site, { viewport });
  await page.goto(site.url, { waitUntil: 'networkidle' });
  const me = new Person(page);
  return {
    page,
    me,
    end: async () => {
      console.log(me.screens.map(([name, n]) => `${name} ${n}`).join(', '));
      // Nothing that is wanted lies farther than a few thumb strokes.
      for (const [name, screens] of me.screens) expect(screens, name).toBeLessThan(4);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
        viewport.width,
      );
      expect(faults).toEqual([]);
      await close();
    },
  };
}

async function planAHouse(me: Person): Promise<void> {
  await me.type('Built', '1913');
  await me.choose('Foundation', 'Crawl space on walls');
  await me.type('Place', 'KY');
  await me.press('button', 'Plan the visit');
}

describe.each(SCREENS)('five things a new person does, on $name', ({ viewport }) => {
  it('plans a house: from the cover to the walk', async () => {
    const { page, me, end } = await arrive(viewport);
    await planAHouse(me);
    if (viewport.width < 600) await me.press('button', 'See the plan');
    await me.sees(/House in Kentucky: main block of 1913/);
    await me.press('button', /^Walk/);
    await me.sees(/^Uses \d+ hours/);
    await me.press('button', 'Done');
    expect(await page.locator('.stop-done').count()).toBe(1);
    await end();
  });

  it('finds a symptom: from what is seen to what it may be', async () => {
    const { page, me, end } = await arrive(viewport);
    await me.press('link', 'Search');
    await me.type(/^What/, 'stain on ceiling under chimney');
    await page.locator('#results a.hit').first().waitFor();
    const first = (await page.locator('#results a.hit').first().textContent()) ?? '';
    await me.press('link', first);
    await me.sees('How to check');
    expect(await page.locator('h1').textContent()).toBe(first);
    await end();
  });

  it('opens why a number is so', async () => {
    const { page, me, end } = await arrive(viewport);
    await planAHouse(me);
    if (viewport.width < 600) await me.press('button', 'See the plan');
    await me.press('button', 'Built with');
    await me.open('Figures and why');
    const why = page.locator('.schedule-more[open] .why li');
    await why.nth(1).waitFor();
    await end();
  });

  it('learns a period', async () => {
    const { page, me, end } = await arrive(viewport);
    await me.press('link', 'Periods');
    await me.press('link', /1920s/);
    await me.sees('What a house of it usually has');
    expect(await page.locator('h1').textContent()).toContain('1920s');
    await end();
  });

  it('prints a plan', async () => {
    const { page, me, end } = await arrive(viewport);
    await page.addInitScript(() => {
      window.print = () => Object.assign(window, { printed: true });
    });
    await planAHouse(me);
    if (viewport.width < 600) await me.press('button', 'See the plan');
    await me.sees(/House in Kentucky: main block of 1913/);
    await me.press('button', 'Print the plan');
    expect(await page.evaluate(() => Object(window).printed)).toBe(true);
    await end();
  });
});
