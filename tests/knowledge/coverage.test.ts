import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { coverageText } from '../../src/knowledge/coverage.ts';
import { gapsOf } from '../../src/knowledge/coverage-gaps.ts';
import { drawFigures, sourcedFigures } from '../../src/knowledge/draw-figures.ts';
import { base } from './base.ts';

describe('coverage', () => {
  it('is written down as it is', () => {
    expect(readFileSync(join(import.meta.dirname, '../../docs/coverage.md'), 'utf8')).toBe(
      coverageText(base),
    );
  });

  it('names a gap where one is made', () => {
    const copy = structuredClone(base);
    const failure = copy.failures.find((f) => f.soon === 'settle-first' && f.coverUp !== undefined);
    if (failure === undefined) throw new Error('no failure mode is to be settled first');
    failure.coverUp = undefined;
    for (const check of copy.checks) check.finds = check.finds.filter((f) => f.failure !== failure.id);
    const gaps = gapsOf(copy);
    expect(gaps.find((g) => g.what.includes('no single look'))?.entries).toContain(failure.id);
    expect(gaps.find((g) => g.what.includes('cover-up'))?.entries).toContain(failure.id);
  });
});

describe('figures drawn to be checked', () => {
  it('are the same for the same seed and others for another', () => {
    const names = (seed: number): string[] => drawFigures(base, seed, 40).map((f) => `${f.file} ${f.field}`);
    expect(names(1885)).toEqual(names(1885));
    expect(names(1885)).not.toEqual(names(1886));
    expect(new Set(names(1885)).size).toBe(40);
  });

  it('all name a source and are graded measured or published', () => {
    for (const f of sourcedFigures(base)) {
      expect(f.source.length).toBeGreaterThan(0);
      expect(['measured', 'published']).toContain(f.grade);
    }
  });
});
