import type { BaseIndex } from '../base-index.ts';
import { believeSystem, type SystemState } from '../belief/believe.ts';
import type { House } from '../house/house.ts';

/** Beliefs of one plan with clues left out, each worked out once. */
export class LeftOut {
  readonly #index: BaseIndex;
  readonly #house: House;
  readonly #made = new Map<string, SystemState>();

  constructor(index: BaseIndex, house: House) {
    this.#index = index;
    this.#house = house;
  }

  /** The system of a state as it would be believed to be without these clues, all others of the house given. */
  without(state: SystemState, clues: readonly string[]): SystemState {
    const { system } = state;
    // The state may be of an earlier plan of the same house; the parts are those of this one.
    const part = this.#house.parts.find((p) => p.name === state.part.name) ?? state.part;
    const key = `${part.name} ${system.id} ${[...clues].sort().join(' ')}`;
    const ready = this.#made.get(key);
    if (ready !== undefined) return ready;
    const made = believeSystem(this.#index, this.#house, part, system, new Set(clues));
    this.#made.set(key, made);
    return made;
  }
}
