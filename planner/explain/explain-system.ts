import type { BaseIndex } from '../base-index.ts';
import type { SystemState } from '../belief/believe.ts';
import { leftoverOdds } from '../belief/leftovers.ts';
import { machineless } from '../belief/machineless.ts';
import { type OddsSpread, oddsRange, oddsSpread } from '../belief/ranges.ts';
import { ageTable } from '../condition/age-table.ts';
import { presenceOfRow, presenceOfRows } from '../condition/presence.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { Contradiction, MaterialBelief, Quantiles, SystemBelief } from '../plan-types.ts';
import type { LeftOut } from './left-out.ts';
import { replacedOdds } from './replaced.ts';
import { systemReasons } from './system-reasons.ts';

/** A system's belief as numbers with the reasons behind them. Where no clue speaks of the system, made once for each
 * state. */
export function explainSystem(
  index: BaseIndex,
  house: House,
  state: SystemState,
  leftOut: LeftOut,
  conflicts: readonly Contradiction[],
): SystemBelief {
  const ready = made.get(state);
  if (ready !== undefined) return ready;
  const own = conflicts.filter((c) => c.system === state.system.id && c.part === state.part.name);
  const belief = makeBelief(index, house, state, leftOut, own);
  if (state.clues.length === 0) made.set(state, belief);
  return belief;
}

const made = new WeakMap<SystemState, SystemBelief>();

function makeBelief(
  index: BaseIndex,
  house: House,
  state: SystemState,
  leftOut: LeftOut,
  conflicts: readonly Contradiction[],
): SystemBelief {
  const { kernels, system, part } = state;
  const leftovers = leftoverOdds(index, state);
  const spread = oddsSpread(index, system, house.place.state);
  const { hiddenTotal, reachableTotal } = ageTable(state);
  const materials = kernels.ids
    .flatMap((id, m): MaterialBelief[] => {
      const left = leftovers.get(id);
      const disconnected = round(left?.disconnected ?? 0, 6);
      const anywhere = presenceOfRow(state, m);
      if (round(anywhere, 6) <= LEAST && disconnected <= LEAST_LEFT) return [];
      const reachable = reachableTotal[m] ?? 0;
      const hidden = hiddenTotal[m] ?? 0;
      return [
        {
          material: id,
          title: id === 'none' ? withoutIt(system) : (index.materials.get(id)?.title ?? id),
          reachable: round(reachable, 6),
          hidden: round(hidden, 6),
          anywhere: round(anywhere, 6),
          disconnected,
          removed: rounded(left?.removed),
          installed: {
            reachable: quantiles(state.tables.reachable[m], reachable, kernels.from),
            hidden: quantiles(state.tables.hidden[m], hidden, kernels.from),
          },
          range: {
            reachable: rangeOf(reachable, spread.reachable),
            hidden: rangeOf(hidden, spread.hidden),
            anywhere: rangeOf(anywhere, spread.hidden),
          },
          ...unitsOf(state, m),
        },
      ];
    })
    .sort((a, b) => b.anywhere - a.anywhere || (a.material < b.material ? -1 : 1));
  const having = havingIt(index, state);
  const replaced = system.portions.hidden === null ? null : replacedOdds(state, new Set(having));
  return {
    system: system.id,
    title: system.title,
    part: part.name,
    present: round(state.applies * presenceOfRows(state, having), 6),
    materials,
    replaced,
    why: systemReasons(index, house, state, { leftOut, conflicts, replaced }),
  };
}

/** Of hazards the words must not read as a finding that there is none. */
function withoutIt({ group, title }: SystemState['system']): string {
  return group === 'hazard' ? 'None of the kinds listed' : `No ${title.toLowerCase()}`;
}

/** Odds up to this are not listed, nor is what was there once and is left behind up to that. */
const LEAST = 1e-5;
const LEAST_LEFT = 0.005;

function rangeOf(p: number, spread: OddsSpread): [number, number] {
  const [low, high] = oddsRange(p, spread);
  return [round(low, 5), round(high, 5)];
}

/** Rows of the materials that are the system, not the lack of it. */
function havingIt(index: BaseIndex, { kernels, system }: SystemState): number[] {
  const without = machineless(index, system.id, kernels.ids);
  return kernels.ids.flatMap((_, m) => (without.has(m) ? [] : [m]));
}

/** Odds over the dwellings of the house; nothing where it has one, or the system serves all. */
function unitsOf({ units }: SystemState, m: number): Pick<MaterialBelief, 'units'> {
  if (units === null) return {};
  return {
    units: { atLeastOne: round(units.atLeastOne[m] ?? 0, 6), every: round(units.every[m] ?? 0, 6) },
  };
}

function rounded(p: number | undefined): number | null {
  return p === undefined ? null : round(p, 6);
}

/** 10th, 50th and 90th percentile of the installation year; null where the material is hardly there. */
function quantiles(row: Float64Array | undefined, total: number, from: number): Quantiles | null {
  if (row === undefined || total < 0.001) return null;
  const years = [0, 0, 0];
  let reached = 0;
  let t = 0;
  for (let q = 0; q < SHARES.length; q++) {
    const sought = (SHARES[q] as number) * total - 1e-12;
    while (t < row.length && reached + (row[t] as number) < sought) reached += row[t++] as number;
    years[q] = from + Math.min(t, row.length - 1);
  }
  const [p10 = 0, p50 = 0, p90 = 0] = years;
  return { p10, p50, p90 };
}

const SHARES = [0.1, 0.5, 0.9];
