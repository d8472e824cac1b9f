import type { Places } from '../../knowledge/schema/place.ts';
import { clamp, pow } from '../numerics/functions.ts';
import type { Foundation } from './house.ts';

type Foundations = Pick<Places['foundations'], 'byDivision' | 'factorYears'>;

/** Factor on a kind's share in houses of a build year of a census division, against the climate zone's shares; 1 where the
 * division is not known. */
export function divisionFactor(
  { byDivision, factorYears: [early, late] }: Foundations,
  division: string | null,
  year: number,
): (kind: Foundation) => number {
  const local = byDivision[division ?? ''];
  if (local === undefined) return () => 1;
  const way = clamp((year - early) / (late - early), 0, 1);
  const at = ([first, last]: [number, number]): number => first * pow(last / first, way);
  const [basement, slab, mixed] = [at(local.basement), at(local.slab), at(local.mixed)];
  return (kind) => {
    if (kind === 'slab') return slab;
    if (kind === 'mixed') return mixed;
    return kind.startsWith('basement') ? basement : 1;
  };
}
