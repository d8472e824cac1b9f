import { z } from 'zod';
import { Id } from './common.ts';
import { RegionFactor, ShareTable, Wave } from './system.ts';
import { FORMS } from './words.ts';

/** What something was fitted to: source id, rows used, and hashes of data and script. */
export const MadeOf = z.strictObject({
  source: Id,
  rows: z.number().int(),
  data: z.string(),
  script: z.string(),
});

const Factors = z.record(z.string(), z.number().positive().max(50));

/** What a house of a known form has more or less of than houses of all forms: factors on materials' shares of new work
 * and of renewal work, before they are made to add to 1. A material that is not named keeps its share. */
export const FormFactors = z.strictObject({
  new: Factors,
  renewal: Factors,
  /** Rows of the form, and by how much more than independent houses they stray together: the fit counts them as
   * `rows / effect` houses. */
  rows: z.number().int().positive(),
  effect: z.number().min(1),
});
export type FormFactors = z.infer<typeof FormFactors>;

/** A system's renewal process fitted to open data (`npm run calibrate`). In the states it holds for it stands in
 * the place of the authored tables, lives and waves and of their region factors. */
export const Fit = z.strictObject({
  system: Id,
  /** State codes; null: everywhere. */
  states: z.array(z.string().length(2)).nullable(),
  shares: z.strictObject({ new: ShareTable, renewal: ShareTable }),
  lives: z.record(z.string(), z.number().positive()),
  waves: z.array(Wave),
  /** Lives are those of a kind, not of a machine: how long a house stays with it. Meanwhile the machine is renewed like
   * for like after the material's own life (planner/belief/like-for-like.ts). */
  keepsKind: z.boolean().optional(),
  /** Factors by state in the place of the system's own; a fit of the nation alone has them. */
  regions: z.array(RegionFactor).optional(),
  /** Where the form of the house is known, its factors come on top. A form that is not named goes by the shares alone. */
  forms: z.partialRecord(z.enum(FORMS), FormFactors).optional(),
  /** How far log-odds of a material may be off in a place or a survey that the fit has not seen: standard deviations
   * over states within a census division, over divisions, and from one survey to another. */
  spread: z
    .strictObject({
      state: z.number().nonnegative(),
      division: z.number().nonnegative(),
      survey: z.number().nonnegative(),
    })
    .optional(),
  /** How sure its odds are, by cross-validation inside the rows fitted: as sure as a share counted on `worth` houses, in
   * the state that the rows come from. */
  odds: z.strictObject({ worth: z.number().positive(), state: z.string().length(2) }).optional(),
  made: MadeOf,
});
export type Fit = z.infer<typeof Fit>;
