import type { Base } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import { exp } from '../numerics/functions.ts';

/** How much owners differ in renewing, inside and outside: standard deviations of the logarithm of a house's factor,
 * whose mean is 1, and the correlation of the two logarithms (-0.5 to 0.5). */
export interface Spreads {
  inside: number;
  outside: number;
  correlation: number;
}

/** The spreads that the base holds (knowledge/renewing.json). */
export function spreadsOf({ renewing }: Pick<Base, 'renewing'>): Spreads {
  return {
    inside: renewing.inside.best,
    outside: renewing.outside.best,
    correlation: renewing.correlation.best,
  };
}

/** How much a house's owners renew, against the mean of 1: log-normal, seen at three Gauss-Hermite nodes. */
export interface RenewingNode {
  /** Multiplies the hazards of wear and of the calendar waves. */
  factor: number;
  weight: number;
}

/** A node of each factor at once, by place in the list of each, with the weight of the pair. */
export interface NodePair {
  inside: number;
  outside: number;
  weight: number;
}

const SQRT3 = 1.7320508075688772;
const POINTS = [-SQRT3, 0, SQRT3];
const WEIGHTS = [1 / 6, 2 / 3, 1 / 6];

/** Where a factor does not act. */
const ONE: RenewingNode[] = [{ factor: 1, weight: 1 }];

/** Three nodes of a log-normal of mean 1 whose logarithm has standard deviation `spread`; exact for polynomials in
 * the logarithm up to the fifth degree. */
export function renewingNodes(spread: number): RenewingNode[] {
  return POINTS.map((z, i) => ({
    factor: exp(spread * z - (spread * spread) / 2),
    weight: WEIGHTS[i] ?? 0,
  }));
}

/** Nodes of the factor that moves a system's renewal; one node of 1 where none does. */
export function nodesOf(spreads: Spreads, system: Pick<System, 'renewedWith'>): RenewingNode[] {
  if (system.renewedWith === 'neither') return ONE;
  return renewingNodes(spreads[system.renewedWith]);
}

/** The nine pairs of nodes. The weights are those of a normal pair written in Hermite polynomials (Mehler's series)
 * as far as three nodes can carry it: marginals and correlation are exact. */
export function nodePairs({ correlation: r }: Spreads): NodePair[] {
  if (!(Math.abs(r) <= 0.5)) throw new RangeError(`a correlation of ${r} does not lie within -0.5 and 0.5`);
  return POINTS.flatMap((x, inside) =>
    POINTS.map((y, outside) => {
      const second = (r * r * (x * x - 1) * (y * y - 1)) / 2;
      const weight = (WEIGHTS[inside] ?? 0) * (WEIGHTS[outside] ?? 0) * (1 + r * x * y + second);
      return { inside, outside, weight };
    }),
  );
}
