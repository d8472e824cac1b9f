import type { Base } from '../../knowledge/schema/base.ts';
import { documentsOf, type SearchDocument } from './documents.ts';
import { FIELDS, type Field, fieldTexts } from './fields.ts';
import { type FieldWords, toSteps } from './packing.ts';
import type { FiledEntry, SearchFile } from './search-file.ts';
import { synonymsOf } from './synonyms.ts';
import { foldedWords } from './words.ts';

/** Makes the search index of a base. No stemmer (it breaks beginnings and slips), no positions (size). */
export function makeIndex(base: Base): SearchFile {
  const documents = documentsOf(base);
  const cut = cutDocuments(base, documents);
  const names = documents.map(namesOf);
  const groups = base.terms.map(({ term, same }) => [term, ...same].map(foldedWords));
  const indexed = new Set(cut.flatMap((texts) => FIELDS.flatMap((field) => texts[field])));
  const other = new Set([...names, ...groups].flat(2).filter((word) => !indexed.has(word)));
  const words = [[...indexed].sort(), [...other].sort()] as const;
  const numbers = new Map(words.flat().map((word, i) => [word, i]));
  const numbered = (list: readonly string[]): number[] =>
    list.flatMap((word) => {
      const number = numbers.get(word);
      return number === undefined ? [] : [number];
    });
  const column = (field: Field): number[][] =>
    cut.map((texts) => numbered(texts[field]).sort((a, b) => a - b));
  const fields: FieldWords = {
    title: column('title'),
    symptoms: column('symptoms'),
    also: column('also'),
    same: column('same'),
    answer: column('answer'),
    body: column('body'),
  };
  const checkOf = bestChecks(base, documents);
  return {
    form: 2,
    base: base.hash,
    words: words[0].join(' '),
    otherWords: words[1].join(' '),
    entries: documents.map(
      ({ id, kind, title, answer, system, soon }, i): FiledEntry => ({
        id,
        kind,
        title,
        answer,
        system,
        names: (names[i] ?? []).map(numbered),
        soon,
        check: kind === 'failure' ? (checkOf.get(id) ?? null) : null,
      }),
    ),
    fields: toSteps(fields),
    groups: groups.map((phrases) => phrases.map(numbered)),
    terms: [...new Set(base.terms.flatMap(({ term, same }) => [term, ...same]))].sort(),
  };
}

/** The words of each field, each once. The long field leaves out what a weightier one holds: a third of the size,
 * and a word counts for an entry where it counts most. */
export function cutDocuments(base: Base, documents: SearchDocument[]): Record<Field, string[]>[] {
  const synonyms = synonymsOf(base.terms);
  return documents.map((document) => {
    const texts = fieldTexts(document, synonyms);
    const words = (text: string): string[] => [...new Set(foldedWords(text))];
    const short = {
      title: words(`${texts.title} ${document.id.replaceAll('-', ' ')}`),
      symptoms: words(texts.symptoms),
      // The tools of a check are no names of it.
      also: document.kind === 'check' ? [] : words(texts.also),
      same: words(texts.same),
      answer: words(texts.answer),
    };
    const known = new Set(Object.values(short).flat());
    return { ...short, body: words(texts.body).filter((word) => !known.has(word)) };
  });
}

function namesOf(document: SearchDocument): string[][] {
  const { kind, title, id, also, symptoms } = document;
  const names = [title, id.replaceAll('-', ' '), ...(kind === 'check' ? [] : [...also, ...symptoms])];
  return names.map(foldedWords);
}

/** For each failure mode, the place among the documents of the check most likely to show it. */
function bestChecks(base: Base, documents: SearchDocument[]): Map<string, number> {
  const places = new Map(documents.flatMap((d, i) => (d.kind === 'check' ? [[d.id, i] as const] : [])));
  const best = new Map<string, { sensitivity: number; place: number }>();
  for (const check of base.checks)
    for (const { failure, sensitivity } of check.finds) {
      const place = places.get(check.id);
      const known = best.get(failure);
      if (place !== undefined && (known === undefined || sensitivity > known.sensitivity))
        best.set(failure, { sensitivity, place });
    }
  return new Map([...best].map(([failure, { place }]) => [failure, place]));
}
