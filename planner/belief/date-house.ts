import type { BaseIndex } from '../base-index.ts';
import type { House } from '../house/house.ts';
import { stockByYear } from '../house/priors.ts';
import { round } from '../numerics/functions.ts';
import { doubtOf, type RecordDoubt, timesLikelier } from './doubt.ts';
import { type HouseYears, houseYears } from './house-years.ts';
import { byDecade, likelySpan, type YearSpan } from './year-span.ts';

/** Odds over the years a house may have been built in, from clues alone, and what they make of a listed year. */
export interface Dating {
  schema: 'datestone.date/1';
  base: string;
  asOf: number;
  place: string | null;
  listed: number | null;
  /** Main block: smallest span of years with four fifths of the odds, and the middle year. */
  likely: YearSpan;
  decades: { decade: number; p: number }[];
  /** Additions that have clues of their own, in the order given. */
  additions: { part: string; likely: YearSpan; decades: { decade: number; p: number }[] }[];
  /** Clues by how far each moves the odds of its part (total variation distance with and without it), most first. */
  drivers: Driver[];
  /** For a listed year of the main block. */
  record: RecordDoubt | null;
}

interface Driver {
  clue: string;
  say: string;
  part: string;
  moves: number;
  /** The part's span without this clue. */
  without: YearSpan;
  /** For a listed year: how many times likelier the other clues are for a house of unknown age. */
  timesLikelierWithout: number | null;
}

/** Houses older than this are dated as this. */
const OLDEST = 1800;

/** Dates the parts of a house by its clues. The prior is the stock of houses standing in the state, year by year.
 * `listed` is a year from a record, from `OLDEST` to the as-of year, or null. */
export function dateHouse(index: BaseIndex, house: House, listed: number | null): Dating {
  const prior = stockByYear(index.base, house.place.state, OLDEST, house.asOf);
  const odds = houseYears(index, house, prior, new Set());
  const told = new Map(
    house.clues.flatMap((c) => (c.impliedBy === undefined ? [[c.id, c.part] as const] : [])),
  );
  const drivers = [...told].map(([clue, part]): Driver => {
    const without = houseYears(index, house, prior, new Set([clue]));
    const of = ({ main, additions }: HouseYears): HouseYears['main'] =>
      additions.find((a) => a.part.name === part)?.years ?? main;
    const left = of(without);
    const moves = of(odds).reduce((sum, y, i) => sum + Math.abs(y.p - (left[i]?.p ?? 0)), 0) / 2;
    return {
      clue,
      say: index.clues.get(clue)?.say ?? clue,
      part,
      moves: round(moves, 4),
      without: likelySpan(left),
      timesLikelierWithout: listed === null ? null : round(timesLikelier(without, listed), 2),
    };
  });
  return {
    schema: 'datestone.date/1',
    base: index.base.hash,
    asOf: house.asOf,
    place: house.place.state,
    listed,
    likely: likelySpan(odds.main),
    decades: byDecade(odds.main),
    additions: odds.additions.map(({ part, years }) => ({
      part: part.name,
      likely: likelySpan(years),
      decades: byDecade(years),
    })),
    drivers: drivers.sort((a, b) => b.moves - a.moves || (a.clue < b.clue ? -1 : 1)),
    record: listed === null ? null : doubtOf(odds, listed),
  };
}
