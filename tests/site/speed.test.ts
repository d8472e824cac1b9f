import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

/** Slow 4G as page audits have it: 150 ms there and back, 1.6 megabits down, 0.75 up, and a processor four
 * times slower. */
const SLOW_4G = {
  offline: false,
  latency: 150,
  downloadThroughput: (1638.4 * 1024) / 8,
  uploadThroughput: (750 * 1024) / 8,
};

interface Measured {
  /** Milliseconds to the largest paint. */
  lcp: number;
  /** Layout shift, summed over everything: stricter than the worst window. */
  shift: number;
  hosts: string[];
}

async function measure(path: string): Promise<Measured> {
  const { page, hosts, close } = await watch(site, { viewport: { width: 390, height: 844 } });
  const session = await page.context().newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', SLOW_4G);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.addInitScript(() => {
    const seen = { lcp: 0, shift: 0 };
    Object.assign(window, { seen });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) seen.lcp = Math.max(seen.lcp, entry.startTime);
    }).observe({ type: 'largest-contentful-paint', buffered: true });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        const { hadRecentInput, value } = Object(entry);
        if (hadRecentInput !== true) seen.shift += value;
      }
    }).observe({ type: 'layout-shift', buffered: true });
  });
  await page.goto(site.url + path, { waitUntil: 'networkidle' });
  await page.waitForTimeout(1500);
  const seen: { lcp: number; shift: number } = await page.evaluate(() => Object(window).seen);
  await close();
  return { ...seen, hosts: [...hosts] };
}

describe('on a phone at slow 4G', () => {
  it.each(['/', '/plan/', '/materials/knob-and-tube/', '/failures/deck-ledger-nailed/', '/eras/1910s/'])(
    '%s: largest paint within 1.5 s, layout shift under 0.02, nothing from elsewhere',
    async (path) => {
      // The machine may be busy with other things: the best of three is the page's own.
      const runs: Measured[] = [];
      while (runs.length < 3 && (runs.length === 0 || Math.min(...runs.map((r) => r.lcp)) >= 1500))
        runs.push(await measure(path));
      console.log(
        `${path} ${runs.map((r) => `${Math.round(r.lcp)} ms, shift ${r.shift.toFixed(4)}`).join('; ')}`,
      );
      expect(Math.min(...runs.map((r) => r.lcp))).toBeGreaterThan(0);
      expect(Math.min(...runs.map((r) => r.lcp))).toBeLessThan(1500);
      expect(Math.max(...runs.map((r) => r.shift))).toBeLessThan(0.02);
      for (const run of runs) expect(run.hosts).toEqual([new URL(site.url).host]);
    },
  );
});
