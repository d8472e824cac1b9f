import type { Clue } from '../../knowledge/schema/clue.ts';
import type { SystemState } from '../belief/believe.ts';
import { CLAMP } from '../belief/evidence.ts';
import { MET_IF_FAILED, missedReads } from '../belief/not-met.ts';
import { ageTable } from '../condition/age-table.ts';
import { oddsTimes, type Scaled } from '../condition/causes.ts';
import { type Condition, oddsIf } from '../condition/condition.ts';
import { clamp } from '../numerics/functions.ts';
import { stakeOf } from './stakes.ts';

/** What a look could tell of one system: its state, the conditions that follow from it and what each is worth knowing. */
export class Looking {
  readonly #state: SystemState;
  readonly #conditions: readonly Condition[];
  readonly #stakes: Float64Array;

  /** `conditions` are those of `state`. */
  constructor(state: SystemState, conditions: readonly Condition[], client: readonly string[]) {
    this.#state = state;
    this.#conditions = conditions;
    this.#stakes = new Float64Array(conditions.length);
    conditions.forEach((c, i) => {
      this.#stakes[i] = stakeOf(c.failure, client);
    });
  }

  /** How far, on average over meeting a clue and not meeting it, its reading would move the stake-weighted odds of the
   * system's failure modes (docs/model.md, section 6). */
  worthOf(clue: Clue): number {
    if (clue.reads.reachable === undefined && clue.reads.hidden === undefined) return 0;
    const { ids } = this.#state.kernels;
    const { met, missed } = outcomesOf(clue, ids);
    const after = scratchOf(ids.length);
    let sum = 0;
    for (const outcome of [met, missed]) {
      const odds = read(this.#state, outcome, after);
      if (odds <= 1e-6) continue;
      for (let i = 0; i < this.#conditions.length; i++) {
        const c = this.#conditions[i];
        if (c !== undefined)
          sum += (this.#stakes[i] as number) * odds * Math.abs(oddsIf(c, after) - c.byTables);
      }
    }
    return sum;
  }
}

/** Chance by material of an outcome of a look. */
interface Outcome {
  reachable: Float64Array;
  hidden: Float64Array;
}

/** Scales each portion by the chances of its materials; the joint carries it to the other portion. Fills `by` with the
 * totals after the look and gives the chance of that outcome. */
function read(state: SystemState, { reachable, hidden }: Outcome, by: Scaled): number {
  const n = reachable.length;
  by.hiddenTotal.fill(0);
  by.reachableTotal.fill(0);
  let odds = 0;
  for (let h = 0; h < n; h++) {
    const before = state.tables.joint[h] as Float64Array;
    const row = by.joint[h] as Float64Array;
    for (let r = 0; r < n; r++) {
      const after = (before[r] as number) * (hidden[h] as number) * (reachable[r] as number);
      odds += after;
      row[r] = after;
      by.hiddenTotal[h] = (by.hiddenTotal[h] as number) + after;
      by.reachableTotal[r] = (by.reachableTotal[r] as number) + after;
    }
  }
  if (odds <= 1e-9) return 0;
  const before = ageTable(state);
  for (let m = 0; m < n; m++) {
    by.hiddenTotal[m] = (by.hiddenTotal[m] as number) / odds;
    by.reachableTotal[m] = (by.reachableTotal[m] as number) / odds;
    by.same[m] = ((hidden[m] as number) * (reachable[m] as number)) / odds;
    by.hidden[m] = ratio(by.hiddenTotal[m] as number, before.hiddenTotal[m] as number);
    by.reachable[m] = ratio(by.reachableTotal[m] as number, before.reachableTotal[m] as number);
    const row = by.joint[m] as Float64Array;
    for (let r = 0; r < n; r++) row[r] = (row[r] as number) / odds;
  }
  return odds;
}

/** Totals to be filled anew for each look, one set for each number of materials. */
function scratchOf(n: number): Scaled {
  const ready = scratch[n];
  if (ready !== undefined) return ready;
  const row = (): Float64Array => new Float64Array(n);
  const made = {
    joint: Array.from({ length: n }, row),
    hiddenTotal: row(),
    reachableTotal: row(),
    same: row(),
    hidden: row(),
    reachable: row(),
  };
  scratch[n] = made;
  return made;
}

const scratch: Scaled[] = [];

/** How far, on average, a clue that speaks of failure modes themselves would move their stake-weighted odds. */
export function worthOfTelling(
  clue: Clue,
  conditionOf: ReadonlyMap<string, Condition>,
  client: readonly string[],
): number {
  let sum = 0;
  for (const { failure, ratio } of told(clue)) {
    const c = conditionOf.get(failure);
    if (c === undefined || c.probability <= 0) continue;
    // By the ratio less often in houses that do not have the failure mode.
    const hit = Math.min(MET_IF_FAILED, MET_IF_FAILED * ratio);
    const odds = hit * c.probability + (hit / ratio) * (1 - c.probability);
    const moved = oddsTimes(c.probability, ratio);
    sum += stakeOf(c.failure, client) * 2 * clamp(odds, 0, 1) * Math.abs(moved - c.probability) * 0.5;
  }
  return sum;
}

/** The failure modes that a clue speaks of, as a list. */
function told(clue: Clue): { failure: string; ratio: number }[] {
  const ready = toldBy.get(clue);
  if (ready !== undefined) return ready;
  const list = Object.entries(clue.failures).map(([failure, ratio]) => ({ failure, ratio }));
  toldBy.set(clue, list);
  return list;
}

const toldBy = new WeakMap<Clue, { failure: string; ratio: number }[]>();

/** Chances of meeting the clue and of looking for it and not meeting it, by the rows of the clue's system: made once for
 * each clue, the materials of a system being always the same. */
function outcomesOf(clue: Clue, ids: readonly string[]): { met: Outcome; missed: Outcome } {
  const ready = outcomes.get(clue);
  if (ready !== undefined && ready.met.hidden.length === ids.length) return ready;
  const made = { met: outcomeOf(clue, ids, true), missed: outcomeOf(clue, ids, false) };
  outcomes.set(clue, made);
  return made;
}

const outcomes = new WeakMap<Clue, { met: Outcome; missed: Outcome }>();

function outcomeOf(clue: Clue, ids: readonly string[], met: boolean): Outcome {
  const reads = met ? clue.reads : missedReads(clue);
  const chances = (reading: Clue['reads']['reachable']): Float64Array => {
    const row = new Float64Array(ids.length).fill(1);
    if (reading !== undefined)
      ids.forEach((id, m) => {
        const chance = reading[id] ?? reading.else ?? 0;
        row[m] = clamp(chance, 1 / CLAMP, 1);
      });
    return row;
  };
  return { reachable: chances(reads.reachable), hidden: chances(reads.hidden) };
}

function ratio(after: number, before: number): number {
  return before <= 0 ? 0 : after / before;
}
