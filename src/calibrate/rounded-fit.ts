import type { Fit } from '../../knowledge/schema/fit.ts';
import type { ShareTable } from '../../knowledge/schema/system.ts';
import type { Process } from './parameters.ts';

/** A fitted process as it is committed: shares to four decimals, lives to a tenth of a year. */
export function roundedFit(process: Process, rest: Omit<Fit, 'shares' | 'lives' | 'waves'>): Fit {
  const table = (t: ShareTable): ShareTable => ({
    ...t,
    grade: 'measured',
    source: [rest.made.source],
    rows: exactColumns(t.rows),
  });
  return {
    ...rest,
    shares: { new: table(process.shares.new), renewal: table(process.shares.renewal) },
    lives: Object.fromEntries(Object.entries(process.lives).map(([id, v]) => [id, Math.round(v * 10) / 10])),
    waves: process.waves.map((w) => ({ ...w, rate: Math.round(w.rate * 1e5) / 1e5 })),
  };
}

/** Factors closer to 1 than this say nothing and are left out. */
const LEAST_FACTOR = 0.02;

/** Factors as they are committed: three digits, and those alone that differ from 1. */
export function roundedFactors(factors: Record<string, number>): Record<string, number> {
  return Object.fromEntries(
    Object.entries(factors)
      .filter(([, f]) => Math.abs(f - 1) > LEAST_FACTOR)
      .map(([id, f]) => [id, Number(f.toPrecision(3))]),
  );
}

/** Four decimals in every column, the largest share taking up the rounding. */
function exactColumns(rows: Record<string, number[]>): Record<string, number[]> {
  const ids = Object.keys(rows);
  const result = Object.fromEntries(ids.map((id) => [id, (rows[id] ?? []).map((v) => Math.round(v * 1e4))]));
  const width = result[ids[0] ?? '']?.length ?? 0;
  for (let c = 0; c < width; c++) {
    const total = ids.reduce((sum, id) => sum + (result[id]?.[c] ?? 0), 0);
    const largest = ids.reduce((a, b) => ((result[a]?.[c] ?? 0) >= (result[b]?.[c] ?? 0) ? a : b));
    const row = result[largest];
    if (row !== undefined) row[c] = (row[c] ?? 0) + 10000 - total;
  }
  return Object.fromEntries(ids.map((id) => [id, (result[id] ?? []).map((v) => v / 1e4)]));
}
