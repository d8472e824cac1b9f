/** One cell for an age effect: so many answers, a share of which said yes. */
export interface AgeRow {
  /** Age in tens of years. */
  decades: number;
  /** Index of the region, 0 to 3. */
  region: number;
  share: number;
  answers: number;
}

/** Log-odds of yes by age, regions apart: logit(share) = region + slope * decades, by weighted logistic regression (Newton's
 * method). `error` is that of as many independent answers. */
export function ageSlope(rows: readonly AgeRow[]): { slope: number; error: number } {
  const size = 5;
  const x = rows.map((r) => [r.decades, ...[0, 1, 2, 3].map((i) => (i === r.region ? 1 : 0))]);
  const all = rows.reduce((sum, r) => sum + r.answers, 0);
  const mean = rows.reduce((sum, r) => sum + r.answers * r.share, 0) / all;
  const start = Math.log(mean / (1 - mean));
  let beta = [0, start, start, start, start];
  let information: number[][] = [];
  for (let round = 0; round < 30; round++) {
    const gradient = new Array<number>(size).fill(0);
    // A trace of a prior keeps a region where nobody said yes from running off.
    information = Array.from({ length: size }, (_, i) =>
      Array.from({ length: size }, (__, j) => (i === j ? 1e-3 : 0)),
    );
    rows.forEach((row, k) => {
      const xs = x[k] ?? [];
      const p = 1 / (1 + Math.exp(-xs.reduce((sum, v, i) => sum + v * (beta[i] ?? 0), 0)));
      xs.forEach((v, i) => {
        gradient[i] = (gradient[i] ?? 0) + row.answers * v * (row.share - p);
        const line = information[i] ?? [];
        xs.forEach((w, j) => {
          line[j] = (line[j] ?? 0) + row.answers * v * w * p * (1 - p);
        });
      });
    });
    const step = solve(information, gradient);
    beta = beta.map((b, i) => b + Math.max(-1, Math.min(1, step[i] ?? 0)));
    if (step.every((s) => Math.abs(s) < 1e-9)) break;
  }
  const variance = solve(information, [1, 0, 0, 0, 0])[0] ?? Number.NaN;
  return { slope: beta[0] ?? Number.NaN, error: Math.sqrt(variance) };
}

/** Solves a symmetric positive system by elimination. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const a = matrix.map((line, i) => [...line, right[i] ?? 0]);
  const n = a.length;
  for (let i = 0; i < n; i++) {
    const pivot = a[i] ?? [];
    for (let k = i + 1; k < n; k++) {
      const line = a[k] ?? [];
      const factor = (line[i] ?? 0) / (pivot[i] ?? 1);
      for (let j = i; j <= n; j++) line[j] = (line[j] ?? 0) - factor * (pivot[j] ?? 0);
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    const line = a[i] ?? [];
    let rest = line[n] ?? 0;
    for (let j = i + 1; j < n; j++) rest -= (line[j] ?? 0) * (x[j] ?? 0);
    x[i] = rest / (line[i] ?? 1);
  }
  return x;
}
