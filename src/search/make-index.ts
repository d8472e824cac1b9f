import lunr from 'lunr';
import type { Base } from '../../knowledge/schema/base.ts';
import { documentsOf } from './documents.ts';
import type { SearchFile } from './search-file.ts';
import { synonymsOf } from './synonyms.ts';
import { formsOf, isStopWord, wordsOf } from './words.ts';

/** How much a hit in each field counts. */
const WEIGHTS = { title: 8, also: 5, symptoms: 6, same: 3, answer: 3, body: 1 } as const;
type Field = keyof typeof WEIGHTS;
const FIELDS = Object.keys(WEIGHTS) as Field[];

/** Makes the search index of a base. No stemmer (it breaks beginnings and slips), no positions (size). */
export function makeIndex(base: Base): SearchFile {
  const documents = documentsOf(base);
  const synonyms = synonymsOf(base.terms);
  const builder = new lunr.Builder();
  builder.ref('ref');
  for (const field of FIELDS) builder.field(field, { boost: WEIGHTS[field] });
  // Long bodies should not sink: the fields that matter are short, and length says little of worth here.
  builder.b(0.4);
  documents.forEach((document, ref) => {
    const texts: Record<Field, string> = {
      title: `${document.title} ${document.id.replaceAll('-', ' ')}`,
      also: document.also.join(' . '),
      symptoms: document.symptoms.join(' . '),
      answer: document.answer,
      body: document.body.join(' . '),
      same: synonyms.of([document.title, ...document.also, ...document.symptoms].join(' . ')).join(' . '),
    };
    builder.add({ ref, ...Object.fromEntries(FIELDS.map((field) => [field, tokens(texts[field])])) });
  });
  return {
    form: 1,
    base: base.hash,
    index: builder.build().toJSON(),
    entries: documents.map(({ id, kind, title, answer }) => ({ id, kind, title, answer })),
  };
}

/** lunr takes a list of words as it is: all cutting and folding is ours, on both sides the same. */
function tokens(text: string): string[] {
  return wordsOf(text)
    .filter((word) => !isStopWord(word))
    .flatMap(formsOf);
}
