import type { BaseIndex } from '../base-index.ts';
import type { House } from '../house/house.ts';
import { clamp, log } from '../numerics/functions.ts';

/** A clue that speaks of a failure mode itself: by how much it multiplies the odds, and where it was met. */
export interface ClueRatio {
  id: string;
  say: string;
  group: string;
  ratio: number;
  part: string;
  unit: number;
}

/** Together, clues move the odds of a failure mode by at most this factor's logarithm. */
const MOST_SHIFT = log(200);

/** Every clue of the house that speaks of failure modes, by failure mode. */
export function clueRatios(index: BaseIndex, house: House): Map<string, ClueRatio[]> {
  const ratios = new Map<string, ClueRatio[]>();
  for (const { id, part, unit } of house.clues) {
    const clue = index.clues.get(id);
    if (clue === undefined) continue;
    for (const [failure, ratio] of Object.entries(clue.failures)) {
      const list = ratios.get(failure) ?? [];
      list.push({ id, say: clue.say, group: clue.group, ratio, part, unit });
      ratios.set(failure, list);
    }
  }
  return ratios;
}

/** Of one group in one part only the strongest clue counts. */
export function strongest(ratios: readonly ClueRatio[]): ClueRatio[] {
  if (ratios.length < 2) return [...ratios];
  const best = new Map<string, ClueRatio>();
  for (const one of ratios) {
    const key = `${one.group} ${one.part}`;
    const rival = best.get(key);
    if (rival === undefined || Math.abs(log(one.ratio)) > Math.abs(log(rival.ratio))) best.set(key, one);
  }
  return [...best.values()];
}

/** Log-odds that clues add. */
export function shiftBy(ratios: readonly ClueRatio[]): number {
  return clamp(
    ratios.reduce((sum, c) => sum + log(c.ratio), 0),
    -MOST_SHIFT,
    MOST_SHIFT,
  );
}
