import { readFileSync } from 'node:fs';
import { CsvCutter } from './csv-rows.ts';

/** A row of a CSV file by its column names. */
export type TableRow = ReadonlyMap<string, string>;

/** Reads a whole CSV file that has a header. */
export function readTable(path: string): TableRow[] {
  const cutter = new CsvCutter();
  const [header, ...rows] = [...cutter.push(readFileSync(path, 'utf8')), ...cutter.end()];
  if (header === undefined) throw new Error(`${path} is empty; it needs a line of column names`);
  return rows.map((row) => {
    if (row.cells.length !== header.cells.length)
      throw new Error(
        `${path} line ${row.line}: ${row.cells.length} cells under ${header.cells.length} columns; quote cells that hold commas`,
      );
    return new Map(header.cells.map((name, i) => [name, row.cells[i] ?? '']));
  });
}

export function textOf(row: TableRow, column: string): string {
  const value = row.get(column);
  if (value === undefined)
    throw new Error(`there is no column "${column}"; there are ${[...row.keys()].join(', ')}`);
  return value;
}

export function numberOf(row: TableRow, column: string): number {
  const value = Number(textOf(row, column));
  if (textOf(row, column).trim() === '' || !Number.isFinite(value))
    throw new Error(`column "${column}" holds "${textOf(row, column)}", which is not a number`);
  return value;
}
