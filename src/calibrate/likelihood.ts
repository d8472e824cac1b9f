import type { Material } from '../../knowledge/schema/material.ts';
import { backward } from '../../planner/belief/backward.ts';
import { AS_TABLED, type Kernels, makeKernels, type ShareFactors } from '../../planner/belief/kernels.ts';
import type { RenewingNode } from '../../planner/belief/renewing.ts';
import type { Process } from './parameters.ts';

/** Chance of each class for every build year, seen in year `asOf` and over all kinds of owners (`nodes`, from
 * `nodesOf`): [class][year index from `from`]. */
export function classChances(
  process: Process,
  materials: ({ id: string } & Pick<Material, 'shape' | 'whole'>)[],
  classes: Record<string, string[]>,
  from: number,
  asOf: number,
  nodes: RenewingNode[],
  factors: ShareFactors = AS_TABLED,
): Record<string, Float64Array> {
  const renewed = materials.map((m) => ({
    id: m.id,
    life: process.lives[m.id] ?? 1,
    shape: m.shape,
    whole: m.whole,
  }));
  const width = asOf - from + 1;
  const chances = Object.fromEntries(Object.keys(classes).map((name) => [name, new Float64Array(width)]));
  for (const { factor, weight } of nodes) {
    const kernels = makeKernels(process, renewed, from, asOf, factors, factor);
    for (const [name, members] of Object.entries(classes)) {
      const { z } = backward(kernels, { reachable: membership(kernels, members), hidden: null, records: [] });
      chances[name]?.forEach((chance, t, row) => {
        row[t] = chance + weight * (z[t] ?? 0);
      });
    }
  }
  return chances;
}

function membership(kernels: Kernels, members: string[]): Float64Array[] {
  return kernels.ids.map((id) => new Float64Array(kernels.last + 1).fill(members.includes(id) ? 1 : 0));
}
