import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { chanceIn } from '../../planner/belief/built-clues.ts';
import { type Condition, judge } from '../../planner/condition/condition.ts';
import type { HouseInput, Odds } from '../../planner/house/house.ts';
import { planHouse } from '../../planner/index.ts';
import { stakeOf } from '../../planner/value/stakes.ts';
import { worthOfYears } from '../../planner/value/year-worth.ts';
import { base, resolved } from './any-house.ts';

const index = indexBase(base);
const input = (built: string, clues: string[] = []): HouseInput => ({
  asOf: 2026,
  place: 'OH',
  parts: [{ built }],
  clues: clues.map((id) => ({ id })),
});
const looks = (built: string, clues: string[] = []) =>
  planHouse(base, resolved(input(built, clues)), input(built, clues)).looks;
const speaking = new Set(base.clues.flatMap((c) => (c.built === undefined ? [] : [c.id])));

describe('a look that speaks of the build year', () => {
  it('is worth nothing where the year is known, and stands first where nothing is', () => {
    expect(looks('1924').some((l) => speaking.has(l.clue))).toBe(false);
    expect(speaking.has(looks('unknown')[0]?.clue ?? '')).toBe(true);
    const few = looks('1920s').filter((l) => speaking.has(l.clue));
    const many = looks('1900-1960').filter((l) => speaking.has(l.clue));
    expect(many.length).toBeGreaterThan(few.length);
  });

  it.each([
    ['one-storey-on-one-level', '1900-1970', 'OH'],
    ['attached-garage-seen', '1900-1970', 'OH'],
    ['basement-under-80-inches', '1890-1940', 'VT'],
    ['closed-in-porch-seen', 'unknown', 'GA'],
    ['one-and-a-half-storeys', '1920-1990', 'CA'],
  ])(
    'is worth about what judging the house anew after either answer comes to: %s, %s, %s',
    (id, built, place) => {
      const clue = index.clues.get(id);
      const table = clue?.built;
      if (clue === undefined || table === undefined) throw new Error(`${id} says nothing of the year`);
      const house = resolved({ ...input(built), place });
      const main = house.parts[0];
      if (main === undefined) throw new Error('no part');
      const judged = (years: Odds<number>): Condition[] => {
        const all = years.reduce((sum, y) => sum + y.p, 0);
        const odds = years.map((y) => ({ ...y, p: y.p / all }));
        const one = { ...house, parts: [{ ...main, built: { ...main.built, years: odds } }] };
        return judge(index, one, believe(index, one));
      };
      const before = judged(main.built.years);
      let exact = 0;
      for (const met of [true, false]) {
        const years = main.built.years.map(({ value, p }) => {
          const chance = chanceIn(table, value);
          return { value, p: p * (met ? chance : 1 - chance) };
        });
        const odds = years.reduce((sum, y) => sum + y.p, 0);
        const after = judged(years);
        before.forEach((c, i) => {
          exact += odds * stakeOf(c.failure, []) * Math.abs((after[i]?.probability ?? 0) - c.probability);
        });
      }
      const worth = worthOfYears(clue, main.built.years, before, []);
      expect(worth / exact).toBeGreaterThan(0.5);
      expect(worth / exact).toBeLessThan(2);
    },
  );

  it('is not named again when its question was answered', () => {
    const group = index.clues.get('one-storey-on-one-level')?.group;
    const again = looks('1900-1960', ['one-storey-on-one-level']).filter(
      (l) => index.clues.get(l.clue)?.group === group,
    );
    expect(again).toEqual([]);
  });
});
