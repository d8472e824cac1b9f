import { likelihoodApart, TOGETHER, type Weighed } from './draft.ts';
import { NO_EVIDENCE } from './evidence.ts';
import { FlatTables } from './flat-tables.ts';
import { forward, type Posterior } from './forward.ts';
import type { Kernels } from './kernels.ts';
import type { LikeForLike, MachineEvidence } from './like-for-like.ts';
import { middleOf, type NodeKernels } from './system-kernels.ts';

/** A system of which each dwelling of the house has its own. */
export interface UnitOdds {
  count: number;
  /** Chance by material that it is in use in at least one dwelling, and in every one; for `none`, that at least one
   * or every dwelling is without the system. */
  atLeastOne: Float64Array;
  every: Float64Array;
  /** Odds that the dwellings were renewed as one. */
  together: number;
  /** Tables of a dwelling, for the cases to name by their place in this list. */
  tables: Posterior[];
  /** What the house may be: given the owners, the build year and whether its dwellings were renewed as one. The odds add
   * to 1. In a case of dwellings renewed as one all have the same tables and one history; else each has its own. */
  cases: { odds: number; asOne: boolean; dwellings: { tables: number; units: number[] }[] }[];
}

/** What is known of some dwellings each by itself: those numbered `units`, from 1. */
export interface Apart {
  weighed: Weighed;
  units: number[];
}

/** Tables of any one dwelling, and odds over all of them. Given the owners and the build year the dwellings were either
 * renewed as one, or are independent of each other (docs/model.md, section 4); both are weighed by the evidence. Where
 * machines follow each other like for like (`follow`), years are those of the machines. */
export function unitTables(
  nodes: NodeKernels[],
  years: number[],
  odds: number[][],
  together: Weighed,
  apart: Apart[],
  follow: LikeForLike | null = null,
): { tables: Posterior; units: UnitOdds } {
  const { ids, last } = middleOf(nodes).kernels;
  const sum = new FlatTables(ids.length, last + 1);
  const units: UnitOdds = {
    count: apart.reduce((n, one) => n + one.units.length, 0),
    atLeastOne: new Float64Array(ids.length),
    every: new Float64Array(ids.length),
    together: 0,
    tables: [],
    cases: [],
  };
  const everyUnit = apart.flatMap((one) => one.units);
  nodes.forEach(({ kernels }, i) => {
    years.forEach((t, k) => {
      const p = odds[i]?.[k] ?? 0;
      const asOne = TOGETHER * (together.backs[i]?.z[t] ?? 1);
      const all = asOne + (1 - TOGETHER) * likelihoodApart(apart, i, t);
      if (!(p > 0 && all > 0)) return;
      const add = (share: number, one: boolean, of: Apart[]): void => {
        if (!(share > 0)) return;
        const dwellings = of.map(({ weighed, units: numbers }) => {
          const { flat, rows } = tablesAt(kernels, weighed, i, t, follow);
          sum.add(flat, (share * numbers.length) / units.count);
          return { flat, tables: placeOf(rows, units.tables), units: numbers };
        });
        addDwellings(units, ids, one ? dwellings.map((d) => ({ ...d, units: [1] })) : dwellings, share);
        const told = dwellings.map(({ tables, units: numbers }) => ({ tables, units: numbers }));
        units.cases.push({ odds: share, asOne: one, dwellings: told });
      };
      const one = (p * asOne) / all;
      units.together += one;
      add(one, true, [{ weighed: together, units: everyUnit }]);
      add(p - one, false, apart);
    });
  });
  return { tables: sum.rows(), units };
}

/** Place of tables in the list; the same ones are listed once. */
function placeOf(tables: Posterior, list: Posterior[]): number {
  const ready = list.indexOf(tables);
  return ready >= 0 ? ready : list.push(tables) - 1;
}

/** Adds the odds over independent dwellings, of which some are alike, each times `p`. */
function addDwellings(
  units: UnitOdds,
  ids: string[],
  dwellings: { flat: FlatTables; units: number[] }[],
  p: number,
): void {
  ids.forEach((id, m) => {
    let inNone = 1;
    let inEvery = 1;
    for (const { flat, units: numbers } of dwellings) {
      const there = flat.chanceOf(m, id === 'none');
      for (let n = 0; n < numbers.length; n++) {
        inNone *= 1 - there;
        inEvery *= there;
      }
    }
    units.atLeastOne[m] = (units.atLeastOne[m] ?? 0) + p * (1 - inNone);
    units.every[m] = (units.every[m] ?? 0) + p * inEvery;
  });
}

/** Tables of a dwelling with the evidence given, for one kind of owner and one build year. */
function tablesAt(
  kernels: Kernels,
  { evidence, backs, machine }: Weighed,
  node: number,
  t: number,
  follow: LikeForLike | null,
): Dwelling {
  const back = backs[node];
  if (back === undefined) return unweighed(kernels, t, follow);
  const z = back.z[t] ?? 0;
  return dwelling(forward(kernels, evidence, [t], [z > 0 ? 1 / z : 0], back), follow, machine);
}

/** Tables of dwellings of which nothing is known, by the build year: a clue leaves them as they are. */
const keptUnweighed = new WeakMap<Kernels, Map<number, Dwelling>>();
const MOST_KEPT = 12;

function unweighed(kernels: Kernels, t: number, follow: LikeForLike | null): Dwelling {
  const kept = keptUnweighed.get(kernels) ?? new Map<number, Dwelling>();
  keptUnweighed.set(kernels, kept);
  const ready = kept.get(t);
  if (ready !== undefined) return ready;
  if (kept.size >= MOST_KEPT) kept.clear();
  const made = dwelling(forward(kernels, NO_EVIDENCE, [t], [1], null), follow);
  kept.set(t, made);
  return made;
}

/** Tables in one piece, and the same as rows. */
interface Dwelling {
  flat: FlatTables;
  rows: Posterior;
}

function dwelling(kinds: FlatTables, follow: LikeForLike | null, machine?: MachineEvidence): Dwelling {
  const flat = follow === null ? kinds : FlatTables.of(follow.machines(kinds.rows(), machine));
  return { flat, rows: flat.rows() };
}
