import { DOUBT, timesLikelier } from '../../planner/belief/doubt.ts';
import type { HouseYears } from '../../planner/belief/house-years.ts';
import { likelySpan } from '../../planner/belief/year-span.ts';
import type { Odds } from '../../planner/house/house.ts';

/** A house of known year and the odds over build years that somebody gives it. */
export interface Dated {
  built: number;
  asOf: number;
  years: Odds<number>;
}

export interface SpanScore {
  houses: number;
  /** Share of houses whose middle year is at most ten years off. */
  withinTen: number;
  /** Share whose 80% span holds the true year. */
  held: number;
  /** Mean number of years in the span. */
  width: number;
}

export function scoreSpans(dated: Dated[]): SpanScore {
  let [within, held, width] = [0, 0, 0];
  for (const { built, years } of dated) {
    const span = likelySpan(years);
    if (Math.abs(span.middle - built) <= 10) within++;
    if (span.from <= built && built <= span.to) held++;
    width += span.to - span.from + 1;
  }
  const houses = dated.length;
  return { houses, withinTen: within / houses, held: held / houses, width: width / houses };
}

/** A house of known year and what the planner makes of its clues. */
export interface Weighed {
  built: number;
  asOf: number;
  found: HouseYears;
}

export interface DoubtScore {
  houses: number;
  /** Share of true listed years that are doubted. */
  falseAlarms: number;
  /** Share of listed years thirty years too late and too early that are doubted, where such a year can be. */
  late: number;
  early: number;
  /** Both kinds together. */
  caught: number;
  /** The threshold at which exactly one true year in twenty would be doubted. */
  atFivePercent: number;
}

/** No listed year is taken to be older than this. */
const OLDEST = 1800;

export function scoreDoubts(weighed: Weighed[]): DoubtScore {
  const doubted = (by: number): { houses: number; doubted: number } => {
    const possible = weighed.filter((w) => w.built + by <= w.asOf && w.built + by >= OLDEST);
    const hits = possible.filter((w) => timesLikelier(w.found, w.built + by) > DOUBT).length;
    return { houses: possible.length, doubted: hits };
  };
  const [truth, late, early] = [doubted(0), doubted(30), doubted(-30)];
  const ratios = weighed.map((w) => timesLikelier(w.found, w.built)).sort((a, b) => a - b);
  return {
    houses: weighed.length,
    falseAlarms: truth.doubted / truth.houses,
    late: late.doubted / late.houses,
    early: early.doubted / early.houses,
    caught: (late.doubted + early.doubted) / (late.houses + early.houses),
    atFivePercent: ratios[Math.ceil(0.95 * ratios.length) - 1] ?? 0,
  };
}

/** How a flag treats old houses. */
export interface OldAlarms {
  /** Share of true years before 1920 that are doubted by the evidence ratio, and by the odds that the true year is more
   * than twenty years off, each at the threshold that doubts one true year in twenty of any age. */
  ratio: number;
  farOff: number;
  houses: number;
}

export function scoreOldAlarms(weighed: Weighed[]): OldAlarms {
  const old = weighed.filter((w) => w.built < 1920);
  const alarms = (statistic: (w: Weighed) => number): number => {
    const all = weighed.map(statistic).sort((a, b) => a - b);
    const threshold = all[Math.ceil(0.95 * all.length) - 1] ?? 0;
    return old.filter((w) => statistic(w) > threshold).length / old.length;
  };
  return {
    houses: old.length,
    ratio: alarms((w) => timesLikelier(w.found, w.built)),
    farOff: alarms(({ found, built }) =>
      found.main.reduce((sum, y) => sum + (Math.abs(y.value - built) > 20 ? y.p : 0), 0),
    ),
  };
}
