import type { Field } from './fields.ts';

/** The search index as it is kept and sent: what lunr builds, without what follows from the rest. Made at build,
 * read by the worker of the page and by the command line. */
export interface SearchFile {
  /** Goes up when the form changes. */
  form: 2;
  /** Hash of the knowledge it was made from. */
  base: string;
  /** Every word of the index in order of code units, joined by blanks; then words that only synonyms hold. Words
   * are named by their place in the two together. */
  words: string;
  otherWords: string;
  entries: FiledEntry[];
  /** For each field, for each entry: the words in it, each as the step from the one before. */
  fields: Record<Field, number[][]>;
  /** Groups of phrases that mean the same, in words. */
  groups: number[][][];
  /** What can be offered where nothing is found: the phrases of the groups as they are written. */
  terms: string[];
}

export type SearchKind = 'system' | 'material' | 'failure' | 'check' | 'era' | 'clue' | 'question' | 'paper';
export type Soon = 'settle-first' | 'budget-for' | 'look-after' | 'for-the-record';

export interface SearchEntry {
  id: string;
  kind: SearchKind;
  title: string;
  /** One line that answers, shown under the title. */
  answer: string;
}

export interface FiledEntry extends SearchEntry {
  /** The system it belongs to; null where it is one of several. */
  system: string | null;
  /** Its title, other names and what people say of it, each in words: what was asked is held against each. */
  names: number[][];
  /** Of a failure mode: how soon it must be known, and the place among the entries of the check that shows it best. */
  soon: Soon | null;
  check: number | null;
}

export interface SearchResult extends SearchEntry {
  /** Higher is nearer; only the order within one search means something. */
  score: number;
  soon: Soon | null;
  /** The check most likely to bring it to light. */
  check: { id: string; title: string } | null;
  /** Chance in the house that was given, 0 to 1, and whether it moved the entry up or down the list. */
  odds: number | null;
  moved: 'up' | 'down' | null;
  /** Which of the typed words it answers. */
  matched: string[];
}
