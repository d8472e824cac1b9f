import { describe, expect, it } from 'vitest';
import { readingGrade, syllables } from '../../knowledge/rules/readability.ts';

describe('reading grade', () => {
  it.each([
    ['make', 1],
    ['table', 2],
    ['houses', 2],
    ['wires', 1],
    ['used', 1],
    ['wanted', 2],
    ['opened', 2],
    ['electrician', 4],
    ['sewer', 2],
    ['insurance', 3],
    ['people', 2],
    ['edges', 2],
    ['settled', 2],
    ['material', 4],
    ['radio', 3],
    ['foundation', 3],
    ['cable', 2],
    ['the', 1],
  ])('%s has %i syllables', (word, count) => {
    expect(syllables(word)).toBe(count);
  });

  it('is the Flesch-Kincaid sum: 0.39 words a sentence, 11.8 syllables a word, less 15.59', () => {
    // Six words of one syllable in one sentence.
    expect(readingGrade('The cat sat on the mat.')).toBeCloseTo(0.39 * 6 + 11.8 - 15.59, 10);
    // Two sentences halve the words a sentence.
    expect(readingGrade('The cat sat. On the mat.')).toBeCloseTo(0.39 * 3 + 11.8 - 15.59, 10);
  });

  it('rises with longer words and longer sentences', () => {
    const plain = readingGrade('The pipe leaks. Call a plumber.');
    const stiff = readingGrade(
      'Deteriorated plumbing infrastructure necessitates professional intervention.',
    );
    expect(stiff).toBeGreaterThan(plain + 8);
  });
});
