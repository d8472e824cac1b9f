import { describe, expect, it } from 'vitest';
import { datestone } from './run-datestone.ts';

interface Printed {
  schema: string;
  likely: { from: number; to: number; middle: number };
  decades: { p: number }[];
  drivers: { clue: string; moves: number }[];
  record: { doubted: boolean } | null;
}

function dated(...args: string[]): Printed {
  return JSON.parse(
    datestone(['date', '--as-of', '2026', '--place', 'OH', '--json', ...args]).out,
  ) as Printed;
}

describe('date', () => {
  it('gives odds over decades that add to 1 and a span of four chances in five', () => {
    const d = dated('--clue', 'porcelain-knobs-seen');
    expect(d.schema).toBe('datestone.date/1');
    expect(d.decades.reduce((sum, x) => sum + x.p, 0)).toBeGreaterThan(0.99);
    expect(d.likely.from).toBeLessThan(d.likely.middle);
    expect(d.likely.middle).toBeLessThan(d.likely.to);
  });

  it('moves the years back for old work, and says which clue did it', () => {
    const old = dated('--clue', 'porcelain-knobs-seen', '--clue', 'rough-stone-base-seen');
    const newer = dated('--clue', 'gray-block-base-seen');
    expect(old.likely.middle).toBeLessThan(newer.likely.middle);
    expect(old.drivers.map((x) => x.clue).sort()).toEqual(['porcelain-knobs-seen', 'rough-stone-base-seen']);
    expect(old.drivers[0]?.moves).toBeGreaterThan(0.05);
  });

  it('doubts a listed year that the clues sit badly with, and not one that they fit', () => {
    const clues = ['--clue', 'porcelain-knobs-seen', '--clue', 'rough-stone-base-seen'];
    expect(dated(...clues, '--listed', '1985').record?.doubted).toBe(true);
    expect(dated(...clues, '--listed', '1900').record?.doubted).toBe(false);
  });

  it('refuses to date from nothing, or a listed year to come', () => {
    expect(datestone(['date', '--place', 'OH'])).toMatchObject({ code: 2, out: '' });
    expect(datestone(['date', '--clue', 'porcelain-knobs-seen', '--listed', '3000'])).toMatchObject({
      code: 2,
      out: '',
    });
  });
});
