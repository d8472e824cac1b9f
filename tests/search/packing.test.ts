import lunr from 'lunr';
import { describe, expect, it } from 'vitest';
import { documentsOf } from '../../src/search/documents.ts';
import { FIELDS, WEIGHTS } from '../../src/search/fields.ts';
import { cutDocuments } from '../../src/search/make-index.ts';
import { LENGTH } from '../../src/search/packing.ts';
import { base, searcher } from './whole-base.ts';

/** The index as lunr's own builder makes it of the same words. */
function builtByLunr(): lunr.Index {
  const builder = new lunr.Builder();
  builder.ref('ref');
  builder.b(LENGTH);
  for (const field of FIELDS) builder.field(field, { boost: WEIGHTS[field] });
  for (const [ref, words] of cutDocuments(base, documentsOf(base)).entries()) builder.add({ ref, ...words });
  return builder.build();
}

describe('the packed index', () => {
  it('is the one that lunr builds: the same entries with the same scores', () => {
    const built = builtByLunr();
    for (const words of [
      ['chimne', 'lean'],
      ['wire'],
      ['water', 'basement', 'wall'],
      ['60amp'],
      ['nowhere'],
    ]) {
      const ask = (index: lunr.Index): Map<string, number> =>
        new Map(
          index
            .query((q) => {
              for (const word of words) q.term(word, { usePipeline: false });
            })
            .map(({ ref, score }) => [ref, score]),
        );
      const [theirs, ours] = [ask(built), ask(searcher.index)];
      expect([...ours.keys()].sort(), words.join(' ')).toEqual([...theirs.keys()].sort());
      for (const [ref, score] of theirs)
        expect(ours.get(ref), `${words.join(' ')} ${ref}`).toBeCloseTo(score, 6);
    }
  });
});
