import type { WalkInput } from '../../../planner/house/house.ts';

/** What a person has done to a walk: stops are named by their keys, so marks hold when the plan is made anew. */
export interface WalkMarks {
  done: string[];
  /** Set aside: the planner is asked to leave their checks out. */
  aside: KeptStop[];
  /** Always in, and kept at their place in the order, whatever a new plan says. */
  pinned: (KeptStop & { at: number })[];
  /** The person's own order, empty while it is the plan's. */
  order: string[];
}

/** A stop remembered with its name and checks: a new plan may not have it. */
export interface KeptStop {
  key: string;
  title: string;
  checks: { id: string; title: string }[];
}

export const NO_MARKS: WalkMarks = { done: [], aside: [], pinned: [], order: [] };

/** What the marks ask of the planner, by check id. */
export function walkInput(marks: WalkMarks): WalkInput {
  const ids = (stops: readonly KeptStop[]): string[] => stops.flatMap((s) => s.checks.map((c) => c.id));
  return { pin: ids(marks.pinned), drop: ids(marks.aside) };
}

/** Marks without checks that the knowledge base no longer has. */
export function withoutChecks(marks: WalkMarks, gone: readonly string[]): WalkMarks {
  const kept = <T extends KeptStop>(stops: T[]): T[] =>
    stops.map((s) => ({ ...s, checks: s.checks.filter((c) => !gone.includes(c.id)) }));
  return { ...marks, aside: kept(marks.aside), pinned: kept(marks.pinned) };
}

/** Marks as they were written down, or none where that is not what was written. */
export function readMarks(text: string | null): WalkMarks {
  if (text === null) return NO_MARKS;
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch {
    return NO_MARKS;
  }
  if (!isRecord(given)) return NO_MARKS;
  return {
    done: strings(given.done),
    order: strings(given.order),
    aside: list(given.aside).flatMap(keptStop),
    pinned: list(given.pinned).flatMap((pin) =>
      keptStop(pin).map((stop) => ({ ...stop, at: isRecord(pin) ? placeIn(pin.at) : 0 })),
    ),
  };
}

function keptStop(given: unknown): KeptStop[] {
  if (!isRecord(given) || typeof given.key !== 'string' || typeof given.title !== 'string') return [];
  const checks = list(given.checks).flatMap((c) =>
    isRecord(c) && typeof c.id === 'string' && typeof c.title === 'string'
      ? [{ id: c.id, title: c.title }]
      : [],
  );
  return [{ key: given.key, title: given.title, checks }];
}

const placeIn = (at: unknown): number => (typeof at === 'number' && Number.isInteger(at) && at >= 0 ? at : 0);
const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const list = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);
const strings = (value: unknown): string[] => list(value).filter((one) => typeof one === 'string');
