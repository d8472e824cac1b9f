import { describe, expect, it } from 'vitest';
import {
  countByGrade,
  gradedIn,
  settleFirstFigures,
  unsourcedPart,
} from '../../knowledge/rules/settle-first.ts';
import { base } from './base.ts';

describe('figures behind what is to be settled first', () => {
  it('finds every graded figure of an entry, with its place', () => {
    const entry = {
      grade: 'practice',
      source: [],
      cost: { low: 1, high: 2, grade: 'measured', source: ['a'] },
      causes: [{ share: { best: 0.5, grade: 'published', source: ['b'] } }, { cause: 'ageing' }],
    };
    expect(gradedIn(entry, 'x')).toEqual([
      { file: 'x', field: '', grade: 'practice', source: [] },
      { file: 'x', field: 'cost', grade: 'measured', source: ['a'] },
      { file: 'x', field: 'causes.0.share', grade: 'published', source: ['b'] },
    ]);
  });

  it('counts what has no source', () => {
    expect(unsourcedPart([])).toBe(0);
    expect(
      unsourcedPart([
        { grade: 'practice' },
        { grade: 'memory' },
        { grade: 'measured' },
        { grade: 'published' },
      ]),
    ).toBe(0.5);
    expect(countByGrade([{ grade: 'memory' }, { grade: 'memory' }]).memory).toBe(2);
  });

  // The aim is 40%; no published source says how well a look finds a fault, so it is not reached. The figure
  // may fall, and must not rise: docs/coverage.md tells what stands in the way.
  it('rests on practice and memory no more than it did', () => {
    const figures = settleFirstFigures(base);
    expect(figures.length).toBeGreaterThan(400);
    expect(unsourcedPart(figures)).toBeLessThanOrEqual(0.855);
    const odds = figures.filter((f) => !f.field.startsWith('finds.'));
    expect(unsourcedPart(odds)).toBeLessThanOrEqual(0.725);
  });
});
