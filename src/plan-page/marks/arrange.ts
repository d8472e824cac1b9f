import type { WalkStop } from '../../../planner/plan-types.ts';
import type { WalkMarks } from './walk-marks.ts';

/** A stop as the person has it: with its key, its marks and the time it now begins. */
export interface OwnStop {
  key: string;
  stop: WalkStop;
  done: boolean;
  pinned: boolean;
  /** Set aside, and still here: with what guards life. */
  aside: boolean;
  /** Pinned, but the plan as it now is has no such stop. */
  gone: boolean;
  /** Minutes from arrival. */
  start: number;
  /** Checks here that wait for something which now comes later. */
  tooEarly: string[];
}

export interface OwnWalk {
  stops: OwnStop[];
  /** The order is no longer the plan's, so times are only added up. */
  changed: boolean;
}

/** A place may be entered more than once: its visits are counted. */
export function keysOf(stops: readonly WalkStop[]): string[] {
  const seen = new Map<string, number>();
  return stops.map(({ place }) => {
    const visit = (seen.get(place) ?? 0) + 1;
    seen.set(place, visit);
    return visit === 1 ? place : `${place}.${visit}`;
  });
}

/** The plan's walk under the person's marks. Stops that are new to the order come after the stop that the
 * plan puts before them. */
export function arrange(planned: readonly WalkStop[], marks: WalkMarks): OwnWalk {
  const keys = keysOf(planned);
  const byKey = new Map(keys.map((key, i): [string, WalkStop | undefined] => [key, planned[i]]));
  const order = marks.order.filter((key) => byKey.has(key));
  for (const [i, key] of keys.entries()) {
    if (order.includes(key)) continue;
    order.splice(i === 0 ? 0 : order.indexOf(keys[i - 1] ?? '') + 1, 0, key);
  }
  for (const pin of [...marks.pinned].sort((a, b) => a.at - b.at)) {
    const was = order.indexOf(pin.key);
    if (was !== -1) order.splice(was, 1);
    order.splice(pin.at, 0, pin.key);
  }
  const stops = order.map((key): OwnStop => {
    const stop = byKey.get(key);
    const pin = marks.pinned.find((p) => p.key === key);
    return {
      key,
      stop: stop ?? noStop(key, pin?.title ?? key),
      done: marks.done.includes(key),
      pinned: pin !== undefined,
      aside: marks.aside.some((one) => one.key === key),
      gone: stop === undefined,
      start: stop?.start ?? 0,
      tooEarly: [],
    };
  });
  const changed = order.join() !== keys.join();
  return { stops: changed ? timed(stops) : stops, changed };
}

const noStop = (place: string, title: string): WalkStop => ({
  place,
  title,
  person: 1,
  start: 0,
  minutes: 0,
  waits: [],
  today: [],
  checks: [],
});

/** Times added up anew, person by person, and what now comes before its own condition. */
function timed(stops: OwnStop[]): OwnStop[] {
  const clock = new Map<number, number>();
  const place = new Map(
    stops.flatMap(({ stop }, i) => stop.checks.map((c): [string, number] => [c.check, i])),
  );
  return stops.map((one, i) => {
    const { person, minutes, checks } = one.stop;
    const start = clock.get(person) ?? 0;
    clock.set(person, start + minutes);
    const tooEarly = checks
      .filter((c) => c.waits.some((wait) => (place.get(wait.after) ?? -1) > i))
      .map((c) => c.title);
    return { ...one, start, tooEarly };
  });
}
