import type { Clue } from '../../knowledge/schema/clue.ts';
import type { SystemState } from '../belief/believe.ts';
import { CLAMP } from '../belief/evidence.ts';

/** How well a clue sits with a belief that was formed without it. */
export interface Fit {
  /** Chance of meeting the clue. */
  chance: number;
  /** Part of that chance that comes from materials the clue does not speak for: met by misreading. */
  misread: number;
}

/** A material speaks for a clue if the clue is met with it at least so often, against the material it is met with most. */
const SPEAKS = 0.1;

/** Chance of meeting an undated clue given what is believed without it: its readings over both portions at once, or its
 * installation years. Null for a dated record or plate: a paper that is about something else is no surprise. */
export function fitOf(clue: Clue, rest: SystemState): Fit | null {
  if (clue.dated !== undefined) return null;
  const read = readingFit(clue, rest);
  const years = yearsFit(clue, rest);
  if (read === null || years === null) return read ?? years;
  return read.chance < years.chance ? read : years;
}

function readingFit(clue: Clue, rest: SystemState): Fit | null {
  const { reachable, hidden } = clue.reads;
  if (reachable === undefined && hidden === undefined) return null;
  const { ids } = rest.kernels;
  const onReachable = weights(ids, reachable);
  const onHidden = weights(ids, hidden);
  let [met, misread] = [0, 0];
  ids.forEach((_, h) => {
    ids.forEach((__, r) => {
      const weight = (onHidden.of[h] ?? 1) * (onReachable.of[r] ?? 1);
      const p = (rest.tables.joint[h]?.[r] ?? 0) * weight;
      met += p;
      if (weight < SPEAKS) misread += p;
    });
  });
  // One clue in both portions is one event: its chance at best is that of the portion where it is met more often.
  return { chance: Math.max(onReachable.most, onHidden.most) * met, misread: met > 0 ? misread / met : 0 };
}

/** Chances by material against the highest, as the evidence takes them, and the highest. */
function weights(
  ids: readonly string[],
  reading: Clue['reads']['reachable'],
): { of: number[]; most: number } {
  if (reading === undefined) return { of: [], most: 0 };
  const chances = ids.map((id) => reading[id] ?? reading.else ?? 0);
  const most = Math.max(...chances, 1e-9);
  return { of: chances.map((c) => Math.max(c / most, 1 / CLAMP)), most };
}

function yearsFit(clue: Clue, rest: SystemState): Fit | null {
  if (clue.installed === undefined) return null;
  const { portion, from, to, inside, outside } = clue.installed;
  const first = rest.kernels.from;
  let within = 0;
  rest.kernels.ids.forEach((id, m) => {
    if (id === 'none') return;
    rest.tables[portion][m]?.forEach((p, t) => {
      if (first + t >= (from ?? 0) && first + t <= (to ?? 9999)) within += p;
    });
  });
  const [met, missed] = [within * inside, (1 - within) * outside];
  const chance = met + missed;
  return { chance, misread: outside < SPEAKS * inside && chance > 0 ? missed / chance : 0 };
}
