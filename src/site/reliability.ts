import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ReliabilityBin } from '../drawings/reliability.ts';

/** Said against came true for one thing that was tested. */
export interface Reliability {
  title: string;
  /** Mean distance between what a bin said and what came true. */
  error: number | null;
  bins: ReliabilityBin[];
}

/** The scores by bin that the fitting writes, wherever in the file they stand: every value with `bins` is one diagram.
 * The page draws them and reckons nothing. */
export function readReliability(value: unknown): Reliability[] {
  if (Array.isArray(value)) return value.flatMap(readReliability);
  if (!isRecord(value)) return [];
  const bins = Array.isArray(value.bins) ? value.bins.flatMap(binOf) : [];
  if (bins.length === 0) return Object.values(value).flatMap(readReliability);
  return [{ title: titleOf(value), error: numberOf(value.error), bins }];
}

function titleOf(value: Record<string, unknown>): string {
  const words = [value.title ?? value.system, value.years ?? value.built].filter(
    (word): word is string => typeof word === 'string',
  );
  return words.join(', built: ');
}

function binOf(given: unknown): ReliabilityBin[] {
  if (!isRecord(given)) return [];
  const n = numberOf(given.n);
  const forecast = numberOf(given.forecast);
  const observed = numberOf(given.observed);
  const low = numberOf(given.low);
  const high = numberOf(given.high);
  if (n === null || forecast === null || observed === null || low === null || high === null) return [];
  return [{ n, forecast, observed, low, high }];
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const numberOf = (value: unknown): number | null =>
  typeof value === 'number' && Number.isFinite(value) ? value : null;

const FILE = join(process.cwd(), 'docs/calibration-ames.json');
export const reliability: Reliability[] = existsSync(FILE)
  ? readReliability(JSON.parse(readFileSync(FILE, 'utf8')))
  : [];
