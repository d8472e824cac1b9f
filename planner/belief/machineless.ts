import type { BaseIndex } from '../base-index.ts';

/** Rows of a system that stand for not having it: `none`, and materials that are the lack of it. They have no nameplate. */
export function machineless(index: BaseIndex, system: string, ids: readonly string[]): Set<number> {
  const lacks = new Set((index.materialsOf.get(system) ?? []).flatMap((m) => (m.lacks ? [m.id] : [])));
  return new Set(ids.flatMap((id, m) => (id === 'none' || lacks.has(id) ? [m] : [])));
}
