import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { policyFor, sealed } from '../../src/site/policy.ts';
import { DIST, openSite, PAGES, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const META = /<meta http-equiv="content-security-policy" content="([^"]*)">/g;

describe('the content policy', () => {
  it('stands once in every emitted page, before anything that loads, and fits what is inline in it', () => {
    const pages = readdirSync(DIST, { recursive: true, encoding: 'utf8' }).filter((p) => p.endsWith('.html'));
    expect(pages.length).toBeGreaterThan(300);
    for (const path of pages) {
      const html = readFileSync(join(DIST, path), 'utf8');
      const found = [...html.matchAll(META)];
      expect(found.length, path).toBe(1);
      expect(found[0]?.[1], path).toBe(policyFor(html));
      expect(html.search(/<(?:link|script|style)\b/), path).toBeGreaterThan(found[0]?.index ?? 0);
      expect(html, path).not.toMatch(/<[a-z][^<>]*\sstyle="/);
      expect(html, path).not.toMatch(/unsafe-|<[a-z][^<>]*\son[a-z]+="/);
    }
  });

  it('lets an inline script through by the hash of exactly its text', () => {
    const html =
      '<head><meta charset="utf-8"></head><script>let a = 1;</script><script src="/a.js"></script>';
    const hash = createHash('sha256').update('let a = 1;').digest('base64');
    expect(sealed(html, 'a page')).toContain(`script-src 'self' 'sha256-${hash}';`);
    expect(policyFor(html.replace('= 1', '= 2'))).not.toContain(hash);
  });

  it('refuses to emit an inline style attribute', () => {
    expect(() => sealed('<meta charset="utf-8"><p style="color: red">a</p>', 'a page')).toThrow(
      /inline style/,
    );
  });

  it.each(PAGES)('is not broken by %s, also when everything on it is used', async (path) => {
    const { page, faults, close } = await watch(site);
    await page.addInitScript(() => {
      const broken: string[] = [];
      Object.assign(window, { broken });
      document.addEventListener('securitypolicyviolation', (e) =>
        broken.push(`${e.violatedDirective} ${e.blockedURI}`),
      );
    });
    await page.goto(site.url + path, { waitUntil: 'networkidle' });
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true;
    });
    await page.waitForTimeout(50);
    expect(await page.evaluate(() => Object(window).broken)).toEqual([]);
    expect(faults).toEqual([]);
    await close();
  });

  it('stops a script and a style that get into a page all the same', async () => {
    const { page, close } = await watch(site);
    await page.goto(`${site.url}/about/`);
    const struck = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.struck = 1';
      document.body.append(script);
      const host = document.createElement('div');
      host.innerHTML = '<p style="color: rgb(1, 2, 3)">a</p><img src="x" onerror="window.struck = 2">';
      document.body.append(host);
      await new Promise((done) => setTimeout(done, 200));
      const p = host.querySelector('p');
      return { script: 'struck' in window, color: p === null ? '' : getComputedStyle(p).color };
    });
    expect(struck.script).toBe(false);
    expect(struck.color).not.toBe('rgb(1, 2, 3)');
    await close();
  });
});
