import type { Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import { exp, pow } from '../numerics/functions.ts';
import { fitOf } from './fit-of.ts';
import type { Posterior } from './forward.ts';
import type { Kernels } from './kernels.ts';

/** A boiler is mostly replaced by a boiler. Where a fit says so (`keepsKind`), the renewal process is that of the kind:
 * a year in its tables is the one in which the house took to it. While the house stays with the kind, the machine is
 * renewed like for like as it wears; here the years of the kind become years of the machine (docs/model.md, section 8).
 *
 * With s(k) the chance that a machine has not worn out by age k and v(j) that one is put in j years after the first,
 * a stay of n years ends with a machine of age k with chance v(n - k) s(k); over k they add to 1. */
export class LikeForLike {
  readonly #last: number;
  /** Tables already spread, where no plate says otherwise: the same tables stay the same object. */
  readonly #made = new WeakMap<Posterior, Posterior>();
  /** For each material s and v by year; null where a stay has one machine. */
  readonly #ages: (Ages | null)[];

  /** `lives` of the kind and of the machine by material, in years: the age by which half are renewed. */
  constructor(lives: ({ kind: number; machine: number; shape: number } | null)[], last: number) {
    this.#last = last;
    this.#ages = lives.map((life) =>
      life === null || life.kind <= life.machine ? null : agesOf(life, last),
    );
  }

  /** Weight of the year in which a house took to the kind, from weights of the machine's year: what each stay would
   * show, on average over the machines that may stand there now. */
  stays(machines: Float64Array[]): Float64Array[] {
    return machines.map((weights, m) => {
      const ages = this.#ages[m];
      if (ages == null) return weights;
      return weights.map((_, t) => {
        let sum = 0;
        for (let k = 0; k <= Math.min(ages.oldest, this.#last - t); k++)
          sum += chance(ages, this.#last - t, k) * (weights[this.#last - k] ?? 0);
        return sum;
      });
    });
  }

  /** Tables by the year of the machine from tables by the year of the kind, given the weights of the machine's year;
   * null: nothing is known of it. Sums over years stay as they are. */
  machines(tables: Posterior, weights: Float64Array[] | null): Posterior {
    const ready = weights === null ? this.#made.get(tables) : undefined;
    if (ready !== undefined) return ready;
    const stays = weights === null ? null : this.stays(weights);
    const by = (rows: Float64Array[]): Float64Array[] =>
      rows.map((row, m) => this.#spread(row, m, weights?.[m], stays?.[m]));
    const reachable = by(tables.reachable);
    // Where nothing is buried the portions are one piece.
    const again = (rows: Float64Array[]): Float64Array[] =>
      rows.every((row, m) => sameRow(row, tables.reachable[m])) ? reachable : by(rows);
    const made = { ...tables, hidden: again(tables.hidden), reachable, same: again(tables.same) };
    if (weights === null) this.#made.set(tables, made);
    return made;
  }

  #spread(row: Float64Array, m: number, weights?: Float64Array, stays?: Float64Array): Float64Array {
    const ages = this.#ages[m];
    if (ages == null) return row;
    const result = new Float64Array(row.length);
    row.forEach((mass, t) => {
      if (mass === 0) return;
      const n = this.#last - t;
      const scale = mass / (stays?.[t] ?? 1);
      for (let k = 0; k <= Math.min(ages.oldest, n); k++) {
        const u = this.#last - k;
        result[u] = (result[u] ?? 0) + scale * chance(ages, n, k) * (weights?.[u] ?? 1);
      }
    });
    return result;
  }
}

function sameRow(a: Float64Array, b: Float64Array | undefined): boolean {
  return b !== undefined && a.every((v, t) => v === b[t]);
}

interface Ages {
  /** Chance that a machine has not worn out by an age. */
  survives: Float64Array;
  /** Chance that one is put in so many years after the first. */
  put: Float64Array;
  /** Age that next to none reaches. */
  oldest: number;
}

const NEGLIGIBLE = 1e-15;

function chance(ages: Ages, n: number, k: number): number {
  return (ages.put[n - k] as number) * (ages.survives[k] as number);
}

/** Wear beyond that which ends the stay: together they wear the machine out at its own life. */
function agesOf(
  { kind, machine, shape }: { kind: number; machine: number; shape: number },
  last: number,
): Ages {
  const share = 1 - pow(machine / kind, shape);
  const survives = Float64Array.from({ length: last + 1 }, (_, age) =>
    exp(-share * Math.LN2 * pow(age / machine, shape)),
  );
  const put = new Float64Array(last + 1);
  put[0] = 1;
  for (let j = 1; j <= last; j++) {
    let sum = 0;
    for (let i = 1; i <= j; i++)
      sum += ((survives[i - 1] as number) - (survives[i] as number)) * (put[j - i] as number);
    put[j] = sum;
  }
  const gone = survives.findIndex((s) => s < NEGLIGIBLE);
  return { survives, put, oldest: gone < 0 ? last : gone };
}

const kept = new WeakMap<Kernels, LikeForLike | null>();

/** How machines follow each other in a system of a house in a state; null where the process is that of machines. */
export function likeForLike(
  index: BaseIndex,
  state: string | null,
  system: Entry<System>,
  kernels: Kernels,
): LikeForLike | null {
  const ready = kept.get(kernels);
  if (ready !== undefined) return ready;
  const fit = fitOf(index.base, system.id, state);
  const materials = index.materialsOf.get(system.id) ?? [];
  const made =
    fit?.keepsKind === true
      ? new LikeForLike(
          kernels.ids.map((id) => {
            const material = materials.find((m) => m.id === id);
            const kind = fit.lives[id];
            if (material === undefined || kind === undefined) return null;
            return { kind, machine: material.life.best, shape: material.shape };
          }),
          kernels.last,
        )
      : null;
  kept.set(kernels, made);
  return made;
}
