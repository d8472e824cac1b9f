import type { Base } from '../../knowledge/schema/base.ts';
import type { State } from '../../knowledge/schema/place.ts';
import type { Coast, House } from '../house/house.ts';

/** A place as the planner takes it: its state, and what its ZIP prefix says more finely. */
export interface Here {
  state: State;
  /** Decay hazard index: of the ZIP or its prefix, else the median over the state's houses. */
  decay: number;
  /** Energy-code climate zone and EPA radon zone. */
  zone: string;
  radonZone: number;
  /** How far salt water is, as answered. */
  shore: Coast | 'unknown';
}

/** The place of a house, or null if it is unknown. */
export function hereOf(base: Base, place: House['place']): Here | null {
  const state = base.places.states.find((s) => s.code === place.state);
  if (state === undefined) return null;
  const area = place.zip3 === null ? undefined : base.places.zip3[place.zip3];
  return {
    state,
    decay: area?.own[place.given.slice(3)] ?? area?.decay ?? state.decay[1],
    zone: area?.zone ?? state.zone,
    radonZone: area?.radonZone ?? state.radonZone,
    shore: place.coast,
  };
}

/** Sources of a field of a state: those of the table, and what it was corrected by here. */
export function sourcesOfField(base: Base, state: State | null, field: keyof State): string[] {
  return [...(base.places.fields[field]?.source ?? []), ...(state?.corrected[field] ?? [])];
}

/** A whole state, the shore not asked for. */
export function anywhereIn(state: State): Here {
  return { state, decay: state.decay[1], zone: state.zone, radonZone: state.radonZone, shore: 'unknown' };
}
