import { type AgeRow, ageSlope } from './age-slope.ts';
import { DECADES, type Decade, type ProblemCell, REGIONS, shareOf } from './problem-cells.ts';
import type { ProblemItem } from './problem-items.ts';
import { errorAt, expected, fitLink, type Link, presentOver } from './problem-link.ts';
import { ageOf, type CellOdds } from './problem-odds.ts';

/** What the survey found in some homes against what the planner believes of such homes. */
export interface Compared {
  where: string;
  share: number;
  /** Of the survey's share, clustered by unit. */
  clustered: number;
  /** Chance that one of the failure modes is there, and the chance of a yes that follows by the link. */
  present: number;
  expected: number;
  /** Standard error that the survey's share would have if `expected` were true. */
  error: number;
}

export interface ItemScore {
  item: ProblemItem;
  link: Link;
  /** Units kept out of the fit: by decade in the nation, and by region and band of years. */
  decades: Compared[];
  bands: Compared[];
  /** All units, for the floor. */
  all: Compared[];
  allBands: Compared[];
  /** Log-odds a decade of age: the survey's (all units, with its error) and ours through the link. */
  slope: { survey: number; error: number; ours: number };
}

export const BANDS: { name: string; decades: Decade[] }[] = [
  { name: 'before 1920', decades: ['before 1920'] },
  { name: '1920-39', decades: ['1920s', '1930s'] },
  { name: '1940-59', decades: ['1940s', '1950s'] },
  { name: '1960-79', decades: ['1960s', '1970s'] },
  { name: '1980-99', decades: ['1980s', '1990s'] },
  { name: '2000 on', decades: ['2000 on'] },
];

/** Links fitted on one half of the units. */
export function fitLinks(items: ProblemItem[], cells: ProblemCell[], odds: CellOdds[]): Link[] {
  return items.map((item) =>
    fitLink(
      item,
      cells.filter((c) => c.item === item.id && c.half === 'fit'),
      odds,
    ),
  );
}

export function scoreItem(
  item: ProblemItem,
  link: Link,
  cells: readonly ProblemCell[],
  odds: readonly CellOdds[],
): ItemScore {
  const own = cells.filter((c) => c.item === item.id);
  const test = own.filter((c) => c.half === 'test');
  const at = (where: string, chosen: ProblemCell[]): Compared[] => compare(where, chosen, link, odds);
  const byDecade = (rows: ProblemCell[]): Compared[] =>
    DECADES.flatMap((d) =>
      at(
        d,
        rows.filter((c) => c.decade === d),
      ),
    );
  const byBand = (rows: ProblemCell[]): Compared[] =>
    REGIONS.flatMap((region) =>
      BANDS.flatMap(({ name, decades }) =>
        at(
          `${region}, ${name}`,
          rows.filter((c) => c.region === region && decades.includes(c.decade)),
        ),
      ),
    );
  return {
    item,
    link,
    decades: byDecade(test),
    bands: byBand(test),
    all: byDecade(own),
    allBands: byBand(own),
    slope: slopes(own, link, odds),
  };
}

function compare(where: string, cells: ProblemCell[], link: Link, odds: readonly CellOdds[]): Compared[] {
  const found = shareOf(cells);
  if (found === null) return [];
  const present = presentOver(cells, odds);
  const yes = expected(link, present);
  return [
    {
      where,
      share: found.share,
      clustered: found.error,
      present,
      expected: yes,
      error: errorAt(link, yes, found.answers),
    },
  ];
}

/** Within the survey's error, 95 in 100. */
export function within(c: Compared): boolean {
  return Math.abs(c.share - c.expected) <= 1.96 * c.error;
}

/** The same by the survey's own clustered error, which is too small where few or none said yes. */
export function withinClustered(c: Compared): boolean {
  return Math.abs(c.share - c.expected) <= 1.96 * c.clustered;
}

/** An occupant's answer is a floor: what we believe to be there may not be less. */
export function aboveFloor(c: Compared): boolean {
  return c.present >= c.share;
}

function slopes(cells: ProblemCell[], link: Link, odds: readonly CellOdds[]): ItemScore['slope'] {
  const rows = (shareIn: (c: ProblemCell) => number): AgeRow[] =>
    cells.map((c) => ({
      decades: ageOf(c.decade) / 10,
      region: REGIONS.indexOf(c.region),
      share: shareIn(c),
      answers: c.answers,
    }));
  const survey = ageSlope(rows((c) => c.yes / c.homes));
  const ours = ageSlope(rows((c) => expected(link, presentOver([c], odds))));
  return { survey: survey.slope, error: survey.error * Math.sqrt(link.design), ours: ours.slope };
}
