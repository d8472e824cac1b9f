/** What the search index holds, as it is kept and sent: made at build, read by the worker and the command line. */
export interface SearchFile {
  /** Goes up when the form changes. */
  form: 1;
  /** Hash of the knowledge it was made from. */
  base: string;
  /** The serialised lunr index; a ref is the place of the entry in `entries`. */
  index: object;
  entries: SearchEntry[];
}

export type SearchKind = 'system' | 'material' | 'failure' | 'check' | 'era' | 'clue' | 'question' | 'paper';

export interface SearchEntry {
  id: string;
  kind: SearchKind;
  title: string;
  /** One line that answers, shown under the title. */
  answer: string;
}

export interface SearchResult extends SearchEntry {
  /** Higher is nearer; only the order within one search means something. */
  score: number;
}
