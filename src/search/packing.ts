import lunr from 'lunr';
import { FIELDS, type Field, WEIGHTS } from './fields.ts';
import type { SearchFile } from './search-file.ts';

/** How far a long field is held against an entry, and how soon more of a word is no more: lunr's BM25. */
export const LENGTH = 0.3;
const SATURATION = 1.2;

/** The words of each field of each entry, in words of the file. Each stands once in a field. */
export type FieldWords = Record<Field, number[][]>;

/** lunr's index as it serialises itself follows from which words stand where: its vectors are arithmetic and its
 * inverted index the same facts the other way round. So the file holds the words alone, as rising numbers by their
 * steps, and this writes out lunr's form again. A test holds the result to what lunr's own builder makes. */
export function lunrIndexOf(file: SearchFile): lunr.Index {
  const words = file.words === '' ? [] : file.words.split(' ');
  const entries = file.entries.length;
  const inverted = words.map((word, i): Posting => [word, { _index: i, ...noneYet() }]);
  const fields = fromSteps(file.fields);
  for (const field of FIELDS)
    for (const [entry, list] of fields[field].entries())
      for (const word of list) {
        const posting = inverted[word]?.[1][field];
        if (posting !== undefined) posting[entry] = NOTHING;
      }
  const rarity = inverted.map(([, posting]) => idf(posting, entries));
  const fieldVectors = FIELDS.flatMap((field) => {
    const mean = fields[field].reduce((sum, list) => sum + list.length, 0) / Math.max(1, entries);
    return fields[field].map((list, entry): [string, number[]] => {
      const norm = WEIGHTS[field] * termWeight(list.length, mean);
      return [`${field}/${entry}`, list.flatMap((word) => [word, thousandths((rarity[word] ?? 0) * norm)])];
    });
  });
  return lunr.Index.load({
    version: lunr.version,
    fields: FIELDS,
    fieldVectors,
    invertedIndex: inverted,
    pipeline: [],
  });
}

type Occurrences = Record<number, Readonly<Record<string, never>>>;
type Posting = [string, { _index: number } & Record<Field, Occurrences>];
const NOTHING = {};

function noneYet(): Record<Field, Occurrences> {
  return { title: {}, symptoms: {}, also: {}, same: {}, answer: {}, body: {} };
}

/** lunr's inverse document frequency, in which a word counts once a field. */
function idf(posting: Record<Field, Occurrences>, entries: number): number {
  const held = FIELDS.reduce((sum, field) => sum + Object.keys(posting[field]).length, 0);
  return Math.log(1 + Math.abs((entries - held + 0.5) / (held + 0.5)));
}

/** BM25's share of a word that stands once in a field of this length. */
function termWeight(length: number, mean: number): number {
  const norm = mean === 0 ? 1 : 1 - LENGTH + LENGTH * (length / mean);
  return (SATURATION + 1) / (SATURATION * norm + 1);
}

const thousandths = (x: number): number => Math.round(x * 1000) / 1000;

export function toSteps(fields: FieldWords): FieldWords {
  return each(fields, (list) => list.map((word, i) => word - (i === 0 ? 0 : (list[i - 1] ?? 0))));
}

function fromSteps(fields: FieldWords): FieldWords {
  return each(fields, (list) => {
    let word = 0;
    return list.map((step) => {
      word += step;
      return word;
    });
  });
}

function each(fields: FieldWords, change: (list: number[]) => number[]): FieldWords {
  const { title, symptoms, also, same, answer, body } = fields;
  return {
    title: title.map(change),
    symptoms: symptoms.map(change),
    also: also.map(change),
    same: same.map(change),
    answer: answer.map(change),
    body: body.map(change),
  };
}
