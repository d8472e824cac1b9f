import { describe, expect, it } from 'vitest';
import { makeGeometry } from '../../planner/walk/geometry.ts';
import { makeProblem, type Task } from '../../planner/walk/problem.ts';
import { base } from './any-house.ts';

describe('the shape of a walk', () => {
  const geometry = makeGeometry(base.stops);
  const task = (id: string, needs: number[]): Task => ({
    id,
    stop: 2,
    phase: 'main',
    minutes: 5,
    people: 1,
    guided: false,
    fixed: true,
    needs,
    follows: [],
    waits: [],
    finds: [],
  });
  const orderOf = (tasks: Task[]): number[] =>
    makeProblem({ team: 1, geometry, tasks, targets: [], prefer: [] }).sequence;

  it('is not kept for checks that need others', () => {
    expect(orderOf([task('a', []), task('b', [0])])).toEqual([0, 1]);
    expect(orderOf([task('a', [1]), task('b', [])])).toEqual([1, 0]);
  });
});
