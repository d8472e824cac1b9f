import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CsvCutter } from '../../src/csv/csv-rows.ts';

function cellsOf(...pieces: string[]): string[][] {
  const cutter = new CsvCutter();
  return [...pieces.flatMap((piece) => cutter.push(piece)), ...cutter.end()].map((row) => row.cells);
}

describe('cutting CSV', () => {
  it('reads quotes, doubled quotes, commas and line breaks in quotes', () => {
    expect(cellsOf('a,"b,c","d ""e""","f\ng"\n')).toEqual([['a', 'b,c', 'd "e"', 'f\ng']]);
  });

  it('takes LF, CR LF and CR, a byte-order mark, blank lines and a last line without an end', () => {
    expect(cellsOf('\uFEFFa,b\r\n\r\n1,2\r3,\n\n,4')).toEqual([
      ['a', 'b'],
      ['1', '2'],
      ['3', ''],
      ['', '4'],
    ]);
  });

  it('knows the line on which a record begins', () => {
    const cutter = new CsvCutter();
    const rows = [...cutter.push('a\n"b\nc"\r\nd'), ...cutter.end()];
    expect(rows.map((row) => row.line)).toEqual([1, 2, 4]);
  });

  it('reads back what was written, wherever the text is cut', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', 'é', '"', ',', '\n', '\r', ' ', '9') });
    const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(table, fc.nat(), (rows, at) => {
        const text = rows.map((row) => row.map((c) => `"${c.replaceAll('"', '""')}"`).join(',')).join('\r\n');
        const cut = at % (text.length + 1);
        expect(cellsOf(text.slice(0, cut), text.slice(cut))).toEqual(rows);
      }),
    );
  });
});
