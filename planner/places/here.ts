import type { Base } from '../../knowledge/schema/base.ts';
import type { State } from '../../knowledge/schema/place.ts';
import type { Coast, House, Odds } from '../house/house.ts';

/** A place as the planner takes it: its state, and what its ZIP prefix says more finely. */
export interface Here {
  state: State;
  /** Decay hazard index: of the ZIP or its prefix, else the median over the state's houses. */
  decay: number;
  /** Energy-code climate zone and EPA radon zone. */
  zone: string;
  /** Odds of climate zones: one where a ZIP says which, else those of the state's houses. */
  zones: Odds<string>;
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
    zones: area === undefined ? zonesOf(state) : [{ value: area.zone, p: 1 }],
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
  return {
    state,
    decay: state.decay[1],
    zone: state.zone,
    zones: zonesOf(state),
    radonZone: state.radonZone,
    shore: 'unknown',
  };
}

/** Odds of climate zones of a house somewhere in a state. */
export function zonesOf(state: Pick<State, 'zones'>): Odds<string> {
  return Object.entries(state.zones).map(([value, p]) => ({ value, p }));
}
