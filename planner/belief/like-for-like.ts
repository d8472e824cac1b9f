import type { Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import { recordYears } from './backward.ts';
import type { Evidence, RecordWeight } from './evidence.ts';
import { fitOf } from './fit-of.ts';
import type { Posterior } from './forward.ts';
import type { Kernels } from './kernels.ts';
import {
  type KindLife,
  type MachineAges,
  type MachinePaper,
  machineAges,
  plainMachines,
  Stay,
} from './machine-ages.ts';
import { machineless } from './machineless.ts';

/** What is known of the machines that stand today: weights of their year by material, and papers. */
export interface MachineEvidence {
  weights: Float64Array[] | null;
  records: RecordWeight[];
}

const NOTHING_KNOWN: MachineEvidence = { weights: null, records: [] };

/** A boiler is mostly replaced by a boiler. Where a fit says so (`keepsKind`), the renewal process is that of the kind:
 * a year in its tables is the one in which the house took to it. While the house stays with the kind, the machine is
 * renewed like for like as it wears; here the years of the kind become years of the machine (docs/model.md, section 8).
 *
 * With s(k) the chance that a machine has not worn out by age k and v(j) that one is put in j years after the first,
 * a stay of n years ends with a machine of age k with chance v(n - k) s(k); over k they add to 1. */
export class LikeForLike {
  readonly #last: number;
  /** Tables already spread, where nothing is known of the machines: the same tables stay the same object. */
  readonly #made = new WeakMap<Posterior, Posterior>();
  /** For each material s and v by year; null where a stay has one machine. */
  readonly #ages: (MachineAges | null)[];
  readonly #hasMachine: boolean[];

  /** `lives` by material; null: a stay has one machine, or, if `bare` holds the row, none at all. */
  constructor(lives: (KindLife | null)[], last: number, bare: ReadonlySet<number> = new Set()) {
    this.#last = last;
    this.#ages = lives.map((life, m) =>
      life === null || life.kind <= life.machine || bare.has(m) ? null : machineAges(life, last),
    );
    this.#hasMachine = lives.map((_, m) => !bare.has(m));
  }

  /** Evidence on the process of the kind from evidence on machines: what each stay would show, on average over the
   * machines that may stand there now, and what papers say of stays that have ended. */
  ofKinds(evidence: Evidence): Evidence {
    const { reachable, records } = evidence;
    if (reachable === null && records.length === 0) return evidence;
    const stays = this.stays({ weights: reachable, records });
    return records.length === 0
      ? { ...evidence, reachable: stays }
      : { ...evidence, reachable: stays, stays: this.#ended(records) };
  }

  /** Weight of the year in which a house took to the kind that it is with today. */
  stays({ weights, records }: MachineEvidence): Float64Array[] {
    const share = new Float64Array(this.#last + 1);
    return this.#ages.map((_, m) => {
      const stay = this.#stayOf(m, records);
      const own = weights?.[m];
      return Float64Array.from(share, (__, t) => {
        stay.standing(t, share);
        let sum = 0;
        for (let u = t; u < share.length; u++) sum += (share[u] as number) * (own?.[u] ?? 1);
        return sum;
      });
    });
  }

  /** [record][material][year]: weight of the papers up to that of the record on a stay that ended after it. */
  #ended(records: RecordWeight[]): Float64Array[][] {
    return recordYears(records, this.#last).map((end) =>
      this.#ages.map((_, m) => {
        const stay = this.#stayOf(m, records);
        return Float64Array.from({ length: this.#last + 1 }, (__, t) => (t > end ? 1 : stay.ended(t, end)));
      }),
    );
  }

  /** Tables by the year of the machine from tables by the year of the kind. Sums over years stay as they are. */
  machines(tables: Posterior, known: MachineEvidence = NOTHING_KNOWN): Posterior {
    const nothing = known.weights === null && known.records.length === 0;
    const ready = nothing ? this.#made.get(tables) : undefined;
    if (ready !== undefined) return ready;
    const by = (rows: Float64Array[]): Float64Array[] => rows.map((row, m) => this.#spread(row, m, known));
    const reachable = by(tables.reachable);
    // Where nothing is buried the portions are one piece.
    const again = (rows: Float64Array[]): Float64Array[] =>
      rows.every((row, m) => sameRow(row, tables.reachable[m])) ? reachable : by(rows);
    const made = { ...tables, hidden: again(tables.hidden), reachable, same: again(tables.same) };
    if (nothing) this.#made.set(tables, made);
    return made;
  }

  #spread(row: Float64Array, m: number, { weights, records }: MachineEvidence): Float64Array {
    const ages = this.#ages[m];
    if (ages == null) return row;
    if (weights === null && records.length === 0) return plainMachines(ages, row);
    const stay = this.#stayOf(m, records);
    const own = weights?.[m];
    const result = new Float64Array(row.length);
    const share = new Float64Array(row.length);
    row.forEach((mass, t) => {
      if (mass === 0) return;
      stay.standing(t, share);
      let sum = 0;
      for (let u = t; u < share.length; u++) {
        share[u] = (share[u] as number) * (own?.[u] ?? 1);
        sum += share[u] as number;
      }
      if (sum <= 0) return;
      const scale = mass / sum;
      for (let u = t; u < row.length; u++) result[u] = (result[u] as number) + scale * (share[u] as number);
    });
    return result;
  }

  /** Of stays by the year of the kind, all of which last past year index d: how many had a machine put in that year. */
  putIn(stays: Float64Array[], d: number): number {
    let sum = 0;
    stays.forEach((row, m) => {
      if (!this.#hasMachine[m]) return;
      sum += row[d] ?? 0;
      const ages = this.#ages[m];
      if (ages == null || d > ages.until) return;
      for (let t = 0; t < d; t++) sum += (row[t] ?? 0) * (ages.put[d - t] as number);
    });
    return sum;
  }

  #stayOf(m: number, records: RecordWeight[]): Stay {
    return new Stay(this.#ages[m] ?? null, this.#hasMachine[m] ?? true, papersOf(records));
  }
}

/** Papers of one year are weighed together. */
function papersOf(records: RecordWeight[]): MachinePaper[] {
  const papers = new Map<number, MachinePaper>();
  for (const { year, complete, since } of records) {
    const { standing, since: gone } = papers.get(year) ?? { standing: 1, since: 1 };
    papers.set(year, { year, standing: standing * complete, since: gone * (since ?? complete) });
  }
  return [...papers.values()].sort((a, b) => a.year - b.year);
}

function sameRow(a: Float64Array, b: Float64Array | undefined): boolean {
  return b !== undefined && a.every((v, t) => v === b[t]);
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
            const { life, shape, years } = material;
            const sold = years.last === null ? {} : { until: Math.max(0, years.last - kernels.from) };
            return { kind, machine: life.best, shape, ...sold };
          }),
          kernels.last,
          machineless(index, system.id, kernels.ids),
        )
      : null;
  kept.set(kernels, made);
  return made;
}
