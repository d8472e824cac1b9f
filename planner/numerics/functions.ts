/** Elementary functions made of + - * / alone, so that every engine gives the same last bit: engines may
 * differ in Math.exp and Math.log, and a plan must be the same bytes everywhere. */

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;

/** 1/14!, 1/13!, ... 1/1!, 1/0!. */
const TAYLOR = Array.from({ length: 15 }, (_, i) => {
  let factorial = 1;
  for (let n = 2; n <= 14 - i; n++) factorial *= n;
  return 1 / factorial;
});

/** Steps into which a doubling is cut: e to the x is a power of 2, a table's value and a short series. */
const CUTS = 64;
const HALF = CUTS / 2;
/** 2 to the (i - HALF) / CUTS. */
const BETWEEN = Float64Array.from({ length: CUTS }, (_, i) => {
  const x = ((i - HALF) * (LN2_HIGH + LN2_LOW)) / CUTS;
  let sum = 0;
  for (const c of TAYLOR) sum = sum * x + c;
  return sum;
});
/** 2 to the k, from k = -LEAST_POWER on. */
const LEAST_POWER = 1021;
const POWERS = Float64Array.from({ length: 2 * LEAST_POWER + 1 }, (_, i) => scale(1, i - LEAST_POWER));

/** e to the x. Relative error below 1e-15; 0 below -700, refused above 700. */
export function exp(x: number): number {
  if (Number.isNaN(x)) return x;
  if (x < -700) return 0;
  if (x > 700) throw new RangeError(`exp(${x}) is too large: the argument must be at most 700`);
  const n = Math.round((x * CUTS) / (LN2_HIGH + LN2_LOW));
  const r = x - n * (LN2_HIGH / CUTS) - n * (LN2_LOW / CUTS);
  // |r| is at most 0.0055: the seventh term is below the last bit.
  const series = 1 + r * (1 + r * (1 / 2 + r * (1 / 6 + r * (1 / 24 + r * (1 / 120 + r / 720)))));
  const power = Math.floor((n + HALF) / CUTS);
  return series * (BETWEEN[n + HALF - power * CUTS] as number) * (POWERS[power + LEAST_POWER] as number);
}

/** 1/23, 1/21, ... 1/3. */
const ODD_PARTS = Float64Array.from({ length: 11 }, (_, i) => 1 / (23 - 2 * i));

/** Natural logarithm of x > 0, relative error below 1e-15; minus infinity at 0. */
export function log(x: number): number {
  if (x === 0) return Number.NEGATIVE_INFINITY;
  if (!(x > 0)) return Number.NaN;
  let m = x;
  let k = 0;
  while (m > Math.SQRT2) {
    m /= 2;
    k++;
  }
  while (m < Math.SQRT1_2) {
    m *= 2;
    k--;
  }
  const s = (m - 1) / (m + 1);
  const s2 = s * s;
  let sum = 0;
  for (let i = 0; i < ODD_PARTS.length; i++) sum = s2 * ((ODD_PARTS[i] as number) + sum);
  return 2 * s * (1 + sum) + k * LN2_LOW + k * LN2_HIGH;
}

/** a to the b, for a >= 0. */
export function pow(a: number, b: number): number {
  if (a === 0) return b === 0 ? 1 : 0;
  return exp(b * log(a));
}

export function logistic(x: number): number {
  return 1 / (1 + exp(-clamp(x, -600, 600)));
}

/** Log-odds of a probability, held away from 0 and 1 by 1e-9. */
export function logit(p: number): number {
  const q = clamp(p, 1e-9, 1 - 1e-9);
  return log(q / (1 - q));
}

export function clamp(x: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, x));
}

/** Rounds at the boundary, where numbers leave the planner. */
export function round(x: number, digits: number): number {
  const unit = 10 ** digits;
  return Math.round(x * unit) / unit;
}

/** x times 2 to the k, exact short of under- and overflow. */
function scale(x: number, k: number): number {
  let y = x;
  for (let i = 0; i < k; i++) y *= 2;
  for (let i = 0; i > k; i--) y /= 2;
  return y;
}
