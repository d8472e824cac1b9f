import type { Base } from '../../knowledge/schema/base.ts';
import type { PlaceFactor } from '../../knowledge/schema/common.ts';
import { clamp, pow } from '../numerics/functions.ts';
import { FACTOR_BASIS, rawOdds } from './factors.ts';
import { anywhereIn, type Here } from './here.ts';

/** The base rates of failure modes are of the nation's houses, as the surveys behind them are. A factor that is above 1
 * on average over those houses would count place twice. So each is scaled until its mean over the houses standing
 * (`places.stock.units`) is 1, bounds included. */
class Normaliser {
  readonly #states: { here: Here; weight: number }[];
  readonly #scales = new Map<PlaceFactor, number>();
  readonly #means = new Map<string, number>();

  constructor(base: Base) {
    const { units } = base.places.stock;
    const all = base.places.states.reduce((sum, s) => sum + (units[s.code] ?? 0), 0);
    this.#states = base.places.states.map((s) => ({
      here: anywhereIn(s),
      weight: (units[s.code] ?? 0) / all,
    }));
  }

  /** By how much a factor multiplies odds at a place, for a failure mode that it moves with `strength` (0 to 1). */
  odds(factor: PlaceFactor, strength: number, here: Here): number {
    return pow(this.#bounded(factor, here), strength) / this.#mean(factor, strength);
  }

  /** Scaled and bounded. Its mean is 1, so a power of it below 1 has a mean of at most 1, and dividing by that mean
   * leaves the odds within the bounds: the function is concave and low < 1 < high. */
  #bounded(factor: PlaceFactor, here: Here): number {
    const { low, high } = FACTOR_BASIS[factor];
    return clamp(rawOdds(factor, here) / this.#scale(factor), low, high);
  }

  #mean(factor: PlaceFactor, strength: number): number {
    const key = `${factor} ${strength}`;
    const ready = this.#means.get(key);
    if (ready !== undefined) return ready;
    const mean = this.#states.reduce(
      (sum, { here, weight }) => sum + weight * pow(this.#bounded(factor, here), strength),
      0,
    );
    this.#means.set(key, mean);
    return mean;
  }

  /** The divisor of the raw odds at which the bounded ones have a mean of 1: the mean falls as it grows. */
  #scale(factor: PlaceFactor): number {
    const ready = this.#scales.get(factor);
    if (ready !== undefined) return ready;
    const { low, high } = FACTOR_BASIS[factor];
    const raw = this.#states.map(({ here, weight }) => ({ odds: rawOdds(factor, here), weight }));
    let [from, to] = [0.05, 20];
    for (let i = 0; i < 60; i++) {
      const middle = (from + to) / 2;
      const mean = raw.reduce((sum, { odds, weight }) => sum + weight * clamp(odds / middle, low, high), 0);
      if (mean > 1) from = middle;
      else to = middle;
    }
    const scale = (from + to) / 2;
    this.#scales.set(factor, scale);
    return scale;
  }
}

const made = new WeakMap<Base, Normaliser>();

/** By how much a factor multiplies the odds of a failure mode at a place; its mean over the nation's houses is 1. */
export function factorOdds(base: Base, factor: PlaceFactor, strength: number, here: Here): number {
  const normaliser = made.get(base) ?? new Normaliser(base);
  made.set(base, normaliser);
  return normaliser.odds(factor, strength, here);
}
