import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { DIST } from './site.ts';

const ASSETS = readdirSync(join(DIST, '_astro'));

/** Kilobytes of a file as it travels, gzipped. */
const weight = (path: string): number => gzipSync(readFileSync(join(DIST, path))).length / 1024;

/** Scripts or styles that a page asks for at once: those in its HTML and what they import. */
function weightOf(path: string, ending: '.js' | '.css'): number {
  const wanted = new Set<string>();
  const visit = (text: string): void => {
    for (const [, name] of text.matchAll(/["'/]([\w.-]+\.(?:js|css))["']/g)) {
      if (name === undefined || wanted.has(name) || !ASSETS.includes(name) || !name.endsWith(ending))
        continue;
      wanted.add(name);
      if (ending === '.js') visit(imports(readFileSync(join(DIST, '_astro', name), 'utf8')));
    }
  };
  visit(readFileSync(join(DIST, path, 'index.html'), 'utf8'));
  return [...wanted].reduce((sum, name) => sum + weight(`_astro/${name}`), 0);
}

/** Only what a script imports at its head: workers and what is fetched later are counted apart. */
const imports = (script: string): string =>
  (script.match(/(?:^|;)import[^;]*?["'][^"']+["']/g) ?? []).join(';');

/** A budget is raised on purpose, in one line, with a reason. */
describe('weights, gzipped', () => {
  it.each(['/systems/branch-wiring/', '/materials/knob-and-tube/', '/checks/open-panel/', '/eras/1910s/'])(
    '%s: no script, at most 14 KB of styles and 20 KB of text',
    (path) => {
      expect(weightOf(path, '.js')).toBe(0);
      expect(weightOf(path, '.css')).toBeLessThan(14);
      expect(weight(`${path}index.html`)).toBeLessThan(20);
    },
  );

  it('the planning page: at most 30 KB of scripts, its worker 60, the base 260', () => {
    expect(weightOf('/plan/', '.js')).toBeGreaterThan(2);
    expect(weightOf('/plan/', '.js')).toBeLessThan(30);
    expect(weight('plan/index.html')).toBeLessThan(80);
    for (const name of ASSETS.filter((a) => a.startsWith('worker')))
      expect(weight(`_astro/${name}`)).toBeLessThan(60);
    expect(weight('base.json')).toBeLessThan(260);
  });

  it('the schema library and the drawing library stay out of the browser', () => {
    for (const name of ASSETS.filter((a) => a.endsWith('.js'))) {
      const script = readFileSync(join(DIST, '_astro', name), 'utf8');
      expect(script).not.toMatch(/ZodError|invalid_type|_zod/);
      expect(script).not.toMatch(/curveMonotone|scaleLinear/);
    }
  });
});
