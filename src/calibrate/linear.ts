/** Solves A x = b for a symmetric positive definite A (Cholesky); also gives the diagonal of the inverse of A. */
export function solvePositive(
  a: Float64Array[],
  b: Float64Array,
): { x: Float64Array; variance: Float64Array } {
  const n = b.length;
  const l = cholesky(a, n);
  const forward = (rhs: Float64Array): Float64Array => {
    const y = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const row = l[i] as Float64Array;
      let sum = rhs[i] as number;
      for (let k = 0; k < i; k++) sum -= (row[k] as number) * (y[k] as number);
      y[i] = sum / (row[i] as number);
    }
    return y;
  };
  const y = forward(b);
  const x = new Float64Array(n);
  for (let i = n - 1; i >= 0; i--) {
    let sum = y[i] as number;
    for (let k = i + 1; k < n; k++) sum -= (l[k]?.[i] as number) * (x[k] as number);
    x[i] = sum / (l[i]?.[i] as number);
  }
  const variance = Float64Array.from({ length: n }, (_, i) => {
    const unit = new Float64Array(n);
    unit[i] = 1;
    return forward(unit).reduce((sum, v) => sum + v * v, 0);
  });
  return { x, variance };
}

function cholesky(a: Float64Array[], n: number): Float64Array[] {
  const l = Array.from({ length: n }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    const row = l[i] as Float64Array;
    for (let j = 0; j <= i; j++) {
      const other = l[j] as Float64Array;
      let sum = a[i]?.[j] ?? 0;
      for (let k = 0; k < j; k++) sum -= (row[k] as number) * (other[k] as number);
      if (i !== j) row[j] = sum / (other[j] as number);
      else if (sum > 0) row[i] = Math.sqrt(sum);
      else throw new RangeError(`row ${i} of the matrix is not positive definite`);
    }
  }
  return l;
}
