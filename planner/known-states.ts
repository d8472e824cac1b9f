import type { BaseIndex } from './base-index.ts';
import type { SystemState } from './belief/believe.ts';
import type { House } from './house/house.ts';

/** States kept for each system of a part. */
const KEPT = 3;

interface Known {
  /** What was said of the house, apart from clues, client and visit. */
  house: string;
  state: SystemState;
}

const knownOf = new WeakMap<BaseIndex, Map<string, Known[]>>();

/** Puts the state of an earlier plan in the place of one that holds exactly the same, so that what was worked out from it
 * need not be worked out again: after a clue most systems are as they were. Everything is compared, number by number; the
 * plan is the same with or without. The part of such a state is equal to the house's, but not the same object. */
export function knownStates(index: BaseIndex, house: House, states: SystemState[]): SystemState[] {
  const { clues, client, visit, walk, ...said } = house;
  void [clues, client, visit, walk];
  const key = JSON.stringify(said);
  const slots = knownOf.get(index) ?? new Map<string, Known[]>();
  knownOf.set(index, slots);
  return states.map((state) => {
    const name = `${state.system.id} ${state.part.name}`;
    const known = slots.get(name) ?? [];
    const found = known.find((k) => k.house === key && same(k.state, state));
    const kept = found ?? { house: key, state };
    slots.set(name, [kept, ...known.filter((k) => k !== kept)].slice(0, KEPT));
    return kept.state;
  });
}

/** Whether two values of plain data hold the same; functions and instances only if they are one. */
function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (a instanceof Float64Array) return b instanceof Float64Array && sameNumbers(a, b);
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((v, i) => same(v, b[i]));
  if (!isPlain(a) || !isPlain(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((k) => k in b && same(a[k], b[k]));
}

function isPlain(value: object): value is Record<string, unknown> {
  return Object.getPrototypeOf(value) === Object.prototype;
}

function sameNumbers(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
