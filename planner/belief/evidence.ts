/** What is known of one system's portions today, as weights on material and installation year, and the dated
 * records of work on it. Weights are likelihoods: only their ratios matter. */
export interface Evidence {
  /** [material][year] weight of each portion; null: no evidence. */
  reachable: Float64Array[] | null;
  hidden: Float64Array[] | null;
  /** Rising by year index. */
  records: RecordWeight[];
  /** [record year][material][year] weight of the records up to that year on a stay with the material, begun in a year,
   * that has ended since: where machines of a kind follow each other (like-for-like.ts). Left out: partial work tells. */
  stays?: Float64Array[][];
}

/** A paper of work in a year: how much likelier the paper is if a complete renewal, a partial one or nothing
 * happened to this system in that year. */
export interface RecordWeight {
  year: number;
  complete: number;
  partial: number;
  nothing: number;
  /** Of the putting in of a machine: `complete` holds if it stands today, this if it has been replaced since. */
  since?: number;
}

export const NO_EVIDENCE: Evidence = { reachable: null, hidden: null, records: [] };

/** The likeliest and least likely material may differ by this factor in one clue: people misread. */
export const CLAMP = 200;

export function hasEvidence(evidence: Evidence): boolean {
  return evidence.reachable !== null || evidence.hidden !== null || evidence.records.length > 0;
}

/** Weights of the span strictly between two years in which nothing is said to have happened. */
export class RecordSpan {
  readonly #weight: Float64Array;
  readonly #event: Float64Array;
  readonly #complete: Float64Array;
  /** No record at all: every weight is 1. */
  readonly silent: boolean;

  constructor(records: RecordWeight[], last: number) {
    this.silent = records.length === 0;
    // #weight[u] = product of `nothing` over records of years up to and including u.
    this.#weight = new Float64Array(last + 2).fill(1);
    this.#event = new Float64Array(last + 1).fill(1);
    this.#complete = new Float64Array(last + 1).fill(1);
    for (const r of records) {
      if (r.year < 0 || r.year > last) continue;
      for (let u = r.year; u <= last + 1; u++) this.#weight[u] = (this.#weight[u] ?? 1) * r.nothing;
      this.#event[r.year] = (this.#event[r.year] ?? 1) * r.partial;
      this.#complete[r.year] = (this.#complete[r.year] ?? 1) * r.complete;
    }
  }

  /** Product of `nothing` over records in years t < d <= u. */
  quiet(t: number, u: number): number {
    if (this.silent) return 1;
    return (this.#weight[u] ?? 1) / (this.#weight[t] ?? 1);
  }

  /** Product of `nothing` over records up to and in year u. */
  passed(u: number): number {
    if (this.silent) return 1;
    return this.#weight[u] ?? 1;
  }

  /** Weight of a partial renewal in year u, less what `passed` of the year it is counted from. */
  arrive(u: number): number {
    if (this.silent) return 1;
    return (this.#weight[u - 1] ?? 1) * (this.#event[u] ?? 1);
  }

  /** Weight of a step from t to a partial renewal in u. */
  toPartial(t: number, u: number): number {
    return this.quiet(t, u - 1) * (this.#event[u] ?? 1);
  }

  /** Weight of a complete renewal in year u, if a record speaks of that year. */
  atComplete(u: number): number {
    return this.#complete[u] ?? 1;
  }
}

/** No records: nothing is said of any year. */
export const SILENT = new RecordSpan([], 0);
