import { z } from 'zod';
import { Figure } from './common.ts';
import { MadeOf } from './fit.ts';

/** How much owners differ in how readily they renew (`npm run calibrate`): a house has a factor for inside works and
 * one for outside works, log-normal of mean 1, that multiplies the hazards of wear and of renovation waves. */
export const Renewing = z.strictObject({
  /** Standard deviations of the logarithms of the two factors. */
  inside: Figure.refine((f) => f.low >= 0, { message: 'a spread is not below 0' }),
  outside: Figure.refine((f) => f.low >= 0, { message: 'a spread is not below 0' }),
  /** Correlation of the two logarithms. Three nodes a factor carry no more than a half. */
  correlation: Figure.refine((f) => Math.abs(f.best) <= 0.5, { message: 'must lie within -0.5 and 0.5' }),
  made: MadeOf,
});
export type Renewing = z.infer<typeof Renewing>;
