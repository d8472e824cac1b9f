import { exp, round } from '../numerics/functions.ts';
import type { HouseYears } from './house-years.ts';

/** What the clues make of a listed year. */
export interface RecordDoubt {
  /** How many times likelier the clues are for a house of unknown age than for one of the listed year. */
  timesLikelier: number;
  /** Odds that the listed year is right, if nine listed years in ten are and the others are like any house's. */
  right: number;
  doubted: boolean;
  say: string;
}

/** Clues this many times likelier for a house of unknown age than for one of the listed year cast doubt on the
 * record: then at most one true record in twenty is doubted (docs/calibration.md, "Dating"). */
export const DOUBT = 2.5;

/** Share of listed years that are right before any clue is seen (common practice). */
const RIGHT_AT_FIRST = 0.9;

export function doubtOf(odds: HouseYears, listed: number): RecordDoubt {
  const times = timesLikelier(odds, listed);
  const doubted = times > DOUBT;
  return {
    timesLikelier: round(times, 2),
    right: round(RIGHT_AT_FIRST / (RIGHT_AT_FIRST + (1 - RIGHT_AT_FIRST) * times), 3),
    doubted,
    say: [doubted ? doubtText(listed, times) : calmText(listed), ...roundText(listed)].join(' '),
  };
}

function doubtText(listed: number, times: number): string {
  return `The clues sit badly with ${listed}: they are ${Number(times.toPrecision(2))} times likelier for a house of unknown age. Look for an older map, a deed or a datestone.`;
}

function calmText(listed: number): string {
  return `The clues do not speak against ${listed}; a year thirty years off often goes unnoticed, so that is little support.`;
}

/** Old round years in records often mean no more than "old" (common practice). */
function roundText(listed: number): string[] {
  return listed % 10 === 0 && listed < 1950 ? [`In records, ${listed} may mean no more than "old".`] : [];
}

/** Evidence ratio of "any year, as houses stand" to the listed year. */
export function timesLikelier(odds: HouseYears, listed: number): number {
  return exp(Math.min(50, odds.overall - odds.fit(listed)));
}
