import { describe, expect, it } from 'vitest';
import { upperBound } from '../../planner/walk/bound.ts';
import { AT_ONCE, chooseChecks, REFINED } from '../../planner/walk/choose.ts';
import type { Choice } from '../../planner/walk/draft.ts';
import type { Problem } from '../../planner/walk/problem.ts';
import { Search } from '../../planner/walk/search.ts';
import { quantile, solveSmall } from '../bench/walk.ts';
import { faults } from '../bench/walk-audit.ts';
import { type Case, fullCase, tinyCase } from '../bench/walk-cases.ts';

/** The best walk of all: every set of optional checks, every way to share the stops out. */
function exhaust({ problem, minutes }: Case): number {
  const { tasks, owned, team, closure } = problem;
  const search = new Search(problem);
  const { optional } = search;
  let best = 0;
  for (let set = 0; set < 1 << optional.length; set++) {
    const chosen = new Uint8Array(tasks.length);
    for (const i of search.fixed) chosen[i] = 1;
    optional.forEach((i, k) => {
      if ((set & (1 << k)) !== 0) chosen[i] = 1;
    });
    if (optional.some((i) => chosen[i] === 1 && closure[i]?.some((need) => chosen[need] !== 1))) continue;
    for (let way = 0; way < team ** owned.length; way++) {
      const owner = new Int8Array(problem.geometry.stops.length);
      owned.forEach((stop, b) => {
        owner[stop] = Math.floor(way / team ** b) % team;
      });
      if (search.clock.run(chosen, owner) > minutes + 1e-9) continue;
      const choice: Choice = { chosen, owner, worth: 0, length: 0 };
      best = Math.max(best, search.draft(choice, minutes).margins.total());
      break;
    }
  }
  return best;
}

function chosen(problem: Problem, minutes: number, refined = false): Choice {
  const made = chooseChecks(new Search(problem), minutes, refined ? REFINED : AT_ONCE);
  if (made === null) throw new Error('no walk');
  return made.best;
}

describe('the bound of a walk', { timeout: 120_000 }, () => {
  it('is never below the best walk, which the search finds or nearly finds', () => {
    for (let seed = 0; seed < 24; seed++) {
      const one = tinyCase(seed, seed < 16 ? 0 : 2);
      const best = exhaust(one);
      const ours = chosen(one.problem, one.minutes);
      for (const mostStops of [0, 12])
        expect(
          upperBound(one.problem, ours, one.minutes, { priced: 40, held: 10, mostStops }) + 1e-6,
        ).toBeGreaterThanOrEqual(best);
      expect(ours.worth).toBeLessThanOrEqual(best + 1e-9);
      expect(ours.worth).toBeGreaterThanOrEqual(0.97 * best);
    }
  });

  it('holds for walks of full size, which are without fault', () => {
    for (let seed = 0; seed < 8; seed++) {
      const { problem, minutes } = fullCase(seed);
      const ours = chosen(problem, minutes);
      expect(faults(problem, ours, minutes)).toEqual([]);
      const bound = upperBound(problem, ours, minutes, AT_ONCE.bound);
      expect(ours.worth).toBeLessThanOrEqual(bound);
      expect(1 - ours.worth / bound).toBeLessThan(0.12);
    }
  });

  it('is not above the worth of everything', () => {
    const { problem } = fullCase(3);
    const ours = chosen(problem, 900);
    expect(ours.chosen.every((c) => c === 1)).toBe(true);
    expect(upperBound(problem, ours, 900, AT_ONCE.bound)).toBeCloseTo(ours.worth, 6);
  });
});

describe('a refined walk', { timeout: 120_000 }, () => {
  it('is worth at least what is shown at once, and more with more minutes', () => {
    for (const seed of [1, 2]) {
      const { problem, minutes } = fullCase(seed);
      const refined = chosen(problem, minutes, true);
      expect(refined.worth).toBeGreaterThanOrEqual(chosen(problem, minutes).worth - 1e-9);
      expect(chosen(problem, minutes + 3, true).worth).toBeGreaterThanOrEqual(refined.worth - 1e-9);
      expect(faults(problem, refined, minutes)).toEqual([]);
    }
  });
});

describe('small walks', { timeout: 300_000 }, () => {
  it('come close to what a solver finds', async () => {
    const { ours, unsolved } = await solveSmall(10);
    expect(unsolved).toBe(0);
    expect(ours.faults).toBe(0);
    // Rounding of the solver's coefficients and its tolerance.
    for (const gap of ours.gaps) expect(gap).toBeGreaterThan(-1e-5);
    expect(quantile(ours.gaps, 0.5)).toBeLessThanOrEqual(0.01);
    expect(quantile(ours.gaps, 1)).toBeLessThanOrEqual(0.06);
  });
});
