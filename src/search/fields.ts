import type { SearchDocument } from './documents.ts';
import type { Synonyms } from './synonyms.ts';

/** How much a hit in each field counts. */
export const WEIGHTS = { title: 8, symptoms: 8, also: 5, same: 3, answer: 3, body: 1 } as const;
export type Field = keyof typeof WEIGHTS;
export const FIELDS: Field[] = ['title', 'symptoms', 'also', 'same', 'answer', 'body'];

export type FieldTexts = Record<Field, string>;

/** The fields of an entry as text, with names set apart by a full stop. */
export function fieldTexts(document: SearchDocument, synonyms: Synonyms): FieldTexts {
  return {
    title: document.title,
    also: document.also.join(' . '),
    symptoms: document.symptoms.join(' . '),
    same: synonyms.of([document.title, ...document.also, ...document.symptoms].join(' . ')).join(' . '),
    answer: document.answer,
    body: document.body.join(' . '),
  };
}
