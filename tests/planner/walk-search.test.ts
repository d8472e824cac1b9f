import { describe, expect, it } from 'vitest';
import { random } from '../../planner/numerics/sampling.ts';
import { Finds, Margins } from '../../planner/value/margins.ts';
import { Worth } from '../../planner/value/worth.ts';
import { makeProblem } from '../../planner/walk/problem.ts';
import { EVEN, Search } from '../../planner/walk/search.ts';
import { fullCase } from '../bench/walk-cases.ts';

describe('margins', () => {
  it('stay what worth says, whatever was added and removed', () => {
    const { targets, tasks } = fullCase(5).problem;
    const margins = new Margins(new Finds(targets, tasks));
    margins.load(new Uint8Array(tasks.length));
    const members = new Set<number>();
    const next = random(11);
    for (let step = 0; step < 400; step++) {
      const i = Math.floor(next() * tasks.length);
      if (members.delete(i)) margins.remove(i);
      else {
        members.add(i);
        margins.add(i);
      }
    }
    const worth = new Worth(targets, tasks);
    for (const i of members) worth.add(i);
    expect(margins.total()).toBeCloseTo(worth.total, 9);
    expect(margins.sum).toBeCloseTo(worth.total, 9);
    tasks.forEach((_, i) => {
      expect(margins.of[i]).toBeCloseTo(members.has(i) ? worth.loss(i) : worth.gain(i), 9);
    });
  });
});

describe('a draft', () => {
  it('leaves each person the room that the clock finds, where nobody waits', () => {
    for (const seed of [0, 1, 2, 3]) {
      const { problem: given, minutes } = fullCase(seed);
      const { team, geometry, targets } = given;
      const tasks = given.tasks.map((task) => ({ ...task, waits: [] }));
      const problem = makeProblem({ team, geometry, tasks, targets, prefer: [] });
      const search = new Search(problem);
      const least = search.least();
      if (least === null) throw new Error('no walk');
      const draft = search.draft(least, minutes);
      const next = random(seed);
      for (let step = 0; step < 60; step++) {
        const i = search.optional[Math.floor(next() * search.optional.length)] ?? 0;
        if (draft.chosen[i] === 1) search.take(draft, i);
        else search.put(draft, i);
        const stop = problem.owned[Math.floor(next() * problem.owned.length)] ?? 0;
        draft.hand(stop, Math.floor(next() * problem.team));
      }
      const expected = draft.room.slice();
      draft.read(search.clock, minutes);
      draft.room.forEach((room, w) => {
        expect(room).toBeCloseTo(expected[w] ?? 0, 6);
      });
    }
  });

  it('is tidied without a minute or a check more', () => {
    for (const seed of [1, 2, 3, 6]) {
      const { problem, minutes } = fullCase(seed);
      const search = new Search(problem);
      const ready = (): number => search.clock.ready.reduce((sum, r) => sum + r, 0);
      const least = search.least();
      if (least === null) throw new Error('no walk');
      const greedy = search.draft(least, minutes);
      search.fill(greedy, EVEN);
      const length = search.settle(greedy, minutes);
      if (length === null) throw new Error('does not fit');
      const choice = search.choice(greedy, length);
      search.clock.run(choice.chosen, choice.owner);
      const before = ready();
      const tidy = search.tidy(choice);
      expect(tidy.chosen).toEqual(choice.chosen);
      expect(tidy.length).toBeLessThanOrEqual(choice.length + 1e-9);
      search.clock.run(tidy.chosen, tidy.owner);
      expect(ready()).toBeLessThanOrEqual(before + 1e-9);
    }
  });
});
