import type { Base } from '../../knowledge/schema/base.ts';
import type { Grade, PlaceFactor } from '../../knowledge/schema/common.ts';
import type { House, Part } from '../house/house.ts';
import { normalised, statesOfYears } from '../house/priors.ts';
import { exp, log } from '../numerics/functions.ts';
import { FACTOR_BASIS, factorInWords } from './factors.ts';
import { anywhereIn, type Here, hereOf, sourcesOfField } from './here.ts';
import { factorOdds } from './normaliser.ts';

/** What place does to a failure mode, and in which words. */
export interface PlaceEffect {
  /** By how much the odds are multiplied. */
  odds: number;
  grade: Grade;
  source: string[];
  say: string;
}

export interface PlaceShift {
  /** Sum of the logarithms of the effects: added to the log-odds. */
  shift: number;
  /** Standard deviation of that shift. */
  spread: number;
  effects: PlaceEffect[];
}

/** A factor acts on a failure mode with a strength from 0 to 1. */
type Acting = readonly { factor: PlaceFactor; strength: number }[];

/** Standard deviation of a place's effect, as a part of it (practice). */
const PLACE_SPREAD = 0.4;

/** How the place of a part moves a failure mode. An unknown place is summed over: the states where houses of the part's
 * years stand, by how many stand in each. */
export function placeShift(base: Base, house: House, part: Part, acting: Acting): PlaceShift {
  if (acting.length === 0) return NOWHERE;
  const key = placeKey(house, part);
  const ready = made.get(acting);
  if (ready?.base === base && ready.key === key) return ready.shift;
  const shift = shiftOf(base, house, part, acting);
  made.set(acting, { base, key, shift });
  return shift;
}

const NOWHERE: PlaceShift = { shift: 0, spread: 0, effects: [] };

/** The last shift of each failure mode: houses are planned again and again while clues come in. */
const made = new WeakMap<Acting, { base: Base; key: string; shift: PlaceShift }>();

/** All that a shift depends on, as one text, made once for each part. */
function placeKey({ place }: House, part: Part): string {
  const ready = keys.get(part);
  if (ready?.place === place) return ready.key;
  const key = JSON.stringify([place, part.built.years]);
  keys.set(part, { place, key });
  return key;
}

const keys = new WeakMap<Part, { place: House['place']; key: string }>();

function shiftOf(base: Base, house: House, part: Part, acting: Acting): PlaceShift {
  const here = hereOf(base, house.place);
  if (here === null) return shiftAnywhere(base, house.place.coast, part, acting);
  const effects = acting.map(({ factor, strength }) => ({
    odds: factorOdds(base, factor, strength, here),
    grade: FACTOR_BASIS[factor].grade,
    source: sourcesOfField(base, here.state, FACTOR_BASIS[factor].field),
    say: `Here: ${factorInWords(factor, here)}`,
  }));
  const shift = effects.reduce((sum, { odds }) => sum + log(odds), 0);
  return { shift, spread: PLACE_SPREAD * Math.abs(shift), effects };
}

function shiftAnywhere(base: Base, shore: Here['shore'], part: Part, acting: Acting): PlaceShift {
  const standing = statesOfYears(base, part.built.years);
  // Where salt water is near, the house stands in a state that has a coast.
  const possible = shore === 'within-3000-ft' ? standing.filter(({ value }) => value.coast) : standing;
  const states = normalised(possible).map(({ value, p }) => ({
    p,
    shift: shiftAt(base, acting, { ...anywhereIn(value), shore }),
  }));
  const odds = states.reduce((sum, { p, shift }) => sum + p * exp(shift), 0);
  const middle = states.reduce((sum, { p, shift }) => sum + p * shift, 0);
  const variance = states.reduce((sum, { p, shift }) => sum + p * (shift - middle) * (shift - middle), 0);
  const names = acting.map(({ factor }) => factor.replace('-', ' '));
  return {
    shift: log(odds),
    spread: Math.sqrt(variance),
    effects: [
      {
        odds,
        grade: acting.some(({ factor }) => FACTOR_BASIS[factor].grade === 'memory') ? 'memory' : 'practice',
        source: [
          ...new Set(acting.flatMap(({ factor }) => sourcesOfField(base, null, FACTOR_BASIS[factor].field))),
        ],
        say: `Place not given: ${names.join(', ')} summed over the states where houses of these years stand`,
      },
    ],
  };
}

function shiftAt(base: Base, acting: Acting, here: Here): number {
  return acting.reduce((sum, { factor, strength }) => sum + log(factorOdds(base, factor, strength, here)), 0);
}
