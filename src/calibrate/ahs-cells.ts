import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { REGIONS } from '../../knowledge/schema/words.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

/** Answers of the housing survey (source `ahs-1997-2013`), used only to test: nothing is fitted to them. */
export type Region = (typeof REGIONS)[number];

/** What is compared, by the question asked of the occupant. */
export const ITEMS = ['basement', 'slab', 'hydronic', 'central-air'] as const;
export type Item = (typeof ITEMS)[number];

/** Houses of one region and one bracket of build years that answered one question. */
export interface AhsCell {
  item: Item;
  region: Region;
  /** First and last year of the survey's bracket of build years. */
  from: number;
  to: number;
  /** Weighted mean year of the interviews. */
  asOf: number;
  /** Houses; each is counted once. */
  n: number;
  /** Sums of the survey weights and of their squares: n (sum of squares) / (sum)^2 is the design effect of weighting. */
  weight: number;
  squares: number;
  /** Weighted share that answered yes. */
  share: number;
}

const REGION_OF: Record<string, Region> = { 1: 'Northeast', 2: 'Midwest', 3: 'South', 4: 'West' };

/** First years of the brackets in which the survey asks the build year, made no finer than five years. */
const BRACKETS = [1870, 1920, 1930, 1940, 1950, 1960, 1970, 1975, 1980, 1985, 1990, 1995, 2000, 2005];
const LAST = 2012;
/** The survey's words for one-unit buildings, detached and attached. */
const ONE_UNIT = ['1', '2'];

/** Yes, no, or no answer. Cellar: 1 full and 2 part basement, 3 crawl space, 4 slab, 5 other. Heating equipment: 2 is
 * steam or hot water. Air conditioning: 1 is central. */
const ANSWER: Record<Item, (row: { cellar: string; hequip: string; airsys: string }) => boolean | null> = {
  basement: ({ cellar }) => (/^[1-5]$/.test(cellar) ? cellar === '1' || cellar === '2' : null),
  slab: ({ cellar }) => (/^[1-5]$/.test(cellar) ? cellar === '4' : null),
  hydronic: ({ hequip }) => (/^\d+$/.test(hequip) ? hequip === '2' : null),
  'central-air': ({ airsys }) => (/^[12]$/.test(airsys) ? airsys === '1' : null),
};

interface Interview {
  unit: string;
  year: number;
  built: number;
  region: Region;
  weight: number;
  yes: boolean;
}

/** Tabulates the survey's open part. The same house comes back every other year: of its interviews that answer the
 * question the middle one is taken. */
export function tabulateAhs(folder: string): { cells: AhsCell[]; hash: string } {
  const path = join(folder, 'ahs-sample-train.csv');
  const rows = readTable(path).filter((row) => ONE_UNIT.includes(textOf(row, 'nunit2')));
  const cells = ITEMS.flatMap((item) => {
    const answered = rows.flatMap((row): Interview[] => {
      const yes = ANSWER[item]({
        cellar: textOf(row, 'cellar'),
        hequip: textOf(row, 'hequip'),
        airsys: textOf(row, 'airsys'),
      });
      const region = REGION_OF[textOf(row, 'region')];
      if (yes === null || region === undefined) return [];
      return [
        {
          unit: textOf(row, 'unit'),
          year: numberOf(row, 'year'),
          built: numberOf(row, 'built'),
          region,
          weight: numberOf(row, 'weight'),
          yes,
        },
      ];
    });
    return tabulate(item, onePerHouse(answered));
  });
  return { cells, hash: createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 16) };
}

function onePerHouse(interviews: Interview[]): Interview[] {
  const houses = new Map<string, Interview[]>();
  for (const i of interviews) houses.set(i.unit, [...(houses.get(i.unit) ?? []), i]);
  return [...houses.values()].flatMap((own) => {
    const inOrder = own.sort((a, b) => a.year - b.year);
    return inOrder[Math.floor((inOrder.length - 1) / 2)] ?? [];
  });
}

function tabulate(item: Item, houses: Interview[]): AhsCell[] {
  return Object.values(REGION_OF).flatMap((region) =>
    BRACKETS.flatMap((from, i): AhsCell[] => {
      const to = (BRACKETS[i + 1] ?? LAST + 1) - 1;
      const own = houses.filter((h) => h.region === region && (i === 0 || h.built >= from) && h.built <= to);
      if (own.length === 0) return [];
      const weight = total(own, (h) => h.weight);
      return [
        {
          item,
          region,
          from,
          to,
          asOf: total(own, (h) => h.weight * h.year) / weight,
          n: own.length,
          weight,
          squares: total(own, (h) => h.weight * h.weight),
          share: total(own, (h) => (h.yes ? h.weight : 0)) / weight,
        },
      ];
    }),
  );
}

/** Share of pairs of interviews of one house, one after the other, in which the answer changed. What does not change
 * in the house itself is misreported; `back` counts only changes from yes to no. */
export function changedAnswers(folder: string, item: Item): { pairs: number; changed: number; back: number } {
  const rows = readTable(join(folder, 'ahs-sample-train.csv')).filter((row) =>
    ONE_UNIT.includes(textOf(row, 'nunit2')),
  );
  const houses = new Map<string, { year: number; yes: boolean }[]>();
  for (const row of rows) {
    const yes = ANSWER[item]({
      cellar: textOf(row, 'cellar'),
      hequip: textOf(row, 'hequip'),
      airsys: textOf(row, 'airsys'),
    });
    if (yes === null) continue;
    const unit = textOf(row, 'unit');
    houses.set(unit, [...(houses.get(unit) ?? []), { year: numberOf(row, 'year'), yes }]);
  }
  const counts = { pairs: 0, changed: 0, back: 0 };
  for (const own of houses.values()) {
    own.sort((a, b) => a.year - b.year);
    own.forEach((now, i) => {
      const before = own[i - 1];
      if (before === undefined) return;
      counts.pairs++;
      if (before.yes !== now.yes) counts.changed++;
      if (before.yes && !now.yes) counts.back++;
    });
  }
  return counts;
}

const COLUMNS = ['item', 'region', 'from', 'to', 'asOf', 'n', 'weight', 'squares', 'share'] as const;

/** The cells as a table for `tests/tables/ahs-cells.csv`: with it the test runs where the survey itself is not. */
export function cellsAsCsv(cells: AhsCell[]): string {
  const lines = cells.map((c) =>
    [
      c.item,
      c.region,
      c.from,
      c.to,
      c.asOf.toFixed(1),
      c.n,
      Math.round(c.weight),
      Math.round(c.squares),
      c.share.toFixed(4),
    ].join(','),
  );
  return `${[COLUMNS.join(','), ...lines].join('\n')}\n`;
}

export function readAhsCells(path: string): AhsCell[] {
  return readTable(path).map((row) => ({
    item: wordOf(textOf(row, 'item'), ITEMS),
    region: wordOf(textOf(row, 'region'), Object.values(REGION_OF)),
    from: numberOf(row, 'from'),
    to: numberOf(row, 'to'),
    asOf: numberOf(row, 'asOf'),
    n: numberOf(row, 'n'),
    weight: numberOf(row, 'weight'),
    squares: numberOf(row, 'squares'),
    share: numberOf(row, 'share'),
  }));
}

function wordOf<T extends string>(text: string, words: readonly T[]): T {
  const found = words.find((word) => word === text);
  if (found === undefined) throw new Error(`"${text}" is none of ${words.join(', ')}`);
  return found;
}

function total<T>(rows: T[], value: (row: T) => number): number {
  return rows.reduce((sum, row) => sum + value(row), 0);
}
