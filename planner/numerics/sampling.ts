import { log } from './functions.ts';

/** Draws of every parameter, the same in every plan: a clue's effect is then never noise. */
export const DRAWS = 32;

/** A seeded stream of numbers in 0..1 (mulberry32). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A 32-bit hash of a name (FNV-1a), to seed a stream by what it is for. */
export function hash(name: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < name.length; i++) {
    h ^= name.charCodeAt(i);
    h = Math.imul(h, 0x01000193);
  }
  return h >>> 0;
}

/** `DRAWS` standard normal values for a named parameter: one from each stratum, shuffled by the name
 * (Latin hypercube), so that parameters are covered evenly and independently. */
export function normalDraws(name: string): Float64Array {
  const ready = drawn.get(name);
  if (ready !== undefined) return ready;
  const next = random(hash(name));
  const values = Float64Array.from(STRATA);
  for (let i = values.length - 1; i > 0; i--) {
    const j = Math.floor(next() * (i + 1));
    const kept = values[i] ?? 0;
    values[i] = values[j] ?? 0;
    values[j] = kept;
  }
  if (drawn.size > MOST_KEPT) drawn.clear();
  drawn.set(name, values);
  return values;
}

/** Draws made before, by name: always the same values, so keeping them changes nothing but the time. */
const drawn = new Map<string, Float64Array>();
const MOST_KEPT = 5000;

/** Normal quantile (Acklam's rational approximation, absolute error below 1.2e-9). */
export function normalQuantile(p: number): number {
  if (p <= 0 || p >= 1) throw new RangeError(`normalQuantile(${p}): p must lie strictly between 0 and 1`);
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p < 0.02425) {
    const q = Math.sqrt(-2 * log(p));
    return poly(C, q) / (poly(D, q) * q + 1);
  }
  const q = p - 0.5;
  const r = q * q;
  return (poly(A, r) * q) / (poly(B, r) * r + 1);
}

const A = [
  -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716,
  2.506628277459239,
];
const B = [-54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572];
const C = [
  -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
];
const D = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416];

function poly(coefficients: number[], x: number): number {
  let sum = 0;
  for (const c of coefficients) sum = sum * x + c;
  return sum;
}

const STRATA = Array.from({ length: DRAWS }, (_, i) => normalQuantile((i + 0.5) / DRAWS));
