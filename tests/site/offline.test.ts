import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { offlineFiles } from '../../src/offline/offline-files.ts';
import { listen, siteServer } from '../../src/run/serve.mjs';
import { DIST, openSite, type Site, watch } from './site.ts';

let site: Site;
/** A copy of the site that a test may change, as a host changes when a newer version is put there. */
let folder: string;
let url: string;
let closeServer: () => Promise<unknown>;
beforeAll(async () => {
  site = await openSite();
  folder = mkdtempSync(join(tmpdir(), 'datestone-'));
  cpSync(DIST, folder, { recursive: true });
  const server = siteServer(folder);
  url = `http://localhost:${await listen(server, 4800)}`;
  closeServer = () => new Promise((done) => server.close(done));
});
afterAll(async () => {
  await site.close();
  await closeServer();
  rmSync(folder, { recursive: true, force: true });
});

const line = (page: Page): Promise<string | null> => page.locator('#offline-line').textContent();

async function save(page: Page): Promise<void> {
  await page.goto(url, { waitUntil: 'networkidle' });
  expect(await line(page)).toContain('Not saved on this device');
  await page.click('#offline-line button');
  await page.waitForFunction(
    () => document.querySelector('#offline-line')?.textContent?.includes('Saved for offline'),
    undefined,
    { timeout: 50_000 },
  );
}

describe('without a signal', () => {
  it('saves nothing unasked; then plans, searches and reads with the network off', async () => {
    const { page, close } = await watch(site);
    await page.goto(url, { waitUntil: 'networkidle' });
    expect(await page.evaluate(async () => (await caches.keys()).length)).toBe(0);
    await save(page);
    const { revision } = JSON.parse(readFileSync(join(folder, 'offline-size.json'), 'utf8'));
    expect(await line(page)).toContain(`version ${revision.slice(0, 8)}`);
    expect(await line(page)).toMatch(/[A-Z][a-z]{2} \d{1,2}, 20\d\d/);

    await page.context().setOffline(true);
    await page.goto(`${url}/plan/#built=1921&foundation=crawl&place=OH`);
    await page.waitForFunction(() => document.querySelector('#plan')?.textContent?.includes('1921'));
    expect(await line(page)).toContain('No signal now');
    await page.goto(`${url}/search/#q=porcelain`);
    await page.waitForFunction(() => (document.querySelector('#results')?.children.length ?? 0) > 0);
    await page.goto(`${url}/failures/deck-ledger-nailed/`);
    expect(await page.locator('h1').textContent()).toMatch(/\w/);
    // A folder without its slash, and with a question mark, is the same page.
    await page.goto(`${url}/systems?from=elsewhere`);
    expect(new URL(page.url()).pathname).toBe('/systems/');
    const nowhere = await page.goto(`${url}/no/such/sheet/`);
    expect(nowhere?.status()).toBe(404);
    expect(await page.locator('h1').textContent()).toBe('No such sheet');
    await close();
  });

  it('a newer version waits until the person takes it; the one before is kept', async () => {
    const { page, close } = await watch(site);
    await save(page);
    const about = join(folder, 'about/index.html');
    writeFileSync(about, readFileSync(about, 'utf8').replace('How it works</h1>', 'How it works now</h1>'));
    const paths = JSON.parse(
      /files(?:: [^=]*)? = (\[\[.*\]\])/.exec(readFileSync(join(folder, 'sw.js'), 'utf8'))?.[1] ?? '[]',
    );
    const names = paths.map(([path]: [string]) =>
      path === '' || path.endsWith('/') ? `${path}index.html` : path,
    );
    for (const { name, text } of offlineFiles(folder, names)) writeFileSync(join(folder, name), text);

    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
    await page.waitForFunction(() =>
      document.querySelector('#offline-line')?.textContent?.includes('newer version'),
    );
    await page.goto(`${url}/about/`);
    expect(await page.locator('h1').textContent()).toBe('How it works');
    await page.waitForFunction(() => document.querySelector('#offline-line button') !== null);
    await Promise.all([page.waitForEvent('load'), page.click('#offline-line button')]);
    await page.waitForFunction(() => document.querySelector('h1')?.textContent === 'How it works now');
    expect(await page.evaluate(async () => (await caches.keys()).length)).toBe(2);
    await close();
  });
});
