import { describe, expect, it } from 'vitest';
import { type BaseIndex, indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { type Condition, judge } from '../../planner/condition/condition.ts';
import type { House, HouseInput } from '../../planner/house/house.ts';
import { AT_ONCE, chooseChecks } from '../../planner/walk/choose.ts';
import { pose } from '../../planner/walk/pose.ts';
import { Search } from '../../planner/walk/search.ts';
import { makeWalk } from '../../planner/walk/walk.ts';
import { walksWithoutClues } from '../../planner/walk/without-clues.ts';
import { base, resolved } from './any-house.ts';

const CLUES = ['porcelain-knobs-seen', 'gray-threaded-magnetic-pipe', 'toilet-rocks'];

function houseOf(built: number, team: number, clues: string[], minutes = 240): House {
  const input: HouseInput = {
    asOf: 2026,
    place: 'OH',
    parts: [{ built, foundation: 'basement-stone' }],
    clues: clues.map((id) => ({ id })),
    visit: { minutes, team },
  };
  return resolved(input);
}

const conditionsOf = (index: BaseIndex, house: House): Condition[] =>
  judge(index, house, believe(index, house));

const walkOf = (index: BaseIndex, house: House): string =>
  JSON.stringify(makeWalk(index, house, conditionsOf(index, house)));

describe('a walk after a clue', { timeout: 60_000 }, () => {
  it('is the same bytes whatever was planned before', () => {
    const [a, b] = [houseOf(1905, 2, CLUES), houseOf(1948, 3, CLUES.slice(0, 1))];
    const fresh = [a, b].map((house) => walkOf(indexBase(structuredClone(base)), house));
    const worn = indexBase(structuredClone(base));
    walkOf(worn, { ...b, clues: [] });
    expect(walkOf(worn, b)).toBe(fresh[1]);
    expect(walkOf(worn, a)).toBe(fresh[0]);
    // More houses than are kept.
    for (let year = 1900; year < 1910; year++) walkOf(worn, houseOf(year, 1, []));
    expect(walkOf(worn, b)).toBe(fresh[1]);
    walkOf(worn, { ...a, clues: [] });
    expect(walkOf(worn, a)).toBe(fresh[0]);
  });

  it('is worth what the whole search finds, but for a little', () => {
    const index = indexBase(base);
    const shares: number[] = [];
    for (const built of [1885, 1912, 1936])
      for (const team of [1, 2, 3])
        for (const clue of CLUES) {
          const house = houseOf(built, team, [clue]);
          const { problem } = pose(index, house, conditionsOf(index, house));
          const near = walksWithoutClues(index, house, problem);
          expect(near).not.toBeNull();
          const [quick, whole] = [near, null].map((from) =>
            chooseChecks(new Search(problem), house.visit.minutes, AT_ONCE, from),
          );
          if (!quick?.feasible || !whole?.feasible) continue;
          shares.push(quick.best.worth / whole.best.worth);
          expect(quick.curve.map((c) => c.minutes)).toEqual(whole.curve.map((c) => c.minutes));
          quick.curve.slice(1).forEach((c, i) => {
            expect(c.worth).toBeGreaterThanOrEqual(quick.curve[i]?.worth ?? 0);
          });
        }
    expect(shares.length).toBeGreaterThan(12);
    expect(Math.min(...shares)).toBeGreaterThan(0.985);
    expect(shares.reduce((a, b) => a + b, 0) / shares.length).toBeGreaterThan(0.999);
  });

  it('is sought from nothing where the clues changed the checks', () => {
    const index = indexBase(base);
    const house = houseOf(1912, 2, CLUES);
    const { problem } = pose(index, house, conditionsOf(index, house));
    const fewer = { ...problem, tasks: problem.tasks.slice(1) };
    expect(walksWithoutClues(index, house, fewer)).toBeNull();
  });
});
