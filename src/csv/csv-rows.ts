/** One record of a CSV file: the line it begins on (the first line of the file is 1) and its cells. */
export interface CsvRow {
  line: number;
  cells: string[];
}

/** Cuts CSV text into records as it arrives: quoted cells, quotes doubled inside them, line breaks inside
 * quotes, CR LF or LF, an optional byte-order mark, blank lines skipped. */
export class CsvCutter {
  #cells: string[] = [];
  #cell = '';
  #quoted = false;
  /** A quote was just met inside a quoted cell: either the cell ends or a second quote follows. */
  #quoteHeld = false;
  #begun = false;
  #line = 1;
  #rowLine = 1;
  #after = '';
  #first = true;

  /** Takes the next piece of text and gives the records it completes. */
  push(text: string): CsvRow[] {
    const rows: CsvRow[] = [];
    const chunk = this.#first && text.startsWith('\uFEFF') ? text.slice(1) : text;
    if (text.length > 0) this.#first = false;
    for (const char of chunk) this.#take(char, rows);
    return rows;
  }

  /** Gives what is left when the text has ended. An open quote at the end closes there. */
  end(): CsvRow[] {
    const rows: CsvRow[] = [];
    if (this.#begun || this.#cell !== '' || this.#cells.length > 0) this.#endRow(rows);
    return rows;
  }

  #take(char: string, rows: CsvRow[]): void {
    const before = this.#after;
    this.#after = char;
    if (this.#quoteHeld) {
      this.#quoteHeld = false;
      if (char === '"') {
        this.#cell += '"';
        return;
      }
      this.#quoted = false;
    } else if (this.#quoted) {
      if (char === '"') this.#quoteHeld = true;
      else {
        if (char === '\n') this.#line += 1;
        this.#cell += char;
      }
      return;
    }
    if (char === ',') {
      this.#endCell();
      this.#begun = true;
    } else if (char === '\n' || char === '\r') {
      if (char === '\n' && before === '\r') {
        this.#rowLine = this.#line;
        return;
      }
      this.#line += 1;
      if (this.#begun || this.#cell !== '') this.#endRow(rows);
      this.#rowLine = this.#line;
    } else if (char === '"' && this.#cell.trim() === '') {
      this.#cell = '';
      this.#quoted = true;
      this.#begun = true;
    } else this.#cell += char;
  }

  #endCell(): void {
    this.#cells.push(this.#cell);
    this.#cell = '';
  }

  #endRow(rows: CsvRow[]): void {
    this.#endCell();
    rows.push({ line: this.#rowLine, cells: this.#cells });
    this.#cells = [];
    this.#begun = false;
  }
}
