import { z } from 'zod';
import {
  Backing,
  backed,
  backedMessage,
  Figure,
  Id,
  Phrase,
  PlaceFactor,
  Sentence,
  Share,
  When,
} from './common.ts';

export const SOONS = ['settle-first', 'budget-for', 'look-after', 'for-the-record'] as const;
export const PORTIONS = ['anywhere', 'reachable', 'hidden'] as const;

/** Why a failure mode is there. Several causes combine as independent.
 * built-in: `share` of the houses that have one of `of` in the portion.
 * ageing: half of the pieces have it at `half` years of age, Weibull `shape`, never more than `ceiling`.
 * environmental: `base` of houses of this kind with the system, at a part's age of 80 years;
 *   `perDecade` shifts the log-odds per ten years of age; `inAnyHouse` asks for nothing of the system. */
export const Cause = z.discriminatedUnion('cause', [
  z.strictObject({
    cause: z.literal('built-in'),
    of: z.array(Id).min(1),
    portion: z.enum(PORTIONS).default('anywhere'),
    share: Share,
  }),
  z.strictObject({
    cause: z.literal('ageing'),
    of: z.array(Id).min(1),
    portion: z.enum(PORTIONS).default('anywhere'),
    half: Figure.refine((f) => f.low > 0, { message: 'half must be above 0 years' }),
    shape: z.number().min(0.5).max(8).default(2),
    ceiling: z.number().min(0).max(1).default(1),
  }),
  z.strictObject({
    cause: z.literal('environmental'),
    of: z.array(Id).min(1).optional(),
    base: Share,
    perDecade: z.number().min(-1).max(1).default(0),
    /** It can be in any house, whatever this system is made of: mice ask for no pipe covering. */
    inAnyHouse: z.boolean().default(false),
  }),
]);
export type Cause = z.infer<typeof Cause>;

/** 0 none, 1 slight, 2 serious, 3 grave. */
const Level = z.number().int().min(0).max(3);

export const Failure = z
  .strictObject({
    title: Phrase,
    /** The one-line sign, as it is met on site. */
    answer: Sentence,
    system: Id,
    soon: z.enum(SOONS),
    /** Guards life: its checks are never traded for minutes. */
    lifeSafety: z.boolean().default(false),
    stakes: z.strictObject({ people: Level, structure: Level, water: Level, money: Level }),
    /** What a cure costs a typical house, in dollars of `year`. */
    cost: z
      .strictObject({ low: z.number(), high: z.number(), year: z.number().int(), ...Backing })
      .refine(backed, backedMessage)
      .optional(),
    causes: z.array(Cause).min(1),
    /** Place factors that move it; strength 1 lets the whole factor act, 0.5 its square root. */
    place: z.array(z.strictObject({ factor: PlaceFactor, strength: z.number().min(0).max(1) })).default([]),
    when: When.optional(),
    mechanism: Sentence,
    /** In people's words: what they would type. */
    symptoms: z.array(Phrase).min(2),
    /** In trade words. */
    trade: z.array(Phrase).default([]),
    rivals: z.array(z.strictObject({ what: Phrase, tell: Sentence })).default([]),
    consequence: Sentence,
    call: Phrase,
    soundRepair: Sentence,
    coverUp: Sentence.optional(),
    upkeep: Sentence.optional(),
    balks: z.array(z.enum(['insurer', 'lender', 'authority'])).default([]),
    tellNow: z.strictObject({ whom: Phrase, say: Sentence }).optional(),
    /** What to say to the buyer, plain words, no odds in figures. */
    say: Sentence,
    source: z.array(Id).default([]),
    grade: Backing.grade,
  })
  .refine(backed, backedMessage);
export type Failure = z.infer<typeof Failure>;
