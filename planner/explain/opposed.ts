import type { Clue } from '../../knowledge/schema/clue.ts';

/** A material speaks for a clue if the clue is met with it at least half as often as with the material it is met with
 * most. */
const SPEAKS = 0.5;

/** Whether two clues cannot both be what they seem in one place: in some portion no material speaks for both, or one
 * raises the odds of a failure mode that the other lowers. */
export function opposed(a: Clue, b: Clue): boolean {
  for (const portion of ['reachable', 'hidden'] as const) {
    const [one, other] = [spokenFor(a, portion), spokenFor(b, portion)];
    if (one.length > 0 && other.length > 0 && !one.some((id) => other.includes(id))) return true;
  }
  return Object.entries(a.failures).some(([failure, ratio]) => {
    const against = b.failures[failure];
    return against !== undefined && (ratio - 1) * (against - 1) < 0;
  });
}

/** Materials named by the clue's reading that speak for it; none if those not named do too. */
function spokenFor(clue: Clue, portion: 'reachable' | 'hidden'): string[] {
  const reading = clue.reads[portion];
  if (reading === undefined) return [];
  const most = Math.max(...Object.values(reading));
  if ((reading.else ?? 0) >= SPEAKS * most) return [];
  return Object.keys(reading).filter((id) => id !== 'else' && (reading[id] ?? 0) >= SPEAKS * most);
}
