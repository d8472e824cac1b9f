import { exp } from '../numerics/functions.ts';

/** The Weibull law of ageing, 1 - 2^-(e^x), with x = shape (log age - log half): tabulated once, since it is asked for
 * some hundred thousand times a plan. Between the table's points it is linear; the error is below 1e-6. */
const LOW = -14;
const HIGH = 4;
const PER_UNIT = 256;
const TABLE = Float64Array.from({ length: (HIGH - LOW) * PER_UNIT + 2 }, (_, i) =>
  i === 0 ? 0 : 1 - exp(-Math.LN2 * exp(LOW + i / PER_UNIT)),
);

/** Part of the pieces that have failed, at x = shape (log age - log half). */
export function failedBy(x: number): number {
  if (x <= LOW) return 0;
  if (x >= HIGH) return 1;
  const at = (x - LOW) * PER_UNIT;
  const left = Math.floor(at);
  const before = TABLE[left] as number;
  return before + (at - left) * ((TABLE[left + 1] as number) - before);
}
