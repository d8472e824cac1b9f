import { join } from 'node:path';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

/** Sheets tell of old houses; what is rarer than this is left out. */
const TOLD = new Set(['<1940', '1940-59', '1960-79']);
const RARE = 0.05;

/** The survey's words as an inspector says them. What the shingles are made of only a laboratory tells. */
const WORDS: Record<string, string> = {
  'Asbestos shingle': 'cement shingle (presume asbestos until a laboratory says otherwise)',
  'Brick (wall itself)': 'brick wall left bare',
  'Concrete/block (wall itself)': 'concrete or block left bare',
};

export interface Cladding {
  vintage: string;
  cladding: string;
  share: number;
}

/** The table for the knowledge folder, from a table of all states. */
export function claddingsAsCsv(folder: string): string {
  const rows = readTable(join(folder, 'resstock-exterior-finish-sfd.csv'))
    .filter((row) => TOLD.has(textOf(row, 'vintage')) && numberOf(row, 'p') >= RARE)
    .map((row) => {
      const finish = textOf(row, 'exterior_finish');
      const share = Math.round(numberOf(row, 'p') * 100) / 100;
      return [
        textOf(row, 'state'),
        textOf(row, 'vintage'),
        WORDS[finish] ?? finish.toLowerCase(),
        share,
      ].join(',');
    });
  return `state,vintage,cladding,share\n${rows.join('\n')}\n`;
}

/** Claddings that houses of a state wear today, from the folder of places. */
export function readCladdings(folder: string, state: string): Cladding[] {
  return readTable(join(folder, 'claddings.csv'))
    .filter((row) => textOf(row, 'state') === state)
    .map((row) => ({
      vintage: textOf(row, 'vintage'),
      cladding: textOf(row, 'cladding'),
      share: numberOf(row, 'share'),
    }));
}
