import { describe, expect, it } from 'vitest';
import { base, entry } from './base.ts';
import { MUST_HAVE } from './must-have.ts';

describe('what an old house is known for', () => {
  it.each(MUST_HAVE)('$what has a complete entry', ({ materials = [], failures = [] }) => {
    for (const id of materials) {
      const material = entry(base.materials, id);
      const lacking = [
        material.know.length === 0 && 'know',
        material.lookAlikes.length === 0 && 'lookAlikes',
        material.also.length === 0 && 'also',
        material.usuallyReplacedBy === undefined && 'usuallyReplacedBy',
        material.usuallyStays === undefined && 'usuallyStays',
        material.inUse === undefined && 'inUse',
        material.hazards.length === 0 && 'hazards',
        material.papers.length === 0 && 'papers',
        material.body.split(/\s+/).length < 30 && 'body',
      ].filter((field) => field !== false);
      expect(lacking, `materials/${id} lacks`).toEqual([]);
    }
    for (const id of failures) {
      const failure = entry(base.failures, id);
      const finders = base.checks.filter((c) => c.finds.some((f) => f.failure === id));
      const lacking = [
        failure.symptoms.length < 3 && 'symptoms',
        failure.trade.length === 0 && 'trade',
        failure.rivals.length === 0 && 'rivals',
        failure.coverUp === undefined && 'coverUp',
        failure.upkeep === undefined && 'upkeep',
        failure.body.split(/\s+/).length < 30 && 'body',
        finders.length < 2 && 'a second check',
        !base.questions.some((q) => q.failures.includes(id)) && 'a question',
      ].filter((field) => field !== false);
      expect(lacking, `failures/${id} lacks`).toEqual([]);
    }
  });

  it('asks about every failure mode that is to be settled first', () => {
    const asked = new Set(base.questions.flatMap((q) => q.failures));
    const unasked = base.failures.filter((f) => f.soon === 'settle-first' && !asked.has(f.id));
    expect(unasked.map((f) => f.id)).toEqual([]);
  });
});
