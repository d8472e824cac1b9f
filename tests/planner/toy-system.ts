import type { System } from '../../knowledge/schema/system.ts';
import {
  AS_TABLED,
  type Kernels,
  kernelsByNode,
  makeKernels,
  type RenewalMaterial,
} from '../../planner/belief/kernels.ts';
import { renewingNodes } from '../../planner/belief/renewing.ts';
import type { NodeKernels } from '../../planner/belief/system-kernels.ts';

/** An invented system with every feature of the renewal process: houses without it, partial and complete work,
 * calendar waves, markets that differ between new and renewal work. For tests alone. */
export const toySystem: Pick<System, 'shares' | 'waves'> = {
  shares: {
    new: {
      grade: 'practice',
      source: [],
      years: [1900, 1950, 2000],
      rows: { iron: [0.8, 0.2, 0], copper: [0.1, 0.7, 0.3], plastic: [0, 0.1, 0.7], none: [0.1, 0, 0] },
    },
    renewal: {
      grade: 'practice',
      source: [],
      years: [1900, 2000],
      rows: { iron: [0.5, 0], copper: [0.5, 0.2], plastic: [0, 0.8] },
    },
  },
  waves: [
    {
      of: ['any'],
      from: 1950,
      to: 1980,
      rate: 0.02,
      whole: 0.3,
      why: 'remodels',
      grade: 'practice',
      source: [],
    },
    {
      of: ['none'],
      from: 1910,
      to: 1940,
      rate: 0.1,
      whole: 0.8,
      why: 'first fitting',
      grade: 'practice',
      source: [],
    },
  ],
};

export const toyMaterials: RenewalMaterial[] = [
  { id: 'iron', life: 40, shape: 3, whole: 0.4 },
  { id: 'copper', life: 60, shape: 3, whole: 0.3 },
  { id: 'plastic', life: 30, shape: 2, whole: 0.6 },
];

export const TOY_FROM = 1900;
export const TOY_AS_OF = 2020;

export function toyKernels(): Kernels {
  return makeKernels(toySystem, toyMaterials, TOY_FROM, TOY_AS_OF);
}

/** The same for owners who renew little, as most, and much. */
export function toyNodes(spread: number): NodeKernels[] {
  const nodes = renewingNodes(spread);
  const factors = nodes.map((node) => node.factor);
  return kernelsByNode(toySystem, toyMaterials, TOY_FROM, TOY_AS_OF, AS_TABLED, factors).map(
    (kernels, i) => ({
      kernels,
      weight: nodes[i]?.weight ?? 0,
    }),
  );
}
