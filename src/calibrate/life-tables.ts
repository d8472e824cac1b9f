import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

/** A service life that somebody published, beside ours. */
export interface LifeRow {
  what: string;
  entry: string;
  low: number;
  high: number;
  source: string;
  life: { best: number; low: number; high: number };
  /** Our range meets what was published. */
  meets: boolean;
  /** Our best figure is within a third of what was published. */
  near: boolean;
}

/** Rows of a table of lives (tests/tables/README.md) beside the lives of the base. */
export function lifeRows(base: Base, folder: string, file: string): LifeRow[] {
  const lives = new Map(base.materials.map((m) => [m.id, m.life]));
  return readTable(join(folder, file)).map((row) => {
    const entry = textOf(row, 'entry');
    const life = lives.get(entry);
    if (life === undefined) throw new Error(`${file} names "${entry}", which the base does not have`);
    const [low, high] = [numberOf(row, 'low'), numberOf(row, 'high')];
    return {
      what: textOf(row, 'what'),
      entry,
      low,
      high,
      source: textOf(row, 'source'),
      life,
      meets: life.low <= high && life.high >= low,
      near: life.best >= (low * 2) / 3 && life.best <= (high * 4) / 3,
    };
  });
}
