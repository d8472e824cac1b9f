import { z } from 'zod';
import { Backing, backed, backedMessage, Id, Sentence } from './common.ts';
import { FUELS, ROOFS, SEWERS, WATERS } from './words.ts';

/** Chance of meeting the clue given what the portion is made of: one number a material id,
 * `none` for no such system, and `else` for all others. */
const Reading = z
  .record(z.string(), z.number().min(0).max(1))
  .refine((r) => 'else' in r, { message: 'needs else: the chance of the clue with any other material' });

/** Factors on the odds of an input's words. */
function Factors<T extends string>(words: readonly [T, ...T[]]) {
  return z.partialRecord(z.enum(words), z.number().min(0.005).max(200));
}

export const Clue = z
  .strictObject({
    id: Id,
    /** What one sees, is told or reads, in plain words. */
    say: Sentence,
    system: Id,
    /** Clues that report the same fact share a group and count once. */
    group: Id,
    where: z.array(z.enum(['photos', 'seller', 'record', 'site'])).min(1),
    reads: z.strictObject({ reachable: Reading.optional(), hidden: Reading.optional() }).default({}),
    /** Installation years it speaks of: chance of the clue inside and outside [from, to]. */
    installed: z
      .strictObject({
        portion: z.enum(['reachable', 'hidden']),
        from: z.number().int().optional(),
        to: z.number().int().optional(),
        inside: z.number().min(0).max(1),
        outside: z.number().min(0).max(1),
      })
      .optional(),
    /** Speaks of the build year itself (the shape of the house, an attached garage): chance of meeting it today in a
     * house built in each of `years`; linear between, constant outside. */
    built: z
      .strictObject({
        years: z.array(z.number().int()).min(2),
        chance: z.array(z.number().min(0).max(1)).min(2),
      })
      .refine((b) => b.years.every((y, i) => i === 0 || y > (b.years[i - 1] ?? y)), {
        message: 'years must rise',
      })
      .refine((b) => b.chance.length === b.years.length, { message: 'give one chance for each year' })
      .optional(),
    /** With `ID=YEAR`: a paper that dates work (record), or a date read on the thing (plate). */
    dated: z
      .strictObject({
        kind: z.enum(['record', 'plate']),
        /** Chance that the work meant was complete, partial, or of another system. */
        complete: z.number().min(0).max(1),
        partial: z.number().min(0).max(1),
        nothing: z.number().min(0).max(1),
      })
      .optional(),
    /** Factor on the odds of failure modes, 1/200 to 200. */
    failures: z.record(z.string(), z.number().min(0.005).max(200)).default({}),
    /** Clues of other systems that are met with this one, since they tell of the same sight: told with it. */
    implies: z.array(Id).default([]),
    /** Factor on the odds of an input that nobody gave (a well casing speaks of a well), 1/200 to 200. */
    inputs: z
      .strictObject({
        water: Factors(WATERS),
        sewer: Factors(SEWERS),
        fuel: Factors(FUELS),
        roof: Factors(ROOFS),
      })
      .partial()
      .default({}),
    /** What the clue does not say. */
    caution: Sentence.optional(),
    ...Backing,
  })
  .refine(backed, backedMessage);
export type Clue = z.infer<typeof Clue>;
