import { z } from 'zod';
import { Backing, backed, backedMessage, Id, Phrase, Sentence, When } from './common.ts';

/** A diagnosis chain: see this, suspect these, do this next, stop when. What a practised eye does with one sign. */
export const Chain = z
  .strictObject({
    id: Id,
    /** What is seen, heard, smelt or told, in plain words. */
    see: Sentence,
    /** Failure modes it may mean, the likeliest first, each with what speaks for it. */
    suspect: z.array(z.strictObject({ failure: Id, because: Sentence })).min(2),
    /** What to do, in order: a check, and what its answer means for the suspects. */
    next: z.array(z.strictObject({ check: Id, means: Sentence })).min(2),
    /** When to stop looking and hand over, and to whom. */
    stop: z.array(Sentence).min(1),
    /** What the whole chain still can't tell. */
    cannotTell: Sentence,
    when: When.optional(),
    /** A caution that stands at the head, where hands could be hurt. */
    caution: Phrase.optional(),
    ...Backing,
  })
  .refine(backed, backedMessage);
export type Chain = z.infer<typeof Chain>;
