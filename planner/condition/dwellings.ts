import type { Failure } from '../../knowledge/schema/failure.ts';
import type { SystemState } from '../belief/believe.ts';
import type { Posterior } from '../belief/forward.ts';
import type { Kernels } from '../belief/kernels.ts';
import type { UnitOdds } from '../belief/unit-tables.ts';
import { type AgeTable, tabulate } from './age-table.ts';
import { causeIn, moved, oddsTimes, type Readied, readied } from './causes.ts';

/** What the house may be, case by case: the odds of each, and its dwellings as the places of their chances in a list, with
 * how many there are of each (those of case i lie from `from[i]` to `from[i + 1]`). Where dwellings have the failure mode
 * as one, one stands for all. */
interface Cases {
  odds: number[];
  from: number[];
  at: number[];
  times: number[];
  /** Part of the dwellings of the house that each stands for. */
  share: number[];
}

/** A failure mode of a system of which each dwelling has its own, over the dwellings of the house. Dwellings that were
 * renewed as one have it as one; the others each by itself, given the owners and the build year (docs/model.md,
 * section 4). */
export class OverDwellings {
  readonly #cases: Cases;
  /** Chances in a dwelling, for the cases to name by their place. */
  readonly #chances: Float64Array;
  readonly #spared: Float64Array;

  constructor(cases: Cases, chances: Float64Array) {
    this.#cases = cases;
    this.#chances = chances;
    this.#spared = new Float64Array(chances.length);
  }

  /** Chance in any one dwelling. */
  anyOne(): number {
    const { odds, from, at, share } = this.#cases;
    let sum = 0;
    for (let i = 0; i < odds.length; i++)
      for (let k = from[i] as number; k < (from[i + 1] as number); k++)
        sum += (odds[i] as number) * (share[k] as number) * (this.#chances[at[k] as number] as number);
    return sum;
  }

  /** Chance in at least one dwelling, the odds in each multiplied by `factor`. */
  atLeastOne(factor = 1): number {
    const { odds, from, at, times } = this.#cases;
    const spared = this.#spared;
    for (let j = 0; j < spared.length; j++) spared[j] = 1 - oddsTimes(this.#chances[j] as number, factor);
    let none = 0;
    for (let i = 0; i < odds.length; i++) {
      let product = odds[i] as number;
      for (let k = from[i] as number; k < (from[i + 1] as number); k++)
        for (let n = times[k] as number; n > 0; n--) product *= spared[at[k] as number] as number;
      none += product;
    }
    return Math.max(0, 1 - none);
  }
}

/** Judges a failure mode in each dwelling. `factorOf` multiplies the odds in the dwelling of that number, or, for null, in
 * all of them as one; a plain number does so in every dwelling. */
export function overDwellings(
  { kernels }: SystemState,
  units: UnitOdds,
  causes: Failure['causes'],
  partAge: number,
  factorOf: number | ((unit: number | null) => number),
): OverDwellings {
  const found = chancesIn(kernels, units.tables, causes, partAge);
  if (typeof factorOf === 'number') {
    const chances = Float64Array.from(found, ({ none, present }) => moved(none, present, factorOf));
    return new OverDwellings(plainCases(units), chances);
  }
  const chances: number[] = [];
  const add = (tables: number, unit: number | null): number => {
    const { none, present } = found[tables] ?? NEVER;
    return chances.push(moved(none, present, factorOf(unit))) - 1;
  };
  const cases = layCases(units, (tables, numbers, asOne) =>
    asOne
      ? [{ at: add(tables, null), times: 1 }]
      : numbers.map((unit) => ({ at: add(tables, unit), times: 1 })),
  );
  return new OverDwellings(cases, Float64Array.from(chances));
}

const NEVER = { none: 1, present: 0 };

/** Cases in which dwellings with the same tables have the same chance: made once for each house. */
function plainCases(units: UnitOdds): Cases {
  const ready = plain.get(units);
  if (ready !== undefined) return ready;
  const made = layCases(units, (tables, numbers, asOne) => [
    { at: tables, times: asOne ? 1 : numbers.length },
  ]);
  plain.set(units, made);
  return made;
}

const plain = new WeakMap<UnitOdds, Cases>();

/** Lays the cases out; `dwellingsOf` says where the chances of dwellings with the same tables are. */
function layCases(
  { count, cases }: UnitOdds,
  dwellingsOf: (tables: number, units: readonly number[], asOne: boolean) => { at: number; times: number }[],
): Cases {
  const laid: Cases = { odds: [], from: [0], at: [], times: [], share: [] };
  for (const { odds, asOne, dwellings } of cases) {
    for (const { tables, units } of dwellings)
      for (const { at, times } of dwellingsOf(tables, units, asOne)) {
        laid.at.push(at);
        laid.times.push(times);
        laid.share.push(asOne ? 1 : times / count);
      }
    laid.odds.push(odds);
    laid.from.push(laid.at.length);
  }
  return laid;
}

/** By tables, the chance that no cause has brought the failure mode, and that what one of them needs is in the dwelling. */
function chancesIn(
  kernels: Kernels,
  tables: readonly Posterior[],
  causes: Failure['causes'],
  partAge: number,
): { none: number; present: number }[] {
  const ages = tables.map((one) => ageTableOf(kernels, one));
  const [first] = ages;
  const ready = first === undefined ? [] : causes.map((cause) => readied(cause, kernels.ids, first, partAge));
  return tables.map((one, k) => chanceIn(ready, ages[k], one.joint));
}

function chanceIn(
  causes: readonly Readied[],
  age: AgeTable | undefined,
  joint: Float64Array[],
): { none: number; present: number } {
  if (age === undefined) return NEVER;
  let absent = 1;
  let none = 1;
  for (const cause of causes) {
    const { present, best } = causeIn(cause, age, joint);
    absent *= 1 - present;
    none *= 1 - best;
  }
  return { none, present: 1 - absent };
}

const agesOf = new WeakMap<Posterior, AgeTable>();

function ageTableOf(kernels: Kernels, tables: Posterior): AgeTable {
  const ready = agesOf.get(tables);
  if (ready !== undefined) return ready;
  const made = tabulate(kernels, tables);
  agesOf.set(tables, made);
  return made;
}
