import type { z } from 'zod';
import type { Chain } from './chain.ts';
import type { Check, Stop } from './check.ts';
import type { Clue } from './clue.ts';
import type { Failure } from './failure.ts';
import type { Fit } from './fit.ts';
import type { Material } from './material.ts';
import type { Places } from './place.ts';
import type { Paper, Question } from './question.ts';
import type { Era, Source, Term } from './reference.ts';
import type { Renewing } from './renewing.ts';
import type { RuleThen } from './rule-then.ts';
import type { System } from './system.ts';

/** An entry kept in a file of its own: the file's name is its id, `body` the prose under the front matter. */
export type Entry<T> = T & { id: string; body: string };

/** The whole knowledge base, read and validated. Lists are sorted by id. */
export interface Base {
  /** Hash of everything below: names this version of the knowledge in every plan. */
  hash: string;
  systems: Entry<System>[];
  materials: Entry<Material>[];
  failures: Entry<Failure>[];
  checks: Entry<Check>[];
  eras: Entry<Era>[];
  clues: Clue[];
  questions: Question[];
  papers: z.infer<typeof Paper>[];
  sources: Source[];
  terms: z.infer<typeof Term>[];
  /** Diagnosis chains: see, suspect, do next, stop. */
  chains: Chain[];
  /** Rules and customs by the years in which they were in force. */
  rulesThen: RuleThen[];
  stops: z.infer<typeof Stop>[];
  places: Places;
  /** Renewal processes fitted to open data. */
  fits: Fit[];
  /** How much owners differ in renewing. */
  renewing: Renewing;
}

/** A fault in the knowledge: which rule, in which file and field, and what to do about it. */
export interface Finding {
  rule: string;
  file: string;
  field: string;
  problem: string;
  fix: string;
}
