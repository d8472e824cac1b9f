import type { Entry } from '../../knowledge/schema/base.ts';
import type { Grade } from '../../knowledge/schema/common.ts';
import type { Failure } from '../../knowledge/schema/failure.ts';
import type { BaseIndex } from '../base-index.ts';
import type { SystemState } from '../belief/believe.ts';
import type { House } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { clamp, log, logistic, logit } from '../numerics/functions.ts';
import { DRAWS, normalDraws } from '../numerics/sampling.ts';
import { type PlaceEffect, placeShift } from '../places/effects.ts';
import { type ReadyCause, readyCause, type Scaled } from './causes.ts';

/** One failure mode of one part of the house. */
export interface Condition {
  failure: Entry<Failure>;
  state: SystemState;
  /** Odds that this failure mode can be in such a house, by its inputs. */
  applies: number;
  /** Mean age of the part in years. */
  partAge: number;
  /** Log-odds that place and clues add. */
  shift: number;
  probability: number;
  /** 5th and 95th percentile over the draws of every parameter behind it. */
  low: number;
  high: number;
  /** The draws, for seeing whether an order survives them. */
  draws: Float64Array;
  grade: Grade;
  causes: { cause: Failure['causes'][number]; ready: ReadyCause }[];
  place: PlaceEffect[];
  clues: { id: string; say: string; ratio: number }[];
}

/** Failure modes with their odds today, for every system state of the house. */
export function judge(index: BaseIndex, house: House, states: SystemState[]): Condition[] {
  const failuresOf = new Map<string, Entry<Failure>[]>();
  for (const f of index.base.failures) failuresOf.set(f.system, [...(failuresOf.get(f.system) ?? []), f]);
  const ratios = clueRatios(index, house);
  return states.flatMap((state) =>
    (failuresOf.get(state.system.id) ?? []).flatMap((failure) => {
      const applies = state.applies * whenOdds(failure.when, house, state.part);
      return applies > 0 ? [judgeOne(index, house, state, failure, applies, ratios)] : [];
    }),
  );
}

type Ratios = Map<string, { id: string; say: string; ratio: number; part: string }[]>;

/** Chance of a failure mode from its causes: independent causes joined, the chance among houses that have what it
 * needs moved by `shift` in log-odds. */
function joinCauses(chances: number[], present: number, shift: number): number {
  const any = 1 - chances.reduce((none, p) => none * (1 - p), 1);
  if (any <= 0 || present <= 0) return 0;
  return present * logistic(logit(Math.min(1, any / present)) + shift);
}

/** The chance of a condition if its system's rows were scaled: for asking what a clue would change. */
export function oddsIf(condition: Condition, by: Scaled): number {
  const ready = condition.causes.map((c) => c.ready.scaled(by));
  const present = 1 - ready.reduce((none, c) => none * (1 - c.present), 1);
  return (
    condition.applies *
    joinCauses(
      ready.map((c) => c.best),
      present,
      condition.shift,
    )
  );
}

function judgeOne(
  index: BaseIndex,
  house: House,
  state: SystemState,
  failure: Entry<Failure>,
  applies: number,
  ratios: Ratios,
): Condition {
  const meanYear = state.years.reduce((sum, y) => sum + y.p * y.value, 0);
  const partAge = house.asOf - meanYear;
  const causes = failure.causes.map((cause) => ({ cause, ready: readyCause(cause, state, partAge) }));
  const present = 1 - causes.reduce((none, c) => none * (1 - c.ready.present), 1);
  const place = placeShift(index.base, house, state.part, failure.place);
  const clues = (ratios.get(failure.id) ?? []).filter(
    (c) => c.part === state.part.name || state.system.scope !== 'part',
  );

  const clueShift = clamp(
    clues.reduce((sum, c) => sum + log(c.ratio), 0),
    -MOST_SHIFT,
    MOST_SHIFT,
  );
  const shift = place.shift + clueShift;
  const probability =
    applies *
    joinCauses(
      causes.map((c) => c.ready.best),
      present,
      shift,
    );

  const causeDraws = causes.map((_, i) => normalDraws(`${failure.id} cause ${i}`));
  const shareDraws = normalDraws(`${state.system.id} shares`);
  const placeDraws = normalDraws(`${failure.id} place`);
  const spread = BELIEF_SPREAD[state.system.shares.new.grade];
  const draws = Float64Array.from({ length: DRAWS }, (_, d) => {
    const z = (values: Float64Array | undefined): number => values?.[d] ?? 0;
    const drawnShift = place.shift + place.spread * z(placeDraws) + clueShift;
    // Shares are uncertain too: the odds of the materials behind the mode move together.
    const was = clamp(present, 1e-6, 1 - 1e-6);
    const weight = present >= 1 ? 1 : logistic(logit(was) + spread * z(shareDraws)) / was;
    const chances = causes.map((c, i) => c.ready.at(z(causeDraws[i])));
    return clamp(applies * weight * joinCauses(chances, present, drawnShift), 0, 1);
  });
  const sorted = [...draws].sort((a, b) => a - b);
  return {
    failure,
    state,
    applies,
    partAge,
    shift,
    probability,
    low: Math.min(probability, percentile(sorted, 0.05)),
    high: Math.max(probability, percentile(sorted, 0.95)),
    draws,
    grade: weakest(failure),
    causes,
    place: place.effects,
    clues,
  };
}

/** Together, clues move the odds of a failure mode by at most this factor's logarithm. */
const MOST_SHIFT = log(200);

/** Standard deviation of the log-odds of a material by the grade of its shares: another place, another market. */
const BELIEF_SPREAD: Record<Grade, number> = { measured: 0.3, published: 0.4, practice: 0.6, memory: 0.8 };

/** Clues that speak of failure modes; of one group in one part only the strongest counts. */
function clueRatios(index: BaseIndex, house: House): Ratios {
  const strongest = new Map<
    string,
    { failure: string; id: string; say: string; ratio: number; part: string }
  >();
  for (const { id, part } of house.clues) {
    const clue = index.clues.get(id);
    if (clue === undefined) continue;
    for (const [failure, ratio] of Object.entries(clue.failures)) {
      const key = `${failure} ${clue.group} ${part}`;
      const rival = strongest.get(key);
      if (rival === undefined || Math.abs(log(ratio)) > Math.abs(log(rival.ratio)))
        strongest.set(key, { failure, id, say: clue.say, ratio, part });
    }
  }
  const ratios: Ratios = new Map();
  for (const { failure, ...clue } of strongest.values())
    ratios.set(failure, [...(ratios.get(failure) ?? []), clue]);
  return ratios;
}

const GRADES: Grade[] = ['measured', 'published', 'practice', 'memory'];

/** The weakest grade of the figures behind the odds. */
function weakest(failure: Failure): Grade {
  const figures = failure.causes.map((c) =>
    c.cause === 'built-in' ? c.share : c.cause === 'ageing' ? c.half : c.base,
  );
  const worst = Math.max(...figures.map((f) => GRADES.indexOf(f.grade)));
  return GRADES[worst] ?? 'memory';
}

export function percentile(sorted: number[], q: number): number {
  const at = q * (sorted.length - 1);
  const below = Math.floor(at);
  const low = sorted[below] ?? 0;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] ?? low;
  return low + (at - below) * (high - low);
}
