import { z } from 'zod';
import { Id, Phrase, Sentence } from './common.ts';

export const Source = z.strictObject({
  id: Id,
  title: z.string().min(4).max(300),
  publisher: z.string().min(2).max(160),
  year: z.string().max(40).nullable(),
  url: z.url().nullable(),
  kind: z.enum([
    'law',
    'standard',
    'survey',
    'study',
    'handbook',
    'agency',
    'data',
    'trade',
    'press',
    'other',
  ]),
  /** How it was read: in full, in excerpt, or through another page that quotes it. */
  note: z.string().max(300).optional(),
});
export type Source = z.infer<typeof Source>;

/** Words that mean the same to people who search: the first is the word the base uses. */
export const Term = z.strictObject({
  term: z.string().min(2).max(60),
  same: z.array(z.string().min(2).max(60)).min(1),
});

export const Era = z.strictObject({
  title: Phrase,
  answer: Sentence,
  from: z.number().int(),
  to: z.number().int(),
  /** What a house of the period usually has: a sentence a system. */
  has: z.array(z.strictObject({ system: Id, what: Sentence })).min(4),
  /** What it usually has wrong by now: failure mode ids, worst first. */
  wrong: z.array(Id).min(3),
  /** Rules and customs in force: why an old thing is as it is. */
  rules: z
    .array(z.strictObject({ year: z.number().int(), what: Sentence, source: z.array(Id).default([]) }))
    .default([]),
  source: z.array(Id).default([]),
});
export type Era = z.infer<typeof Era>;
