/** Limited-memory quasi-Newton minimiser (L-BFGS, two-loop recursion, backtracking line search); the slope
 * is given, or taken by central differences. Deterministic: the same function and start give the same end. */
export function minimise(
  f: (x: Float64Array) => number,
  start: Float64Array,
  options: {
    iterations: number;
    step?: number;
    memory?: number;
    log?: (line: string) => void;
    slope?: (x: Float64Array) => Float64Array;
  },
): { x: Float64Array; value: number; iterations: number } {
  const step = options.step ?? 1e-4;
  const memory = options.memory ?? 8;
  let x: Float64Array = Float64Array.from(start);
  let value = f(x);
  const slopeAt = options.slope ?? ((at: Float64Array) => gradient(f, at, step));
  let slope = slopeAt(x);
  const moves: { s: Float64Array; y: Float64Array; rho: number }[] = [];
  let iteration = 0;
  for (; iteration < options.iterations; iteration++) {
    const direction = descent(slope, moves);
    const down = dot(direction, slope);
    if (!(down < -1e-10)) break;
    let length = 1;
    let next: Float64Array = along(x, direction, length);
    let nextValue = f(next);
    while (!(nextValue <= value + 1e-4 * length * down) && length > 1e-6) {
      length /= 2;
      next = along(x, direction, length);
      nextValue = f(next);
    }
    if (!(nextValue < value)) break;
    const nextSlope = slopeAt(next);
    const s = next.map((v, i) => v - (x[i] ?? 0));
    const y = nextSlope.map((v, i) => v - (slope[i] ?? 0));
    const curvature = dot(s, y);
    if (curvature > 1e-10) moves.push({ s, y, rho: 1 / curvature });
    if (moves.length > memory) moves.shift();
    const gained = value - nextValue;
    x = next;
    value = nextValue;
    slope = nextSlope;
    options.log?.(`  step ${iteration + 1}: ${value.toFixed(3)}`);
    if (gained < 1e-3) break;
  }
  return { x, value, iterations: iteration };
}

function gradient(f: (x: Float64Array) => number, x: Float64Array, step: number): Float64Array {
  const slope = new Float64Array(x.length);
  const probe = Float64Array.from(x);
  for (let i = 0; i < x.length; i++) {
    const at = x[i] ?? 0;
    probe[i] = at + step;
    const above = f(probe);
    probe[i] = at - step;
    const below = f(probe);
    probe[i] = at;
    slope[i] = (above - below) / (2 * step);
  }
  return slope;
}

function descent(
  slope: Float64Array,
  moves: { s: Float64Array; y: Float64Array; rho: number }[],
): Float64Array {
  const q = Float64Array.from(slope);
  const alphas: number[] = [];
  for (const move of [...moves].reverse()) {
    const alpha = move.rho * dot(move.s, q);
    alphas.push(alpha);
    for (let i = 0; i < q.length; i++) q[i] = (q[i] ?? 0) - alpha * (move.y[i] ?? 0);
  }
  const newest = moves.at(-1);
  const scale =
    newest === undefined
      ? 0.05 / Math.max(1, Math.sqrt(dot(q, q)))
      : 1 / (newest.rho * dot(newest.y, newest.y));
  for (let i = 0; i < q.length; i++) q[i] = (q[i] ?? 0) * scale;
  for (const move of moves) {
    const beta = move.rho * dot(move.y, q);
    const alpha = alphas.pop() ?? 0;
    for (let i = 0; i < q.length; i++) q[i] = (q[i] ?? 0) + (alpha - beta) * (move.s[i] ?? 0);
  }
  return q.map((v) => -v);
}

function along(x: Float64Array, direction: Float64Array, length: number): Float64Array {
  return x.map((v, i) => v + length * (direction[i] ?? 0));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}
