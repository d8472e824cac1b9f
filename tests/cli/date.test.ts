import { describe, expect, it } from 'vitest';
import { datestone } from './run-datestone.ts';

interface Printed {
  schema: string;
  likely: { from: number; to: number; middle: number };
  decades: { p: number }[];
  additions: { part: string; likely: { middle: number } }[];
  drivers: { clue: string; part: string; moves: number; timesLikelierWithout: number | null }[];
  record: { doubted: boolean; timesLikelier: number; right: number } | null;
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

  it('says how likely the listed year is right, and what it would be without each clue', () => {
    const d = dated('--clue', 'rough-stone-base-seen', '--clue', 'split-level-seen', '--listed', '1965');
    const { timesLikelier, right } = d.record ?? { timesLikelier: 0, right: 0 };
    expect(right).toBeCloseTo(0.9 / (0.9 + 0.1 * timesLikelier), 2);
    const stone = d.drivers.find((x) => x.clue === 'rough-stone-base-seen');
    expect(stone?.timesLikelierWithout).toBeLessThan(timesLikelier);
  });

  it('says to two figures which way the other clues speak', () => {
    const out = datestone(
      'date --as-of 2026 --place OH --listed 1955 --clue porcelain-knobs-seen --clue header-courses-seen'.split(
        ' ',
      ),
    ).out.replace(/\s+/g, ' ');
    expect(out).toMatch(/the other clues (are [\d.]+ times likelier for|do not tell it from)/);
    for (const [, times = ''] of out.matchAll(/([\d.]+) times likelier/g)) {
      expect(Number(times)).toBeGreaterThan(1);
      expect(Number(Number(times).toPrecision(2))).toBe(Number(times));
    }
  });

  it('dates an addition by the clues met in it', () => {
    const d = dated('--clue', 'rough-stone-base-seen', '--clue', 'gray-block-base-seen@kitchen wing');
    expect(d.additions.map((a) => a.part)).toEqual(['kitchen wing']);
    expect(d.additions[0]?.likely.middle).toBeGreaterThan(d.likely.middle);
    expect(d.drivers.map((x) => x.part).sort()).toEqual(['kitchen wing', 'main block']);
  });

  it('does what its help shows', () => {
    const examples = datestone(['date', '--help']).out.matchAll(/^ {2}datestone (date .*)$/gm);
    for (const [, words = ''] of examples)
      expect(datestone(words.split(/\s+/))).toMatchObject({ code: 0, err: '' });
    expect.assertions(2);
  });

  it('refuses to date from nothing, or a listed year to come', () => {
    expect(datestone(['date', '--place', 'OH'])).toMatchObject({ code: 2, out: '' });
    expect(datestone(['date', '--clue', 'porcelain-knobs-seen', '--listed', '3000'])).toMatchObject({
      code: 2,
      out: '',
    });
  });
});
