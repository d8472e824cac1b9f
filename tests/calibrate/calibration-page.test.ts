import { describe, expect, it } from 'vitest';
import {
  nextScoring,
  scoredSentence,
  sectionsOf,
  withSections,
} from '../../src/calibrate/calibration-page.ts';

describe('docs/calibration.md', () => {
  const page = withSections('', [
    ['## One', '', 'first', ''],
    ['## Two', '', 'second'],
  ]);

  it('keeps the sections that are not made anew', () => {
    const next = withSections(page, [['## Two', '', 'another']]);
    expect(sectionsOf(next).get('## One')).toContain('first');
    expect(next).toContain('another');
    expect(next).not.toContain('second');
  });

  it('comes out the same when nothing is new', () => {
    expect(withSections(page, [])).toBe(page);
  });

  it('puts a new section last', () => {
    const next = withSections(page, [['## Three', '', 'third']]);
    expect([...sectionsOf(next).keys()]).toEqual(['## One', '## Two', '## Three']);
  });

  it('counts every scoring of each thing that is kept out, also across a line break', () => {
    expect(nextScoring(page, 'The kept-out rows')).toBe(1);
    const scored = withSections(page, [['## One', '', `${scoredSentence('The kept-out\nrows', 3)}`]]);
    expect(nextScoring(scored, 'The kept-out rows')).toBe(4);
    expect(nextScoring(scored, 'The survey cells')).toBe(1);
  });
});
