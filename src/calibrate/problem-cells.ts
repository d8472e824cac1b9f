import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { REGIONS } from '../../knowledge/schema/words.ts';
import { numberOf, readTable, type TableRow, textOf } from '../csv/read-table.ts';
import { PROBLEM_ITEMS, type ProblemItem } from './problem-items.ts';

export { REGIONS };
export type Region = (typeof REGIONS)[number];

/** Years of building as the survey's file tells them apart. */
export const DECADES = [
  'before 1920',
  '1920s',
  '1930s',
  '1940s',
  '1950s',
  '1960s',
  '1970s',
  '1980s',
  '1990s',
  '2000 on',
] as const;
export type Decade = (typeof DECADES)[number];

/** Half of the units, by a hash of the unit's number, fit; the other half test. A unit is never in both. */
export type Half = 'fit' | 'test';

/** Answers to one item in one region and decade. The sums are over units (clusters) of the unit's own sums over the years
 * it was asked, with survey weights in thousands of homes; they allow the clustered error of any union of cells. */
export interface ProblemCell {
  half: Half;
  region: Region;
  decade: Decade;
  item: string;
  /** Unit-years that answered, units among them. */
  answers: number;
  units: number;
  /** Sums of y, w, y * y, y * w, w * w, where y is a unit's weight that said yes and w its weight that answered. */
  yes: number;
  homes: number;
  yesYes: number;
  yesHomes: number;
  homesHomes: number;
}

/** Share of homes that said yes, with the standard error clustered by unit. Null if nobody answered. */
export interface Share {
  share: number;
  error: number;
  answers: number;
  homes: number;
}

export function shareOf(cells: readonly ProblemCell[]): Share | null {
  const sum = (of: (c: ProblemCell) => number): number => cells.reduce((total, c) => total + of(c), 0);
  const homes = sum((c) => c.homes);
  if (homes <= 0) return null;
  const share = sum((c) => c.yes) / homes;
  const variance =
    sum((c) => c.yesYes) - 2 * share * sum((c) => c.yesHomes) + share * share * sum((c) => c.homesHomes);
  return { share, error: Math.sqrt(Math.max(0, variance)) / homes, answers: sum((c) => c.answers), homes };
}

const COLUMNS = [
  'half',
  'region',
  'decade',
  'item',
  'answers',
  'units',
  'yes',
  'homes',
  'yesYes',
  'yesHomes',
  'homesHomes',
] as const;

export function readCells(path: string): ProblemCell[] {
  return readTable(path).map((row) => ({
    half: oneOf(['fit', 'test'] as const, textOf(row, 'half')),
    region: oneOf(REGIONS, textOf(row, 'region')),
    decade: oneOf(DECADES, textOf(row, 'decade')),
    item: textOf(row, 'item'),
    answers: numberOf(row, 'answers'),
    units: numberOf(row, 'units'),
    yes: numberOf(row, 'yes'),
    homes: numberOf(row, 'homes'),
    yesYes: numberOf(row, 'yesYes'),
    yesHomes: numberOf(row, 'yesHomes'),
    homesHomes: numberOf(row, 'homesHomes'),
  }));
}

export function writeCells(cells: readonly ProblemCell[]): string {
  const lines = cells.map((cell) =>
    COLUMNS.map((name) => {
      const value = cell[name];
      return typeof value === 'number' ? String(Number(value.toPrecision(6))) : value;
    }).join(','),
  );
  return `${[COLUMNS.join(','), ...lines].join('\n')}\n`;
}

/** Adds up the survey's open part: one-unit houses, detached and attached. */
export function cellsOfSurvey(path: string): { cells: ProblemCell[]; data: string } {
  const rows = readTable(path).filter((row) => ['1', '2'].includes(textOf(row, 'nunit2')));
  const cells = PROBLEM_ITEMS.flatMap((item) => cellsOfItem(item, rows));
  return { cells, data: createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 16) };
}

function cellsOfItem(item: ProblemItem, rows: readonly TableRow[]): ProblemCell[] {
  const byCell = new Map<string, { cell: ProblemCell; units: Map<string, { yes: number; homes: number }> }>();
  for (const row of rows) {
    const answer = answerOf(item, row);
    if (answer === null) continue;
    const unit = textOf(row, 'unit');
    const where = {
      half: halfOf(unit),
      region: REGIONS[numberOf(row, 'region') - 1] ?? oneOf(REGIONS, textOf(row, 'region')),
      decade: decadeOf(numberOf(row, 'built')),
      item: item.id,
    };
    const key = Object.values(where).join(' ');
    const empty = { answers: 0, units: 0, yes: 0, homes: 0, yesYes: 0, yesHomes: 0, homesHomes: 0 };
    const found = byCell.get(key) ?? { cell: { ...where, ...empty }, units: new Map() };
    const own = found.units.get(unit) ?? { yes: 0, homes: 0 };
    const homes = numberOf(row, 'weight') / 1000;
    found.cell.answers++;
    found.units.set(unit, { yes: own.yes + (answer ? homes : 0), homes: own.homes + homes });
    byCell.set(key, found);
  }
  return [...byCell.values()]
    .map(({ cell, units }) => {
      for (const { yes, homes } of units.values()) {
        cell.units++;
        cell.yes += yes;
        cell.homes += homes;
        cell.yesYes += yes * yes;
        cell.yesHomes += yes * homes;
        cell.homesHomes += homes * homes;
      }
      return cell;
    })
    .sort((a, b) => rank(a) - rank(b));
}

function rank(cell: ProblemCell): number {
  return (cell.half === 'fit' ? 0 : 100) + 10 * REGIONS.indexOf(cell.region) + DECADES.indexOf(cell.decade);
}

/** In the file 1 is yes and 2 is no; of the kinds of a leak, those met are marked 1 or X. Anything else is no answer. */
function answerOf(item: ProblemItem, row: TableRow): boolean | null {
  const first = textOf(row, item.ask.first);
  if (first !== '1' && first !== '2') return null;
  if (item.ask.kind === null || first === '2') return first === '1';
  return ['1', 'X'].includes(textOf(row, item.ask.kind));
}

export function halfOf(unit: string): Half {
  return (createHash('sha256').update(unit).digest()[0] ?? 0) < 128 ? 'fit' : 'test';
}

function decadeOf(built: number): Decade {
  if (built < 1920) return 'before 1920';
  return built >= 2000 ? '2000 on' : oneOf(DECADES, `${Math.floor(built / 10)}0s`);
}

function oneOf<T extends string>(known: readonly T[], word: string): T {
  const found = known.find((k) => k === word);
  if (found === undefined) throw new Error(`"${word}" is none of ${known.join(', ')}`);
  return found;
}
