import type { BaseIndex } from '../base-index.ts';
import { believeSystem, type SystemState } from '../belief/believe.ts';
import { leftoverOdds } from '../belief/leftovers.ts';
import { presence } from '../condition/presence.ts';
import type { House } from '../house/house.ts';
import { round } from '../numerics/functions.ts';
import type { MaterialBelief, Quantiles, Reason, SystemBelief } from '../plan-types.ts';

/** A system's belief as numbers with the reasons behind them. */
export function explainSystem(index: BaseIndex, house: House, state: SystemState): SystemBelief {
  const { kernels, system, part } = state;
  const leftovers = leftoverOdds(index, state);
  const materials = kernels.ids
    .map((id, m): MaterialBelief => {
      const reachable = sum(state.tables.reachable[m]);
      const hidden = sum(state.tables.hidden[m]);
      return {
        material: id,
        title: id === 'none' ? `No ${system.title.toLowerCase()}` : (index.materials.get(id)?.title ?? id),
        reachable: round(reachable, 6),
        hidden: round(hidden, 6),
        anywhere: round(id === 'none' ? presenceOfNone(state, m) : presence(state, [id], 'anywhere'), 6),
        disconnected: round(leftovers.get(id)?.disconnected ?? 0, 6),
        removed: rounded(leftovers.get(id)?.removed),
        installed: {
          reachable: quantiles(state.tables.reachable[m], kernels.from),
          hidden: quantiles(state.tables.hidden[m], kernels.from),
        },
      };
    })
    .filter((m) => m.anywhere > 0.0005 || m.disconnected > 0.005)
    .sort((a, b) => b.anywhere - a.anywhere || (a.material < b.material ? -1 : 1));
  return {
    system: system.id,
    title: system.title,
    part: part.name,
    present: round(state.applies * presence(state, havingIt(index, state), 'anywhere'), 6),
    materials,
    why: reasons(index, house, state),
  };
}

/** Materials that are the system, not the lack of it. */
function havingIt(index: BaseIndex, state: SystemState): string[] {
  return state.kernels.ids.filter((id) => id !== 'none' && index.materials.get(id)?.lacks !== true);
}

function rounded(p: number | undefined): number | null {
  return p === undefined ? null : round(p, 6);
}

function presenceOfNone(state: SystemState, m: number): number {
  return state.tables.joint[m]?.[m] ?? 0;
}

function reasons(index: BaseIndex, house: House, state: SystemState): Reason[] {
  const { kernels, system, part } = state;
  const year = Math.round(state.years.reduce((total, y) => total + y.p * y.value, 0));
  const t = Math.max(0, Math.min(kernels.last, year - kernels.from));
  const title = (id: string): string => (id === 'none' ? 'none' : (index.materials.get(id)?.title ?? id));
  const fresh = kernels.ids
    .map((id, m) => ({ id, share: kernels.sNew[m]?.[t] ?? 0 }))
    .filter((s) => s.share >= 0.02)
    .sort((a, b) => b.share - a.share)
    .slice(0, 4);
  const list: Reason[] = [
    {
      kind: 'shares',
      say: `New work of ${year}: ${fresh.map((s) => `${title(s.id)} ${percent(s.share)}`).join(', ')}.`,
      grade: system.shares.new.grade,
      source: system.shares.new.source,
    },
  ];
  const original = originalOdds(state);
  list.push({
    kind: 'renewal',
    say:
      system.portions.hidden === null
        ? `Still as first built: ${percent(original.reachable)}.`
        : `Still as first built: ${percent(original.hidden)} in the hidden portion, ${percent(original.reachable)} within reach.`,
    grade: system.shares.renewal.grade,
    source: system.shares.renewal.source,
  });
  const regional = system.regions.filter(
    (r) =>
      r.states?.includes(house.place.state ?? '') ||
      r.regions?.some((x) => x === index.states.get(house.place.state ?? '')?.region),
  );
  for (const r of regional)
    list.push({
      kind: 'place',
      say: `Building there favours ${Object.entries(r.factor)
        .map(([id, f]) => `${title(id)} times ${f}`)
        .join(', ')}.`,
      grade: r.grade,
      source: r.source,
    });
  for (const met of state.clues) list.push(clueReason(index, house, state, met.clue.id, title));
  if (part.built.years.length > 1)
    list.push({
      kind: 'input',
      say: `The year "${part.built.given}" is vague; ${part.built.years.length} years from ${part.built.years[0]?.value} to ${part.built.years.at(-1)?.value} are summed over.`,
      grade: null,
      source: [],
    });
  return list;
}

/** What one clue did: the odds without it, against the odds with it, for the material it moved most. */
function clueReason(
  index: BaseIndex,
  house: House,
  state: SystemState,
  id: string,
  title: (id: string) => string,
): Reason {
  const clue = index.clues.get(id);
  const without = believeSystem(index, house, state.part, state.system, new Set([id]));
  let moved = { id: 'none', was: 0, is: 0 };
  for (const material of state.kernels.ids) {
    if (material === 'none') continue;
    const was = presence(without, [material], 'anywhere');
    const is = presence(state, [material], 'anywhere');
    if (Math.abs(is - was) > Math.abs(moved.is - moved.was)) moved = { id: material, was, is };
  }
  const effect =
    moved.id === 'none'
      ? 'moves the materials little'
      : `moves ${title(moved.id)} from ${percent(moved.was)} to ${percent(moved.is)}`;
  return {
    kind: 'clue',
    say: `${clue?.say ?? id} This ${effect}.${clue?.caution === undefined ? '' : ` ${clue.caution}`}`,
    grade: clue?.grade ?? null,
    source: clue?.source ?? [],
  };
}

/** Chance that each portion still is what was put in when the part was built. */
export function originalOdds(state: SystemState): { reachable: number; hidden: number } {
  let reachable = 0;
  let hidden = 0;
  for (const { value, p } of state.years) {
    const t = value - state.kernels.from;
    // With several years that the part may be of, a year's own mass stands for its original work.
    if (p <= 0) continue;
    for (let m = 0; m < state.kernels.ids.length; m++) {
      reachable += state.tables.reachable[m]?.[t] ?? 0;
      hidden += state.tables.hidden[m]?.[t] ?? 0;
    }
  }
  return { reachable, hidden };
}

function sum(row: Float64Array | undefined): number {
  let total = 0;
  for (const value of row ?? []) total += value;
  return total;
}

/** 10th, 50th and 90th percentile of the installation year; null where the material is hardly there. */
function quantiles(row: Float64Array | undefined, from: number): Quantiles | null {
  const total = sum(row);
  if (row === undefined || total < 0.001) return null;
  const at = (q: number): number => {
    let reached = 0;
    for (let t = 0; t < row.length; t++) {
      reached += row[t] ?? 0;
      if (reached >= q * total - 1e-12) return from + t;
    }
    return from + row.length - 1;
  };
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

export function percent(p: number): string {
  if (p < 0.01) return 'under 1%';
  if (p > 0.99) return 'over 99%';
  return `${Math.round(100 * p)}%`;
}
