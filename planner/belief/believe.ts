import type { Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import type { House, Odds, Part } from '../house/house.ts';
import { exp } from '../numerics/functions.ts';
import type { Backward } from './backward.ts';
import { builtLikelihood } from './built-clues.ts';
import type { MetClue } from './clue-evidence.ts';
import { askedByInputs, type Draft, draft, draftAll } from './draft.ts';
import type { Evidence } from './evidence.ts';
import type { Posterior } from './forward.ts';
import type { Kernels } from './kernels.ts';
import { mixedTables } from './mixed-tables.ts';
import { type Informed, nodeIn, toStep, type YearsAndOwners, yearOdds, yearsAndOwners } from './mixture.ts';
import { type NodePair, nodePairs, spreadsOf } from './renewing.ts';
import { middleOf, type NodeKernels } from './system-kernels.ts';
import { type UnitOdds, unitTables } from './unit-tables.ts';

/** What one system of one part of the house is believed to be made of. */
export interface SystemState {
  system: Entry<System>;
  part: Part;
  /** The renewal process for owners of the middle kind: for shares, and for what is rough anyway. */
  kernels: Kernels;
  /** The process for every kind of owner, with the odds of each after all clues of the house. */
  nodes: SystemNode[];
  /** Posterior mixed over owners and over the years the part may have been built in; of any one dwelling. */
  tables: Posterior;
  /** The dwellings together, where the house has several and the system is one a dwelling. */
  units: UnitOdds | null;
  /** Odds that the house has the system at all by its inputs (a septic tank, a well). */
  applies: number;
  clues: MetClue[];
  evidence: Evidence;
  /** Odds over build years after all clues of the house. */
  years: Odds<number>;
}

export interface SystemNode extends NodeKernels {
  /** The backward pass behind it, where there is evidence. */
  back: Backward | null;
}

/** Belief over every system of the house. `without` leaves clues out, to see what they did. */
export function believe(
  index: BaseIndex,
  house: House,
  without: ReadonlySet<string> = new Set(),
): SystemState[] {
  const drafts = draftAll(index, house, without, index.base.systems);
  const pairs = nodePairs(spreadsOf(index.base));
  const informed = [...informedBy(drafts), ...buildYears(index, house, without)];
  const joint = yearsAndOwners(house.parts, informed, pairs);
  return house.parts.flatMap((part) =>
    drafts.filter((d) => d.part === part).map((d) => stateOf(d, pairs, joint.get(part) ?? [])),
  );
}

/** Belief over one system of one part, given every clue of the house but those left out: for asking what a
 * clue did. */
export function believeSystem(
  index: BaseIndex,
  house: House,
  part: Part,
  system: Entry<System>,
  without: ReadonlySet<string>,
): SystemState {
  const named = systemsOfClues(index, house, without);
  const systems = index.base.systems.filter((s) => named.has(s.id) || askedByInputs(index, s));
  const pairs = nodePairs(spreadsOf(index.base));
  const drafts = draftAll(index, house, without, systems);
  const informed = [...informedBy(drafts), ...buildYears(index, house, without)];
  const joint = yearsAndOwners(house.parts, informed, pairs);
  return stateOf(draft(index, house, part, system, without), pairs, joint.get(part) ?? []);
}

function systemsOfClues(index: BaseIndex, house: House, without: ReadonlySet<string>): Set<string> {
  return new Set(
    house.clues.flatMap(({ id }) => (without.has(id) ? [] : [index.clues.get(id)?.system ?? ''])),
  );
}

function informedBy(drafts: Draft[]): Informed[] {
  return drafts
    .filter((d) => d.z.length > 0)
    .map(({ part, system, nodes, z }) => ({
      part,
      renewedWith: system.renewedWith,
      from: middleOf(nodes).kernels.from,
      z,
    }));
}

/** What speaks of the build years themselves, all kinds of owners alike. */
function buildYears(index: BaseIndex, house: House, without: ReadonlySet<string>): Informed[] {
  return house.parts.map((part) => {
    const years = part.built.years.map((y) => y.value);
    const from = Math.min(...years);
    const count = Math.max(...years) - from + 1;
    const z = builtLikelihood(index, house, part, from, count, without).map(exp);
    return { part, renewedWith: 'neither', from, z: [z] };
  });
}

/** Mixes a system's passes over its nodes and the build years, each at its posterior odds. */
function stateOf(d: Draft, pairs: NodePair[], joint: YearsAndOwners): SystemState {
  const { kernels } = middleOf(d.nodes);
  const years = d.part.built.years.map(({ value }) => value - kernels.from);
  const exact = d.nodes.map(() => years.map(() => 0));
  pairs.forEach((pair, n) => {
    const row = exact[nodeIn(d.system.renewedWith, d.nodes.length, pair)];
    if (row !== undefined) for (let k = 0; k < row.length; k++) row[k] = (row[k] ?? 0) + (joint[n]?.[k] ?? 0);
  });
  const odds = exact.map((row) => row.map(toStep));
  const possible = d.z.length === 0 || d.z.some((z) => years.some((t) => (z[t] ?? 0) > 0));
  if (!possible) throw new RangeError(`the clues of ${d.system.id} contradict every build year given`);
  const { tables, units } =
    d.apart === null
      ? { tables: oneDwelling(d, years, odds), units: null }
      : unitTables(d.nodes, years, odds, d.together, d.apart, d.likeForLike);
  return {
    system: d.system,
    part: d.part,
    applies: d.applies,
    clues: d.clues,
    evidence: d.together.evidence,
    kernels,
    nodes: d.nodes.map((node, i) => ({
      kernels: node.kernels,
      weight: (odds[i] ?? []).reduce((sum, p) => sum + p, 0),
      back: d.together.backs[i] ?? null,
    })),
    tables,
    units,
    years: yearOdds(d.part, joint),
  };
}

function oneDwelling(d: Draft, years: number[], odds: number[][]): Posterior {
  const tables = mixedTables(d.nodes, years, odds, d.together);
  return d.likeForLike?.machines(tables, d.together.machine) ?? tables;
}

/** Weights that say of a portion only that it was renewed after the house was built. */
export function renewedSince(kernels: Kernels, built: number): Float64Array[] {
  return kernels.ids.map(() =>
    Float64Array.from({ length: kernels.last + 1 }, (_, t) => (t > built ? 1 : 0)),
  );
}
