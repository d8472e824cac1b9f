import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** How well a forecast did on houses kept out of every fit. */
export interface Score {
  forecast: string;
  /** Mean logarithmic loss; lower is better. */
  logLoss: number;
  /** Brier score summed over classes; lower is better. */
  brier: number;
}

export interface ScoredSystem {
  system: string;
  /** Build years that were scored, in words. */
  built: string;
  rows: number;
  scores: Score[];
  /** Our log loss less the decade table's, with its interval, as it is written; empty where it was not reckoned. */
  against: string;
}

/** The table of docs/calibration.md, which the fitting writes. The page shows it and adds no figure of its own. */
export function readCalibration(text: string): ScoredSystem[] {
  const systems: ScoredSystem[] = [];
  for (const line of text.split('\n')) {
    const cells = line.split('|').map((cell) => cell.trim());
    const [, system = '', built = '', rows = '', forecast = '', logLoss = '', brier = '', against = ''] =
      cells;
    if (cells.length !== 9 || !/^\d+$/.test(rows) || !/^\d+\.\d+$/.test(logLoss)) continue;
    let one = systems.find((s) => s.system === system && s.built === built);
    if (one === undefined) {
      one = { system, built, rows: Number(rows), scores: [], against: '' };
      systems.push(one);
    }
    one.scores.push({ forecast, logLoss: Number(logLoss), brier: Number(brier) });
    if (against !== '') one.against = against;
  }
  return systems;
}

/** What was tested and how, in the words of the page that the fitting writes: its paragraphs before the table. */
export function calibrationWords(text: string): { paragraphs: string[]; rivals: string[] } {
  const head = text.slice(0, text.search(/^\|/m));
  const blocks = head.split(/\n\s*\n/).map((block) => block.trim());
  const plain = (block: string): string => block.replace(/\s*\n\s*/g, ' ').replace(/\*\*?|`/g, '');
  return {
    paragraphs: blocks.filter((b) => b !== '' && !/^(?:#|-|Made by)/.test(b)).map(plain),
    rivals: blocks
      .filter((b) => b.startsWith('- '))
      .flatMap((b) => b.split(/\n(?=- )/).map((item) => plain(item.slice(2)))),
  };
}

const FILE = join(process.cwd(), 'docs/calibration.md');
const text = existsSync(FILE) ? readFileSync(FILE, 'utf8') : '';
export const calibration = { systems: readCalibration(text), ...calibrationWords(text) };
