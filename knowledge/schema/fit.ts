import { z } from 'zod';
import { Id } from './common.ts';
import { ShareTable, Wave } from './system.ts';

/** A system's renewal process fitted to open data (`npm run calibrate`). In the states it holds for it stands in
 * the place of the authored tables, lives and waves and of their region factors. */
export const Fit = z.strictObject({
  system: Id,
  /** State codes; null: everywhere. */
  states: z.array(z.string().length(2)).nullable(),
  shares: z.strictObject({ new: ShareTable, renewal: ShareTable }),
  lives: z.record(z.string(), z.number().positive()),
  waves: z.array(Wave),
  /** What it was fitted to: source id, rows used, and hashes of data and script. */
  made: z.strictObject({
    source: Id,
    rows: z.number().int(),
    data: z.string(),
    script: z.string(),
  }),
});
export type Fit = z.infer<typeof Fit>;
