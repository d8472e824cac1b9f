import { nearest } from '../../planner/house/words.ts';
import { CsvCutter } from '../csv/csv-rows.ts';
import { HOUSE_OPTIONS, type HouseOption, type HouseWords, isHouseOption } from './house-options.ts';
import { cut } from './lines.ts';
import { UsageError } from './usage-error.ts';

/** One row of a batch: its number (the first house is 1), what it is called if it says so, and what it says, or why it
 * can't be read. */
export type BatchRow = { row: number; id?: string } & ({ words: HouseWords } | { error: string });

/** Heads the column of whatever the person calls the house; it comes back on the house's line. */
const NAME = 'id';

type Column = HouseOption | typeof NAME;

/** Reads a batch as it comes: a JSON object a line if the first thing in it is a brace, else CSV with a header. */
export async function* rowsOf(text: AsyncIterable<string>): AsyncGenerator<BatchRow> {
  const pieces = text[Symbol.asyncIterator]();
  let head = '';
  for (;;) {
    const next = await pieces.next();
    if (next.done === true) break;
    head += next.value;
    if (bare(head) !== '') break;
  }
  const whole = joined(head, pieces);
  if (bare(head).startsWith('{')) yield* jsonRows(whole);
  else yield* csvRows(whole);
}

function bare(text: string): string {
  return text.replace(/^\uFEFF/, '').trimStart();
}

async function* joined(head: string, rest: AsyncIterator<string>): AsyncGenerator<string> {
  yield head;
  for (let next = await rest.next(); next.done !== true; next = await rest.next()) yield next.value;
}

async function* jsonRows(text: AsyncIterable<string>): AsyncGenerator<BatchRow> {
  let row = 0;
  for await (const line of cut(text)) {
    if (line.trim() === '') continue;
    row += 1;
    try {
      yield { row, ...wordsOfObject(JSON.parse(line)) };
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      yield { row, error: error instanceof UsageError ? why : `is not a JSON object: ${why}` };
    }
  }
}

function wordsOfObject(value: unknown): { id?: string; words: HouseWords } {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new UsageError('is not a JSON object; write {"built": "1913", ...}');
  const words = new Map<HouseOption, string[]>();
  let id: string | undefined;
  for (const [name, given] of Object.entries(value)) {
    const option = columnNamed(name);
    if (option === NAME) {
      id = scalar(name, given);
      continue;
    }
    const many = Array.isArray(given) ? given : [given];
    const texts = many
      .filter((item) => item !== null && item !== '')
      .map((item: unknown) => scalar(name, item));
    if (texts.length > 1 && HOUSE_OPTIONS[option] === 'one')
      throw new UsageError(`"${name}" takes one value, but a list of ${texts.length} was given`);
    if (texts.length > 0) words.set(option, texts);
  }
  return { ...called(id), words };
}

function called(id: string | undefined): { id?: string } {
  return id === undefined || id === '' ? {} : { id };
}

function scalar(name: string, value: unknown): string {
  if (typeof value === 'string') return value.trim();
  if (typeof value === 'number') return String(value);
  throw new UsageError(`"${name}" takes text or a number, but ${JSON.stringify(value)} was given`);
}

async function* csvRows(text: AsyncIterable<string>): AsyncGenerator<BatchRow> {
  const cutter = new CsvCutter();
  let columns: Column[] | null = null;
  let row = 0;
  const take = function* (records: { cells: string[] }[]): Generator<BatchRow> {
    for (const { cells } of records) {
      if (columns === null) {
        columns = headerOf(cells);
        continue;
      }
      row += 1;
      yield rowOf(row, columns, cells);
    }
  };
  for await (const piece of text) yield* take(cutter.push(piece));
  yield* take(cutter.end());
  if (columns === null)
    throw new UsageError(
      '--batch: the file is empty; give a line of column names (built,foundation,place), then a house a line',
    );
}

function headerOf(cells: string[]): Column[] {
  const columns = cells.map(columnNamed);
  const twice = columns.find((name, i) => columns.indexOf(name) < i && !takesMany(name));
  if (twice !== undefined) throw new UsageError(`--batch: the column "${twice}" is there twice; keep one`);
  return columns;
}

function takesMany(column: Column): boolean {
  return column !== NAME && HOUSE_OPTIONS[column] === 'many';
}

function columnNamed(text: string): Column {
  const name = text.trim().toLowerCase().replace(/^--/, '').replaceAll('_', '-');
  if (name === NAME || isHouseOption(name)) return name;
  const names = [NAME, ...Object.keys(HOUSE_OPTIONS)];
  const near = nearest(name, names);
  const suggestion = near === null ? '' : `; did you mean ${near}?`;
  throw new UsageError(`there is no column ${JSON.stringify(text)}; use ${names.join(', ')}${suggestion}`);
}

function rowOf(row: number, columns: Column[], cells: string[]): BatchRow {
  if (cells.length !== columns.length) {
    const error = `has ${cells.length} cells under ${columns.length} columns; quote cells that hold commas`;
    return { row, error };
  }
  const words = new Map<HouseOption, string[]>();
  let id: string | undefined;
  columns.forEach((name, i) => {
    const cell = (cells[i] ?? '').trim();
    if (name === NAME) id = cell;
    if (cell === '' || name === NAME) return;
    const several = takesMany(name) ? cell.split(/[;\s]+/).filter((w) => w !== '') : [cell];
    words.set(name, [...(words.get(name) ?? []), ...several]);
  });
  return { row, ...called(id), words };
}
