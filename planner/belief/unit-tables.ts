import { likelihoodApart, TOGETHER, type Weighed } from './draft.ts';
import { FlatTables } from './flat-tables.ts';
import { forward, type Posterior } from './forward.ts';
import type { Kernels } from './kernels.ts';
import { ofOneKind } from './mixed-tables.ts';
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
}

/** Tables of any one dwelling, and odds over all of them. Given the owners and the build year the dwellings were either
 * renewed as one, or are independent of each other (docs/model.md, section 4); both are weighed by the evidence. */
export function unitTables(
  nodes: NodeKernels[],
  years: number[],
  odds: number[][],
  together: Weighed,
  apart: { weighed: Weighed; units: number }[],
): { tables: Posterior; units: UnitOdds } {
  const { ids, last } = middleOf(nodes).kernels;
  const sum = new FlatTables(ids.length, last + 1);
  const units: UnitOdds = {
    count: apart.reduce((n, one) => n + one.units, 0),
    atLeastOne: new Float64Array(ids.length),
    every: new Float64Array(ids.length),
    together: 0,
  };
  nodes.forEach(({ kernels }, i) => {
    years.forEach((t, k) => {
      const p = odds[i]?.[k] ?? 0;
      const asOne = TOGETHER * (together.backs[i]?.z[t] ?? 1);
      const all = asOne + (1 - TOGETHER) * likelihoodApart(apart, i, t);
      if (!(p > 0 && all > 0)) return;
      const one = (p * asOne) / all;
      units.together += one;
      if (one > 0) {
        const tables = tablesAt(kernels, together, i, t);
        sum.add(tables, one);
        addDwellings(units, ids, [{ tables, times: 1 }], one);
      }
      if (p > one) {
        const dwellings = apart.map(({ weighed, units: times }) => ({
          tables: tablesAt(kernels, weighed, i, t),
          times,
        }));
        for (const { tables, times } of dwellings) sum.add(tables, ((p - one) * times) / units.count);
        addDwellings(units, ids, dwellings, p - one);
      }
    });
  });
  return { tables: sum.rows(), units };
}

/** Adds the odds over independent dwellings, of which some are alike, each times `p`. */
function addDwellings(
  units: UnitOdds,
  ids: string[],
  dwellings: { tables: FlatTables; times: number }[],
  p: number,
): void {
  ids.forEach((id, m) => {
    let inNone = 1;
    let inEvery = 1;
    for (const { tables, times } of dwellings) {
      const there = tables.chanceOf(m, id === 'none');
      for (let n = 0; n < times; n++) {
        inNone *= 1 - there;
        inEvery *= there;
      }
    }
    units.atLeastOne[m] = (units.atLeastOne[m] ?? 0) + p * (1 - inNone);
    units.every[m] = (units.every[m] ?? 0) + p * inEvery;
  });
}

/** Tables of a dwelling with the evidence given, for one kind of owner and one build year. */
function tablesAt(kernels: Kernels, { evidence, backs }: Weighed, node: number, t: number): FlatTables {
  const back = backs[node];
  if (back === undefined) return ofOneKind(kernels, [t], [1]);
  const z = back.z[t] ?? 0;
  return forward(kernels, evidence, [t], [z > 0 ? 1 / z : 0], back);
}
