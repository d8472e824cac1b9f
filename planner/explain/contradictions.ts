import type { BaseIndex } from '../base-index.ts';
import type { SystemState } from '../belief/believe.ts';
import { type MetClue, strongestOfGroups } from '../belief/clue-evidence.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { Contradiction } from '../plan-types.ts';
import type { LeftOut } from './left-out.ts';
import { opposed } from './opposed.ts';
import { fitOf } from './surprise.ts';

/** A clue met less often than this, given all else that was said, does not sit with the rest. */
const SURPRISING = 0.01;
/** Nor does one that, given the rest, is met by misreading so often (practice). */
const MISREAD = 0.95;
/** Leaving a clue out must make the surprising one so many times likelier to count as what it stands against (practice). */
const EASES = 4;

/** Clues of one system that do not sit together, or not with the year and the other clues, and the reading of them that
 * asks for the least chance: the one without the clue whose removal raises the likelihood of the rest most. */
export function contradictions(
  index: BaseIndex,
  house: House,
  states: readonly SystemState[],
  leftOut: LeftOut,
): Contradiction[] {
  return states.flatMap((state) => (state.clues.length === 0 ? [] : ofSystem(index, house, state, leftOut)));
}

function ofSystem(index: BaseIndex, house: House, state: SystemState, leftOut: LeftOut): Contradiction[] {
  const found = new Map<string, Contradiction>();
  const add = (pair: string[], odd: Odd): void => {
    const clues = [...new Set(pair)].sort();
    const key = clues.join(' ');
    const earlier = found.get(key);
    if (earlier === undefined) found.set(key, told(index, state, clues, odd));
  };
  for (const [a, b] of opposedPairs(house, state.clues)) add([a, b], lessLikely(state, a, b, leftOut));
  // Of a group only the strongest counts as evidence; the others have nothing to surprise with.
  for (const { clue } of strongestOfGroups(state.clues)) {
    const chance = surprising(state, clue.id, leftOut);
    if (chance === null) continue;
    const against = standsAgainst(state, clue.id, chance, leftOut);
    if (against === null) add([clue.id], { without: clue.id, chance });
    else add([clue.id, against], lessLikely(state, clue.id, against, leftOut));
  }
  return [...found.values()].sort(
    (a, b) => (a.chance ?? 1) - (b.chance ?? 1) || (a.clues.join() < b.clues.join() ? -1 : 1),
  );
}

/** The clue to do without, and the chance of meeting it given the rest; null where that is not worked out. */
type Odd = { without: string; chance: number } | null;

/** Chance of meeting a clue given all others, if that is a surprise. */
function surprising(state: SystemState, id: string, leftOut: LeftOut): number | null {
  const fit = fitIn(state, id, [id], leftOut);
  return fit !== null && (fit.chance < SURPRISING || fit.misread > MISREAD) ? fit.chance : null;
}

/** The other clue of the system without which the surprising one is met far more often. */
function standsAgainst(state: SystemState, id: string, chance: number, leftOut: LeftOut): string | null {
  let best: { id: string; chance: number } | null = null;
  for (const { clue } of state.clues) {
    if (clue.id === id) continue;
    const eased = fitIn(state, id, [id, clue.id], leftOut)?.chance ?? 0;
    if (eased > EASES * chance && eased > (best?.chance ?? 0)) best = { id: clue.id, chance: eased };
  }
  return best?.id ?? null;
}

/** Of two clues the one that is less likely, given the other and the rest: without it the evidence is likelier. */
function lessLikely(state: SystemState, a: string, b: string, leftOut: LeftOut): Odd {
  const groupOf = (id: string): string | undefined => state.clues.find((c) => c.clue.id === id)?.clue.group;
  // In one group the weaker clue is no evidence, so that each is judged without the other.
  const both = groupOf(a) === groupOf(b);
  const [chanceA, chanceB] = [a, b].map((id) => fitIn(state, id, both ? [a, b] : [id], leftOut)?.chance);
  if (chanceA === undefined || chanceB === undefined) return null;
  return chanceA <= chanceB ? { without: a, chance: chanceA } : { without: b, chance: chanceB };
}

function fitIn(
  state: SystemState,
  id: string,
  without: string[],
  leftOut: LeftOut,
): ReturnType<typeof fitOf> {
  const met = state.clues.find((c) => c.clue.id === id);
  return met === undefined ? null : fitOf(met.clue, leftOut.without(state, without));
}

/** Clues of one group, met in one dwelling, that speak for different things. */
function opposedPairs(house: House, clues: readonly MetClue[]): [string, string][] {
  return clues.flatMap(({ clue: a }, i) =>
    clues
      .slice(i + 1)
      .filter(({ clue: b }) => a.id !== b.id && a.group === b.group && opposed(a, b))
      .filter(({ clue: b }) => inOneDwelling(house, a.id, b.id))
      .map(({ clue: b }): [string, string] => [a.id, b.id]),
  );
}

function inOneDwelling({ clues }: House, a: string, b: string): boolean {
  return clues.some(
    (one) => one.id === a && clues.some((other) => other.id === b && other.unit === one.unit),
  );
}

function told(index: BaseIndex, state: SystemState, clues: string[], odd: Odd): Contradiction {
  const quoted = clues.map((id) => quote(index, id));
  const two = quoted.length > 1;
  const least = (id: string): string =>
    two
      ? `If one was misread, the least surprising reading is that it was ${quote(index, id)}.`
      : 'If the year holds, the least surprising reading is that it was misread or is of another place.';
  return {
    system: state.system.id,
    part: state.part.name,
    clues,
    chance: odd === null ? null : round(odd.chance, 4),
    // A portion is reckoned as of one material; a real one may hold several.
    say: two
      ? `Taken as of one place, these two do not sit together: ${quoted.join(' and ')}. Both may be there in different places, or one was misread; look again.`
      : `This does not sit with the year built and all else that was said: ${quoted.join()}. Look again, at it and at the year.`,
    leastSurprising: odd === null ? null : { without: odd.without, say: least(odd.without) },
  };
}

function quote(index: BaseIndex, id: string): string {
  return `"${(index.clues.get(id)?.say ?? id).replace(/\.$/, '')}"`;
}
