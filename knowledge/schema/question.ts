import { z } from 'zod';
import { Backing, backed, backedMessage, Id, Phrase, Sentence, When } from './common.ts';

export const Question = z
  .strictObject({
    id: Id,
    ask: Sentence,
    of: z.enum(['seller', 'agent', 'occupant', 'authority', 'utility', 'client', 'neighbour']),
    why: Sentence,
    systems: z.array(Id).min(1),
    failures: z.array(Id).default([]),
    /** Clue ids that a likely answer gives. */
    answers: z.array(Id).default([]),
    /** Papers to ask for, ids of papers.yaml. */
    papers: z.array(Id).default([]),
    /** How much of what is unknown an honest answer tells, 0 to 1. */
    tells: z.number().min(0).max(1).default(0.3),
    when: When.optional(),
    ...Backing,
  })
  .refine(backed, backedMessage);
export type Question = z.infer<typeof Question>;

export const Paper = z
  .strictObject({
    id: Id,
    title: Phrase,
    shows: Sentence,
    cannotShow: Sentence,
    lookFor: Sentence,
    ...Backing,
  })
  .refine(backed, backedMessage);
