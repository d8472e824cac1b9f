import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readReport } from './report.ts';

/** How well a forecast did on houses kept out of every fit. */
export interface Score {
  forecast: string;
  /** Mean logarithmic loss; lower is better. */
  logLoss: number;
  /** Brier score summed over classes; lower is better. */
  brier: number;
}

/** Our log loss less the decade table's: below nought is better. The interval holds nine times in ten. */
export interface Difference {
  mean: number;
  low: number;
  high: number;
}

export interface ScoredSystem {
  system: string;
  /** Build years that were scored, in words. */
  built: string;
  rows: number;
  scores: Score[];
  /** Null where it was not reckoned. */
  against: Difference | null;
  /** The same for ours with the form of the house known, which the table is not told. */
  formAgainst: Difference | null;
}

/** The scores that the fitting writes. The page shows them and adds no figure of its own.
 * @throws where the file does not hold what the fitting writes. */
export function readCalibration(value: unknown): ScoredSystem[] {
  return listOf(recordOf(value).scores).map((given) => {
    const one = recordOf(given);
    const scores = listOf(one.scores).map(recordOf);
    return {
      system: textOf(one.title),
      built: textOf(one.years),
      rows: numberOf(scores[0]?.rows),
      scores: scores.map((score) => ({
        forecast: textOf(score.forecast),
        logLoss: numberOf(score.logLoss),
        brier: numberOf(score.brier),
      })),
      against: one.againstDecade === undefined ? null : differenceOf(recordOf(one.againstDecade)),
      formAgainst: one.formAgainstDecade === undefined ? null : differenceOf(recordOf(one.formAgainstDecade)),
    };
  });
}

function differenceOf(given: Record<string, unknown>): Difference {
  return { mean: numberOf(given.mean), low: numberOf(given.low), high: numberOf(given.high) };
}

/** A difference as it is written, with its interval. */
export function differenceInWords({ mean, low, high }: Difference): string {
  return `${signed(mean)} (${signed(low)} to ${signed(high)})`;
}

const signed = (x: number): string => `${x < 0 ? '-' : '+'}${Math.abs(x).toFixed(3)}`;

/** Where a difference says that ours did better than the table by decade, where worse, and where its interval can't
 * tell. */
export function standing(
  systems: readonly ScoredSystem[],
  of: (s: ScoredSystem) => Difference | null,
): Record<'better' | 'worse' | 'alike', string[]> {
  const found: Record<'better' | 'worse' | 'alike', string[]> = { better: [], worse: [], alike: [] };
  for (const one of systems) {
    const { system, built } = one;
    const against = of(one);
    if (against === null) continue;
    const name = `${system.toLowerCase()} (${built === 'all' ? 'all years' : `built ${built}`})`;
    found[against.high < 0 ? 'better' : against.low > 0 ? 'worse' : 'alike'].push(name);
  }
  return found;
}

function recordOf(value: unknown): Record<string, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new Error('docs/calibration-ames.json: an object is missing; run the calibration again.');
  return Object.fromEntries(Object.entries(value));
}

function listOf(value: unknown): unknown[] {
  if (!Array.isArray(value))
    throw new Error('docs/calibration-ames.json: a list is missing; run the calibration again.');
  return value;
}

function textOf(value: unknown): string {
  if (typeof value !== 'string')
    throw new Error('docs/calibration-ames.json: a word is missing; run the calibration again.');
  return value;
}

function numberOf(value: unknown): number {
  if (typeof value !== 'number' || !Number.isFinite(value))
    throw new Error('docs/calibration-ames.json: a number is missing; run the calibration again.');
  return value;
}

const read = (name: string): string | null => {
  const file = join(process.cwd(), 'docs', name);
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
};
const scores = read('calibration-ames.json');
export const calibration = {
  systems: scores === null ? [] : readCalibration(JSON.parse(scores)),
  sections: readReport(read('calibration.md') ?? ''),
};
