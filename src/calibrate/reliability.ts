/** A bin of forecasts: how many, what they said on average, what came true, and the Wilson interval of that share. */
export interface Bin {
  n: number;
  forecast: number;
  observed: number;
  low: number;
  high: number;
}

export interface Reliability {
  /** Expected calibration error: mean over forecasts of the distance between what a bin said and what came true. */
  error: number;
  bins: Bin[];
}

const BINS = 10;
/** Two-sided 95%. */
const NORMAL_95 = 1.959963984540054;

/** Reliability of the chances given to classes, in bins of equal count. Of a question with two answers only the second
 * class is counted: the first is its mirror. */
export function reliabilityOf(
  rows: readonly { name: string; chances: Record<string, number> }[],
  names: readonly string[],
): Reliability {
  const pairs = rows.flatMap(({ name, chances }) =>
    countedClasses(names).map((of) => ({ p: chances[of] ?? 0, came: name === of ? 1 : 0 })),
  );
  const sorted = pairs.map((pair, i) => ({ ...pair, i })).sort((a, b) => a.p - b.p || a.i - b.i);
  const bins = Array.from({ length: BINS }, (_, b) =>
    sorted.slice(Math.round((b * sorted.length) / BINS), Math.round(((b + 1) * sorted.length) / BINS)),
  )
    .filter((bin) => bin.length > 0)
    .map((bin): Bin => {
      const n = bin.length;
      const came = bin.reduce((sum, x) => sum + x.came, 0);
      return {
        n,
        forecast: bin.reduce((sum, x) => sum + x.p, 0) / n,
        observed: came / n,
        ...wilson(came, n),
      };
    });
  const error = bins.reduce((sum, b) => sum + b.n * Math.abs(b.forecast - b.observed), 0) / sorted.length;
  return { error, bins };
}

/** Classes that are questions of their own. */
export function countedClasses(names: readonly string[]): readonly string[] {
  return names.length === 2 ? names.slice(1) : names;
}

/** Wilson's 95% interval of a share (Wilson 1927). */
export function wilson(k: number, n: number): { low: number; high: number } {
  const z2 = NORMAL_95 ** 2;
  const middle = (k + z2 / 2) / (n + z2);
  const half = (NORMAL_95 / (n + z2)) * Math.sqrt((k * (n - k)) / n + z2 / 4);
  return { low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}
