/** Chances of 0 to n houses of a class, and ranges read off them. */
export type CountChances = Float64Array;

/** Nodes across the normal for odds that are themselves unsure: midpoints of equal slices. */
const SLICES = 41;

/** Counts among n houses when the log-odds are normal about `chance` with the given variance. */
export function normalOddsCounts(chance: number, variance: number, n: number): CountChances {
  return Float64Array.from({ length: n + 1 }, (_, k) => normalOddsCount(chance, variance, n, k));
}

/** Chance of k among n houses under the same. */
export function normalOddsCount(chance: number, variance: number, n: number, k: number): number {
  const p = Math.min(1 - 1e-9, Math.max(1e-9, chance));
  const middle = Math.log(p / (1 - p));
  const sd = Math.sqrt(variance);
  const ways = logChoose(n, k);
  let total = 0;
  let weights = 0;
  for (let i = 0; i < SLICES; i++) {
    const z = -4 + (8 * (i + 0.5)) / SLICES;
    const weight = Math.exp((-z * z) / 2);
    const odds = middle + sd * z;
    weights += weight;
    // k log p + (n - k) log(1 - p), by log-odds.
    total += weight * Math.exp(ways + k * odds - n * Math.log1p(Math.exp(odds)));
  }
  return total / weights;
}

/** Counts among n houses when the chance has a Beta posterior. */
export function betaCounts(a: number, b: number, n: number): CountChances {
  return Float64Array.from({ length: n + 1 }, (_, k) =>
    Math.exp(
      logChoose(n, k) +
        logGamma(a + k) +
        logGamma(b + n - k) -
        logGamma(a + b + n) -
        logGamma(a) -
        logGamma(b) +
        logGamma(a + b),
    ),
  );
}

/** Smallest counts that reach the lower and the upper tail of a central range. */
export function countRange(counts: CountChances, share: number): { low: number; high: number } {
  const tail = (1 - share) / 2;
  const reach = (q: number): number => {
    let sum = 0;
    for (let k = 0; k < counts.length; k++) {
      sum += counts[k] ?? 0;
      if (sum >= q - 1e-12) return k;
    }
    return counts.length - 1;
  };
  return { low: reach(tail), high: reach(1 - tail) };
}

/** The part of count k that lies inside the central range when its edges may cut a count: 0 to 1. Counts come whole, so
 * a range of whole counts holds more than its share; this does not. */
export function partInside(counts: CountChances, k: number, share: number): number {
  const tail = (1 - share) / 2;
  const own = counts[k] ?? 0;
  const below = counts.subarray(0, k).reduce((sum, v) => sum + v, 0);
  if (own <= 0) return 0;
  return Math.max(0, Math.min(below + own, 1 - tail) - Math.max(below, tail)) / own;
}

/** Interval score of a central range for shares (Gneiting and Raftery 2007): its width, and for a share outside
 * 2 / (1 - `share`) times how far. Lower is better. */
export function intervalScore(counts: CountChances, k: number, share: number): number {
  const { low, high } = countRange(counts, share);
  const outside = Math.max(0, low - k, k - high);
  return (high - low + (2 / (1 - share)) * outside) / (counts.length - 1);
}

function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
}

/** Stirling's series after raising x to 10. */
function logGamma(x: number): number {
  let shift = 0;
  let y = x;
  while (y < 10) {
    shift -= Math.log(y);
    y++;
  }
  const inverse = 1 / (y * y);
  const series = (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse / 1680))) / y;
  return shift + (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + series;
}
