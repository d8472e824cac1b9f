import type { Odds } from '../house/house.ts';
import { round } from '../numerics/functions.ts';

/** A run of years and the year in its middle. */
export interface YearSpan {
  from: number;
  to: number;
  middle: number;
}

/** Share of the odds that a span is to hold. */
export const HELD = 0.8;

/** The smallest run of consecutive years that holds at least four fifths of the odds (the earliest, if several are as
 * small), and the median: the first year by which half of the odds are reached. The run always holds the median,
 * since no run of years before it or after it has more than half. */
export function likelySpan(years: Odds<number>): YearSpan {
  let best = { from: years[0]?.value ?? 0, to: years.at(-1)?.value ?? 0 };
  let right = 0;
  let held = 0;
  for (let left = 0; left < years.length; left++) {
    while (right < years.length && held < HELD) held += years[right++]?.p ?? 0;
    if (held < HELD) break;
    const [from, to] = [years[left]?.value ?? 0, years[right - 1]?.value ?? 0];
    if (to - from < best.to - best.from) best = { from, to };
    held -= years[left]?.p ?? 0;
  }
  let reached = 0;
  const middle = years.find((y) => {
    reached += y.p;
    return reached >= 0.5;
  });
  return { ...best, middle: middle?.value ?? best.from };
}

/** Odds by decade; decades below 1 in 2,000 are left out. */
export function byDecade(years: Odds<number>): { decade: number; p: number }[] {
  const decades = new Map<number, number>();
  for (const y of years) {
    const decade = Math.floor(y.value / 10) * 10;
    decades.set(decade, (decades.get(decade) ?? 0) + y.p);
  }
  return [...decades].map(([decade, p]) => ({ decade, p: round(p, 6) })).filter((d) => d.p > 0.0005);
}
