import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { listen, siteServer } from '../../src/run/serve.mjs';

const ROOT = join(import.meta.dirname, '../..');
/** The built site; a build put elsewhere is tested by naming its folder. */
export const DIST = process.env.DATESTONE_DIST ?? join(ROOT, 'dist');

/** The built site, served, and a browser to look at it with. */
export interface Site {
  browser: Browser;
  url: string;
  close(): Promise<void>;
}

export async function openSite(): Promise<Site> {
  // The browser unpacks itself into TMPDIR and takes what it finds there, so the folder is the project's own.
  process.env.TMPDIR = join(ROOT, '.cache/chromium');
  mkdirSync(process.env.TMPDIR, { recursive: true });
  const { default: bundled } = await import('@sparticuz/chromium');
  const server = siteServer(DIST);
  const port = await listen(server, 4700);
  const browser = await chromium.launch({
    executablePath: await bundled.executablePath(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage'],
  });
  return {
    browser,
    url: `http://localhost:${port}`,
    async close() {
      await browser.close();
      await new Promise((done) => server.close(done));
    },
  };
}

/** A page that remembers what went wrong in it and which hosts it asked. */
export interface Watched {
  page: Page;
  faults: string[];
  hosts: Set<string>;
  close(): Promise<void>;
}

export async function watch(site: Site, options: BrowserContextOptions = {}): Promise<Watched> {
  const context = await site.browser.newContext(options);
  const page = await context.newPage();
  const faults: string[] = [];
  const hosts = new Set<string>();
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('request', (request) => {
    const { protocol, host } = new URL(request.url());
    if (protocol.startsWith('http')) hosts.add(host);
  });
  return { page, faults, hosts, close: () => context.close() };
}

/** One page of each type. */
export const PAGES = [
  '/',
  '/plan/',
  '/brief/',
  '/search/',
  '/symptoms/',
  '/symptoms/by-heard/',
  '/systems/',
  '/systems/branch-wiring/',
  '/materials/',
  '/materials/knob-and-tube/',
  '/failures/',
  '/failures/insulation-over-knob-and-tube/',
  '/checks/',
  '/checks/open-panel/',
  '/eras/',
  '/eras/1910s/',
  '/failures/deck-ledger-nailed/',
  '/questions/',
  '/chains/',
  '/then/',
  '/sources/',
  '/places/',
  '/places/GA/',
  '/about/',
  '/calibration/',
] as const;
