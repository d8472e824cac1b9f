import type { BaseIndex } from '../base-index.ts';
import type { House, Odds } from '../house/house.ts';
import { stockByYear } from '../house/priors.ts';
import { exp, log, round } from '../numerics/functions.ts';
import { evidenceFor } from './believe.ts';

/** Odds over the years a part may have been built in, from clues alone, and what they make of a listed year. */
export interface Dating {
  schema: 'datestone.date/1';
  base: string;
  asOf: number;
  place: string | null;
  listed: number | null;
  /** Smallest span of years with four fifths of the odds, and the middle year. */
  likely: { from: number; to: number; middle: number };
  decades: { decade: number; p: number }[];
  /** Clues by how far each moves the odds (total variation distance with and without it), most first. */
  drivers: {
    clue: string;
    say: string;
    moves: number;
    without: { from: number; to: number; middle: number };
  }[];
  /** For a listed year: how many times likelier the clues are for a house of unknown age than for one of that
   * year, and whether that is so much that the record should be doubted. */
  record: { timesLikelier: number; doubted: boolean; say: string } | null;
}

/** Clues this many times likelier for a house of unknown age than for one of the listed year cast doubt on the
 * record. Common practice: how often it doubts a true record has not been measured yet. */
export const DOUBT = 3;

/** Houses older than this are dated as this. */
const OLDEST = 1800;

/** Dates a house's first part. The prior is the stock of houses standing in the state, year by year; each system
 * with clues multiplies it by the likelihood of its evidence for every build year at once. */
export function dateHouse(index: BaseIndex, house: House, listed: number | null): Dating {
  const prior = stockByYear(index.base, house.place.state, OLDEST, house.asOf);
  const all = house.clues.map((c) => c.id);
  const odds = posteriorYears(index, house, prior, new Set());
  return {
    schema: 'datestone.date/1',
    base: index.base.hash,
    asOf: house.asOf,
    place: house.place.state,
    listed,
    likely: span(odds.years),
    decades: byDecade(odds.years),
    drivers: [...new Set(all)]
      .map((id) => {
        const without = posteriorYears(index, house, prior, new Set([id])).years;
        const moves = odds.years.reduce((sum, y, i) => sum + Math.abs(y.p - (without[i]?.p ?? 0)), 0) / 2;
        return {
          clue: id,
          say: index.clues.get(id)?.say ?? id,
          moves: round(moves, 4),
          without: span(without),
        };
      })
      .sort((a, b) => b.moves - a.moves || (a.clue < b.clue ? -1 : 1)),
    record: listed === null ? null : record(odds, listed),
  };
}

interface YearOdds {
  years: Odds<number>;
  /** Log-likelihood of the clues for each of the years, and over the prior. */
  logLikelihood: Map<number, number>;
  overall: number;
}

function posteriorYears(
  index: BaseIndex,
  house: House,
  prior: Odds<number>,
  without: ReadonlySet<string>,
): YearOdds {
  const from = prior[0]?.value ?? OLDEST;
  const scores = new Float64Array(prior.length);
  for (const z of evidenceFor(index, house, from, without))
    prior.forEach((y, i) => {
      scores[i] = (scores[i] ?? 0) + log(Math.max(z[y.value - from] ?? 0, 1e-300));
    });
  const joint = prior.map((y, i) => log(Math.max(y.p, 1e-300)) + (scores[i] ?? 0));
  const top = Math.max(...joint);
  const weights = joint.map((s) => exp(s - top));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return {
    years: prior.map((y, i) => ({ value: y.value, p: (weights[i] ?? 0) / total })),
    logLikelihood: new Map(prior.map((y, i) => [y.value, scores[i] ?? 0])),
    overall: top + log(total),
  };
}

function record(odds: YearOdds, listed: number): Dating['record'] {
  const at = odds.logLikelihood.get(listed);
  if (at === undefined) return null;
  const times = exp(Math.min(50, odds.overall - at));
  const doubted = times > DOUBT;
  return {
    timesLikelier: round(times, 2),
    doubted,
    say: doubted
      ? `The clues sit badly with ${listed}: they are ${round(times, 1)} times likelier for a house of unknown age. Look for an older map, a deed or a datestone.`
      : `The clues do not speak against ${listed}; that is no support for it either.`,
  };
}

/** Smallest run of years with at least four fifths of the odds. */
function span(years: Odds<number>): { from: number; to: number; middle: number } {
  let best = { from: years[0]?.value ?? 0, to: years.at(-1)?.value ?? 0 };
  let right = 0;
  let held = 0;
  for (let left = 0; left < years.length; left++) {
    while (right < years.length && held < 0.8) held += years[right++]?.p ?? 0;
    if (held < 0.8) break;
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

function byDecade(years: Odds<number>): { decade: number; p: number }[] {
  const decades = new Map<number, number>();
  for (const y of years) {
    const decade = Math.floor(y.value / 10) * 10;
    decades.set(decade, (decades.get(decade) ?? 0) + y.p);
  }
  return [...decades].map(([decade, p]) => ({ decade, p: round(p, 6) })).filter((d) => d.p > 0.0005);
}
