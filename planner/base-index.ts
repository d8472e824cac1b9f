import type { Base, Entry } from '../knowledge/schema/base.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Failure } from '../knowledge/schema/failure.ts';
import type { Material } from '../knowledge/schema/material.ts';
import type { State } from '../knowledge/schema/place.ts';
import type { System } from '../knowledge/schema/system.ts';
import { ClueIndex } from './belief/not-met.ts';

/** The base by id, made once for each base. */
export interface BaseIndex {
  base: Base;
  systems: Map<string, Entry<System>>;
  materials: Map<string, Entry<Material>>;
  materialsOf: Map<string, Entry<Material>[]>;
  failures: Map<string, Entry<Failure>>;
  failuresOf: Map<string, Entry<Failure>[]>;
  checks: Map<string, Entry<Check>>;
  clues: ClueIndex;
  states: Map<string, State>;
}

const made = new WeakMap<Base, BaseIndex>();

export function indexBase(base: Base): BaseIndex {
  const ready = made.get(base);
  if (ready !== undefined) return ready;
  const index: BaseIndex = {
    base,
    systems: byId(base.systems),
    materials: byId(base.materials),
    materialsOf: bySystem(base.materials),
    failures: byId(base.failures),
    failuresOf: bySystem(base.failures),
    checks: byId(base.checks),
    clues: new ClueIndex(base.clues),
    states: new Map(base.places.states.map((s) => [s.code, s])),
  };
  made.set(base, index);
  return index;
}

function byId<T extends { id: string }>(entries: T[]): Map<string, T> {
  return new Map(entries.map((entry) => [entry.id, entry]));
}

function bySystem<T extends { system: string }>(entries: T[]): Map<string, T[]> {
  const lists = new Map<string, T[]>();
  for (const entry of entries) {
    const list = lists.get(entry.system);
    if (list === undefined) lists.set(entry.system, [entry]);
    else list.push(entry);
  }
  return lists;
}
