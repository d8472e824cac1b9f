import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fold } from '../../src/search/fold.ts';
import { highlight } from '../../src/search/highlight.ts';
import { slipsBetween } from '../../src/search/slips.ts';
import { sensesOf } from '../../src/search/symptom-index.ts';
import { wordsOf } from '../../src/search/words.ts';

describe('words', () => {
  it('joins numbers to their units however they are written', () => {
    for (const text of ['60 amp', '60-amp', '60amp', '60 amps', '60A'])
      expect(wordsOf(text)).toContain('60amp');
    for (const text of ['9x9', '9 x 9', '9"x9"', '9 by 9', '9×9']) expect(wordsOf(text)).toContain('9x9');
  });

  it('folds plurals and verbs the same on both sides, and keeps apart what is not the same', () => {
    for (const family of ['pipe pipes piping piped', 'wire wires wiring wired', 'sag sags sagging sagged'])
      expect(new Set(family.split(' ').map(fold)).size, family).toBe(1);
    for (const family of ['drip dripping', 'crack cracked cracks', 'battery batteries', 'settle settling'])
      expect(new Set(family.split(' ').map(fold)).size, family).toBe(1);
    for (const pair of ['tub tube', 'slat slate', 'plan plane', 'brass bras'])
      expect(new Set(pair.split(' ').map(fold)).size, pair).toBe(2);
    expect(fold('gas')).toBe('gas');
  });
});

describe('slips', () => {
  it('counts a letter wrong, left out, too many and two swapped as one', () => {
    for (const slip of ['chimnoy', 'chimny', 'chimnney', 'chinmey'])
      expect(slipsBetween('chimney', slip, 2), slip).toBe(1);
    expect(slipsBetween('pier', 'porch', 2)).toBe(Number.POSITIVE_INFINITY);
  });

  it('counts the same both ways', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 8 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(slipsBetween(a, b, 3)).toBe(slipsBetween(b, a, 3));
        if (a === b) expect(slipsBetween(a, b, 3)).toBe(0);
      }),
    );
  });
});

describe('highlight', () => {
  it('marks the word, its plural, a slip of it and what begins so', () => {
    const hits = (text: string, ...matched: string[]): string[] =>
      highlight(text, matched).flatMap((s) => (s.hit ? [s.text] : []));
    expect(hits('Chimneys lean; one chimney leans', 'chimny', 'lean')).toEqual([
      'Chimneys',
      'lean',
      'chimney',
      'leans',
    ]);
    expect(hits('Galvanized pipe', 'galv')).toEqual(['Galvanized']);
    expect(hits('Nothing here', 'chimney')).toEqual([]);
  });

  it('leaves the text as it is', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.array(fc.string(), { maxLength: 4 }), (text, words) => {
        expect(
          highlight(text, words)
            .map((s) => s.text)
            .join(''),
        ).toBe(text);
      }),
    );
  });
});

describe('signs', () => {
  it('are told apart by how they are met', () => {
    expect(sensesOf('radiator banging')).toEqual(['heard']);
    expect(sensesOf('sewer smell in basement')).toEqual(['smelt']);
    expect(sensesOf('bouncy floor')).toEqual(['felt']);
    expect(sensesOf('60 amp service')).toEqual(['measured']);
    expect(sensesOf('cracked hearth')).toEqual(['seen']);
  });
});
