import { z } from 'zod';
import { Backing, backed, backedMessage, Figure, Id, Phrase, Sentence, When } from './common.ts';

/** Years of new installation: first seen, common from, heyday, decline, last plausible. */
export const Years = z
  .strictObject({
    first: z.number().int(),
    common: z.number().int(),
    peak: z.tuple([z.number().int(), z.number().int().nullable()]),
    decline: z.number().int().nullable(),
    last: z.number().int().nullable(),
    /** Surveys met it in houses from after the last sale too: old stock, salvaged pieces. */
    stillMet: z.boolean().optional(),
    ...Backing,
    note: Sentence.optional(),
  })
  .refine(backed, backedMessage)
  .refine((y) => y.first <= y.common && y.common <= (y.peak[1] ?? 9999) && y.first <= y.peak[0], {
    message: 'needs first <= common <= end of peak and first <= start of peak',
  })
  .refine((y) => y.last === null || y.last >= (y.decline ?? y.first), {
    message: 'last comes after decline',
  });

export const Material = z.strictObject({
  title: Phrase,
  /** Opening sentence for search and the head of the page: what it is and why it matters. */
  answer: Sentence,
  system: Id,
  /** It stands for not having the system (no insulation, no alarms), where failure modes or markets hang on that. */
  lacks: z.boolean().default(false),
  /** Other names people use, trade and common. */
  also: z.array(Phrase).default([]),
  years: Years,
  /** Houses that can have it: what is said of the house rules it out elsewhere (brick piers under a slab). */
  when: When.optional(),
  /** Service life in years: the age by which half have been renewed in whole or part for wear. */
  life: Figure.refine((f) => f.low > 0, { message: 'life must be above 0 years' }),
  /** Weibull shape of the life: 1 random, 3 typical wear-out, 5 sharp. */
  shape: z.number().min(1).max(8).default(3),
  /** Of the renewals that wear brings, the part that also reaches the hidden portion. */
  whole: z.number().min(0).max(1),
  /** When it is replaced, the chance that it stays in the house, disconnected or covered. */
  leftBehind: z.number().min(0).max(1).default(0),
  know: z.array(Sentence).min(1),
  lookAlikes: z.array(z.strictObject({ of: Phrase, tell: Sentence })).default([]),
  usuallyReplacedBy: Sentence.optional(),
  usuallyStays: Sentence.optional(),
  /** How to tell in use from disconnected or removed. */
  inUse: Sentence.optional(),
  regions: Sentence.optional(),
  hazards: z.array(Sentence).default([]),
  papers: z.array(Id).default([]),
  source: z.array(Id).default([]),
});
export type Material = z.infer<typeof Material>;
