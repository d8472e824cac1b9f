import type { Entry } from '../../knowledge/schema/base.ts';
import type { Grade } from '../../knowledge/schema/common.ts';
import type { Failure } from '../../knowledge/schema/failure.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import type { SystemState } from '../belief/believe.ts';
import { GRADE_SPREAD } from '../belief/ranges.ts';
import type { House } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { clamp, exp } from '../numerics/functions.ts';
import { DRAWS, normalDraws } from '../numerics/sampling.ts';
import { type PlaceEffect, placeShift } from '../places/effects.ts';
import { moved, oddsTimes, type ReadyCause, readyCause, type Scaled } from './causes.ts';
import { type ClueRatio, clueRatios, shiftBy, strongest } from './clue-ratios.ts';
import { type OverDwellings, overDwellings } from './dwellings.ts';
import { type Figures, figuresOf } from './figures.ts';

/** One failure mode of one part of the house. */
export interface Condition {
  failure: Entry<Failure>;
  state: SystemState;
  /** Odds that this failure mode can be in such a house, by its inputs. */
  applies: number;
  /** Mean age of the part in years. */
  partAge: number;
  /** Log-odds that place and clues add among houses that have what it needs; `factor` is e to the shift. */
  shift: number;
  factor: number;
  /** Chance that the house has it: of a system that each dwelling has its own of, in at least one dwelling. */
  probability: number;
  /** Chance in any one dwelling; null where the house has one, or the system serves all. */
  anyOne: number | null;
  /** Chance by the state's own tables, which are those of any one dwelling: what `oddsIf` is to be held against. */
  byTables: number;
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

/** Failure modes with their odds today, for every system state of the house. What was judged for a state once holds for
 * as long as the same clues speak of its failure modes and the same was said of the house. */
export function judge(index: BaseIndex, house: House, states: SystemState[]): Condition[] {
  const ratios = clueRatios(index, house);
  const { asOf, place, form, water, sewer, fuel, units } = house;
  const said = JSON.stringify([asOf, place, form, water, sewer, fuel, units]);
  return states.flatMap((state) => {
    const failures = index.failuresOf.get(state.system.id) ?? [];
    const spoken = failures.map((failure) => ratiosFor(ratios, failure, state));
    const heard = spoken.some((list) => list.length > 0)
      ? spoken.map((list) => list.map((c) => `${c.id} ${c.unit}`))
      : [];
    const key = heard.length === 0 ? said : `${said}${heard.join(';')}`;
    const ready = judged.get(state);
    if (ready?.key === key) return ready.conditions;
    const conditions = failures.flatMap((failure, i) => {
      const applies = state.applies * whenOdds(failure.when, house, state.part);
      return applies > 0 ? [judgeOne(index, house, state, failure, applies, spoken[i] ?? [])] : [];
    });
    judged.set(state, { key, conditions });
    return conditions;
  });
}

const judged = new WeakMap<SystemState, { key: string; conditions: Condition[] }>();

/** The chance of a condition if its system's rows were scaled: for asking what a clue would change. */
export function oddsIf(condition: Condition, by: Scaled): number {
  let absent = 1;
  let none = 1;
  for (const { ready } of condition.causes) {
    const present = ready.presentIf(by);
    absent *= 1 - present;
    none *= 1 - ready.bestIf(by, present);
  }
  return condition.applies * moved(none, 1 - absent, condition.factor);
}

function judgeOne(
  index: BaseIndex,
  house: House,
  state: SystemState,
  failure: Entry<Failure>,
  applies: number,
  clues: readonly ClueRatio[],
): Condition {
  const figures = figuresOf(failure);
  const partAge = partAgeOf(house, state);
  const causes = failure.causes.map((cause) => ({ cause, ready: readyCause(cause, state, partAge) }));
  let absent = 1;
  let none = 1;
  for (const { ready } of causes) {
    absent *= 1 - ready.present;
    none *= 1 - ready.best;
  }
  const place = placeShift(index.base, house, state.part, failure.place);
  const spoken = strongest(clues);
  const shift = place.shift + shiftBy(spoken);
  const factor = exp(shift);
  const byTables = applies * moved(none, 1 - absent, factor);
  const draws = drawsOf(figures, state, causes, {
    applies,
    present: 1 - absent,
    factor,
    spread: place.spread,
  });
  const over = inDwellings(state, failure, partAge, place.shift, clues);
  const probability = over === null ? byTables : applies * over.atLeastOne();
  if (over !== null) drawOver(draws, over, applies, byTables);
  SORTED.set(draws);
  const sorted = sortFew(SORTED);
  return {
    failure,
    state,
    applies,
    partAge,
    shift,
    factor,
    probability,
    anyOne: over === null ? null : applies * over.anyOne(),
    byTables,
    low: Math.min(probability, percentile(sorted, 0.05)),
    high: Math.max(probability, percentile(sorted, 0.95)),
    draws,
    grade: figures.grade,
    causes,
    place: place.effects,
    clues: spoken.map(({ id, say, ratio }) => ({ id, say, ratio })),
  };
}

const SORTED = new Float64Array(DRAWS);

function partAgeOf(house: House, state: SystemState): number {
  let meanYear = 0;
  for (const { value, p } of state.years) meanYear += p * value;
  return house.asOf - meanYear;
}

/** By draw, the chance that no cause has brought the failure mode. */
const NONE_OF = new Float64Array(DRAWS);

/** The chance with every figure behind it at another value of its range, once a draw. */
function drawsOf(
  figures: Figures,
  state: SystemState,
  causes: Condition['causes'],
  middle: { applies: number; present: number; factor: number; spread: number },
): Float64Array {
  const { applies, present, factor, spread } = middle;
  NONE_OF.fill(1);
  causes.forEach(({ ready }, i) => {
    const z = figures.causes[i];
    if (z !== undefined) ready.spare(z, NONE_OF);
  });
  const shareDraws = shareDrawsOf(state.system);
  // Shares are uncertain too: the odds of the materials behind the mode move together.
  const was = clamp(present, 1e-6, 1 - 1e-6);
  const draws = new Float64Array(DRAWS);
  for (let d = 0; d < DRAWS; d++) {
    const weight = present >= 1 ? 1 : oddsTimes(was, shareDraws[d] as number) / was;
    const drawnFactor = spread > 0 ? factor * exp(spread * (figures.place[d] as number)) : factor;
    draws[d] = clamp(applies * weight * moved(NONE_OF[d] as number, present, drawnFactor), 0, 1);
  }
  return draws;
}

/** By how much each draw multiplies the odds of a system's materials. */
function shareDrawsOf(system: Entry<System>): Float64Array {
  const ready = shareDraws.get(system);
  if (ready !== undefined) return ready;
  const spread = GRADE_SPREAD[system.shares.new.grade];
  const made = normalDraws(`${system.id} shares`).map((z) => exp(spread * z));
  shareDraws.set(system, made);
  return made;
}

const shareDraws = new WeakMap<Entry<System>, Float64Array>();

/** What the clues say of a failure mode in the part that the state is of. */
function ratiosFor(
  ratios: ReadonlyMap<string, ClueRatio[]>,
  failure: Entry<Failure>,
  state: SystemState,
): readonly ClueRatio[] {
  const all = ratios.get(failure.id);
  if (all === undefined) return NONE;
  return state.system.scope === 'part' ? all.filter((c) => c.part === state.part.name) : all;
}

const NONE: ClueRatio[] = [];

/** The failure mode over the dwellings of the house; null where it has one, or the system serves all. A clue speaks of the
 * dwelling it was met in, or of all where they are as one. */
function inDwellings(
  state: SystemState,
  failure: Entry<Failure>,
  partAge: number,
  placeShift: number,
  clues: readonly ClueRatio[],
): OverDwellings | null {
  if (state.units === null) return null;
  if (clues.length === 0) return overDwellings(state, state.units, failure.causes, partAge, exp(placeShift));
  const factors = new Map<number | null, number>();
  const factorOf = (unit: number | null): number => {
    const ready = factors.get(unit);
    if (ready !== undefined) return ready;
    const met = unit === null ? clues : clues.filter((c) => c.unit === unit);
    const made = exp(placeShift + shiftBy(strongest(met)));
    factors.set(unit, made);
    return made;
  };
  return overDwellings(state, state.units, failure.causes, partAge, factorOf);
}

/** Turns draws of the chance by the state's own tables into draws of the chance in at least one dwelling: the odds in each
 * dwelling move as those do. */
function drawOver(draws: Float64Array, over: OverDwellings, applies: number, best: number): void {
  const odds = (p: number): number => {
    const q = clamp(p / applies, 1e-9, 1 - 1e-9);
    return q / (1 - q);
  };
  const was = odds(best);
  for (let d = 0; d < draws.length; d++) draws[d] = applies * over.atLeastOne(odds(draws[d] as number) / was);
}

/** Sorts a short list in place, rising, by putting each number where it belongs among those before it. */
function sortFew(list: Float64Array): Float64Array {
  for (let i = 1; i < list.length; i++) {
    const value = list[i] as number;
    let at = i;
    for (; at > 0 && (list[at - 1] as number) > value; at--) list[at] = list[at - 1] as number;
    list[at] = value;
  }
  return list;
}

export function percentile(sorted: ArrayLike<number>, q: number): number {
  const at = q * (sorted.length - 1);
  const below = Math.floor(at);
  const low = sorted[below] ?? 0;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] ?? low;
  return low + (at - below) * (high - low);
}
