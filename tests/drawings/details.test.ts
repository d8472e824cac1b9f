import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ART, detailDrawing, LEADING, placeNotes, SHEET_WIDTH } from '../../src/drawings/detail.ts';
import { DETAILS } from '../../src/drawings/figures/index.ts';
import { toHtml } from '../../src/markup/html.ts';

const ROOT = join(import.meta.dirname, '../..');
const SNAPSHOTS = join(import.meta.dirname, 'snapshots');

/** One element a line, so that a change shows as the lines that changed. */
const normalised = (svg: string): string =>
  `${svg.replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" ').replaceAll('><', '>\n<')}\n`;

describe.each(DETAILS.map((d) => [d.id, d] as const))('the drawing %s', (id, detail) => {
  const svg = toHtml(detailDrawing(detail));

  it('is the one that was looked at', async () => {
    await expect(normalised(svg)).toMatchFileSnapshot(join(SNAPSHOTS, `${id}.svg`));
  });

  it('stands on pages that exist, and says in words what it shows', () => {
    expect(detail.shows.length).toBeGreaterThan(0);
    for (const page of detail.shows)
      expect(existsSync(join(ROOT, 'knowledge', `${page}.mdx`)), page).toBe(true);
    expect(svg).toContain('<title id=');
    expect(svg).toContain('<desc id=');
    expect(detail.desc.length).toBeGreaterThan(80);
    expect(detail.notes.length).toBeGreaterThanOrEqual(3);
  });

  it('has whole numbers and no note over another or off the sheet', () => {
    expect(svg).not.toMatch(/NaN|undefined|Infinity|hatch:/);
    const placed = placeNotes(detail.notes);
    for (const [i, { lines, top, to }] of placed.entries()) {
      const next = placed[i + 1];
      if (next !== undefined) expect(next.top).toBeGreaterThanOrEqual(top + lines.length * LEADING);
      // 8 units a letter is the widest of the lettering faces at this size.
      for (const line of lines) expect(252 + line.length * 8).toBeLessThanOrEqual(SHEET_WIDTH);
      expect(to[0]).toBeLessThanOrEqual(ART);
      expect(to[1]).toBeLessThanOrEqual(Math.max(detail.height, top));
    }
  });

  it('names no substance as present and gives no clearance', () => {
    const words = `${detail.title} ${detail.desc} ${detail.tell} ${detail.notes.map((n) => n.say).join(' ')}`;
    expect(words).not.toMatch(/\b(absent|cleared|safe|up to code|proves?|active)\b/i);
  });
});

describe('the drawings together', () => {
  it('are at least thirty, each under a name of its own, with no snapshot left over', () => {
    expect(DETAILS.length).toBeGreaterThanOrEqual(30);
    expect(new Set(DETAILS.map((d) => d.id)).size).toBe(DETAILS.length);
    expect(readdirSync(SNAPSHOTS).sort()).toEqual(DETAILS.map((d) => `${d.id}.svg`).sort());
  });
});
