import { z } from 'zod';
import { Backing, backed, backedMessage, Id, Phrase, Sentence, When } from './common.ts';
import { REGIONS } from './words.ts';

export const GROUPS = [
  'electrical',
  'plumbing',
  'gas',
  'heating',
  'structure',
  'envelope',
  'interior',
  'environment',
  'site',
  'hazard',
  'life-safety',
] as const;

/** Shares of each material by year: one row a material, one column a year of `years`; linear between,
 * constant outside. Each column adds to 1. `none` means the house is without this system. */
export const ShareTable = z
  .strictObject({
    years: z.array(z.number().int()).min(2),
    rows: z.record(z.string(), z.array(z.number().min(0).max(1))),
    ...Backing,
    note: Sentence.optional(),
  })
  .refine(backed, backedMessage)
  .refine((t) => t.years.every((y, i) => i === 0 || y > (t.years[i - 1] ?? y)), {
    message: 'years must rise',
  })
  .refine((t) => Object.values(t.rows).every((row) => row.length === t.years.length), {
    message: 'every row needs one share for each year',
  });
export type ShareTable = z.infer<typeof ShareTable>;

/** Part of the country where shares differ from the table: each named material's share is multiplied
 * by its factor and the column made to add to 1 again. Of a house that has none yet no factor tells when it gets one;
 * `pace` does. */
export const RegionFactor = z
  .strictObject({
    regions: z.array(z.enum(REGIONS)).optional(),
    states: z.array(z.string().length(2)).optional(),
    factor: z.record(z.string(), z.number().positive().max(50)),
    /** Multiplies the rates of the system's waves there: cooling came later where summers are cool. */
    pace: z.number().positive().max(20).optional(),
    ...Backing,
  })
  .refine(backed, backedMessage)
  .refine((r) => (r.regions ?? r.states) !== undefined, { message: 'name regions or states' });

/** Years in which people renewed this system for reasons other than its age (electrification, oil to
 * gas, re-cladding fashions). `rate` is the chance a year that a portion of `of` is renewed
 * where owners renew as the mean does (schema/renewing.ts),
 * `whole` the part of those renewals that also reach the hidden portion. */
export const Wave = z
  .strictObject({
    of: z.array(z.string()).min(1),
    from: z.number().int(),
    to: z.number().int(),
    rate: z.number().min(0).max(1),
    whole: z.number().min(0).max(1),
    why: Phrase,
    ...Backing,
  })
  .refine(backed, backedMessage)
  .refine((w) => w.from < w.to, { message: 'from must be before to' });
export type Wave = z.infer<typeof Wave>;

export const System = z.strictObject({
  title: Phrase,
  /** One sentence that answers: what is it, and what decides its age. */
  answer: Sentence,
  group: z.enum(GROUPS),
  /** house: one for all; part: one a part (main block, addition); unit: one a dwelling. */
  scope: z.enum(['house', 'part', 'unit']),
  /** Words for what a visitor can reach and what is buried; hidden is null where all is in reach. */
  portions: z.strictObject({ reachable: Phrase, hidden: Phrase.nullable() }),
  /** Which owners' habit renews it: inside works, outside works, or neither. */
  renewedWith: z.enum(['inside', 'outside', 'neither']),
  when: When.optional(),
  shares: z.strictObject({ new: ShareTable, renewal: ShareTable }),
  regions: z.array(RegionFactor).default([]),
  waves: z.array(Wave).default([]),
  source: z.array(Id).default([]),
});
export type System = z.infer<typeof System>;
