import type { Material } from '../../knowledge/schema/material.ts';
import { backward } from '../../planner/belief/backward.ts';
import { type Kernels, makeKernels } from '../../planner/belief/kernels.ts';
import type { Process } from './parameters.ts';

/** Chance of each class for every build year, seen in year `asOf`: [class][year index from `from`]. */
export function classChances(
  process: Process,
  materials: ({ id: string } & Pick<Material, 'shape' | 'whole'>)[],
  classes: Record<string, string[]>,
  from: number,
  asOf: number,
): Record<string, Float64Array> {
  const kernels = makeKernels(
    process,
    materials.map((m) => ({ id: m.id, life: process.lives[m.id] ?? 1, shape: m.shape, whole: m.whole })),
    from,
    asOf,
  );
  return Object.fromEntries(
    Object.entries(classes).map(([name, members]) => [
      name,
      backward(kernels, { reachable: membership(kernels, members), hidden: null, records: [] }).z,
    ]),
  );
}

function membership(kernels: Kernels, members: string[]): Float64Array[] {
  return kernels.ids.map((id) => new Float64Array(kernels.last + 1).fill(members.includes(id) ? 1 : 0));
}
