import type { Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import type { House, Part } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { type Backward, backward } from './backward.ts';
import { clueEvidence, type MetClue } from './clue-evidence.ts';
import { type Evidence, hasEvidence, NO_EVIDENCE } from './evidence.ts';
import { expected } from './expected.ts';
import type { Kernels } from './kernels.ts';
import { type LikeForLike, likeForLike, type MachineEvidence } from './like-for-like.ts';
import { machineless } from './machineless.ts';
import { middleOf, type NodeKernels, systemKernels } from './system-kernels.ts';
import type { Apart } from './unit-tables.ts';

/** A system of a part with its own evidence, before the systems of the house are put together. */
export interface Draft {
  system: Entry<System>;
  part: Part;
  /** Odds that the house has the system at all by its inputs. */
  applies: number;
  clues: MetClue[];
  nodes: NodeKernels[];
  /** What the evidence says if all dwellings of the house were renewed as one; the only reading where there is one. */
  together: Weighed;
  /** The dwellings each by itself, where the house has several and the system is one a dwelling. */
  apart: Apart[] | null;
  /** Likelihood of the evidence for every build year, one row a node; empty without evidence. */
  z: Float64Array[];
  /** How machines of a kind follow each other; null: the process is that of machines. */
  likeForLike: LikeForLike | null;
}

export interface Weighed {
  evidence: Evidence;
  /** One backward pass a node; empty without evidence. */
  backs: Backward[];
  /** What is known of the machine within reach, where the evidence above is on the kind of machine. */
  machine?: MachineEvidence;
}

/** Share of buildings of several dwellings whose dwellings were renewed as one, by one owner; in the others each went
 * its own way, given the owners' factors and the build year (common practice). */
export const TOGETHER = 0.5;

/** Drafts of the systems that a house may have, in each of its parts. */
export function draftAll(
  index: BaseIndex,
  house: House,
  without: ReadonlySet<string>,
  systems: Entry<System>[],
): Draft[] {
  return house.parts
    .flatMap((part, i) =>
      systems
        .filter((system) => i === 0 || system.scope === 'part')
        .map((system) => draft(index, house, part, system, without)),
    )
    .filter((d) => d.applies > 0);
}

export function draft(
  index: BaseIndex,
  house: House,
  part: Part,
  system: Entry<System>,
  without: ReadonlySet<string>,
): Draft {
  const nodes = systemKernels(index, house, part, system);
  const clues = house.clues.flatMap(({ id, year, part: where, unit }) => {
    const clue = index.clues.get(id);
    const here = clue?.system === system.id && (where === part.name || system.scope !== 'part');
    return clue !== undefined && here && !without.has(id) ? [{ clue, year, unit }] : [];
  });
  const implied = house.clues.flatMap((c) => (c.impliedBy === undefined ? [] : [c.id]));
  const repeats = clues.some(({ clue }) => implied.includes(clue.id));
  const fits = inputFits(index, house, part, system);
  const applies = whenOdds(system.when, house, part);
  const follow = likeForLike(index, house.place.state, system, middleOf(nodes).kernels);
  const own = { system, part, applies, clues, nodes, likeForLike: follow };
  const bare = machineless(index, system.id, middleOf(nodes).kernels.ids);
  const weigh = (met: MetClue[][]): Weighed => weighed(part, nodes, met, fits, follow, bare);
  const count = system.scope === 'unit' ? house.units : 1;
  // A clue that names no dwelling was met in the first.
  const named = [...new Set(clues.map((c) => c.unit))];
  const byUnit = named.map((unit) => clues.filter((c) => c.unit === unit));
  const together = weigh(count === 1 ? [clues] : byUnit);
  // What a sight says of the build year and the owners it has said by the clue that was told.
  const toldAlone = repeats ? draft(index, house, part, system, new Set([...without, ...implied])).z : null;
  if (count === 1)
    return { ...own, together, apart: null, z: toldAlone ?? together.backs.map((back) => back.z) };
  const apart = named.map((unit, i): Apart => ({ weighed: weigh([byUnit[i] ?? []]), units: [unit] }));
  const others = Array.from({ length: count }, (_, i) => i + 1).filter((unit) => !named.includes(unit));
  if (others.length > 0) apart.push({ weighed: weigh([[]]), units: others });
  return {
    ...own,
    together,
    apart,
    z: toldAlone ?? together.backs.map((_, node) => jointLikelihood(together, apart, node)),
  };
}

/** Likelihood of what is known of all dwellings, renewed as one or apart, for every build year. */
function jointLikelihood(together: Weighed, apart: Apart[], node: number): Float64Array {
  const asOne = together.backs[node]?.z ?? new Float64Array();
  return asOne.map((z, t) => TOGETHER * z + (1 - TOGETHER) * likelihoodApart(apart, node, t));
}

/** Likelihood of what is known of the dwellings, each by itself, for a house of year index t. */
export function likelihoodApart(apart: Apart[], node: number, t: number): number {
  let product = 1;
  for (const { weighed, units } of apart)
    for (let i = 0; i < units.length; i++) product *= weighed.backs[node]?.z[t] ?? 1;
  return product;
}

/** The evidence depends on the kernels, the clues and what the inputs rule out: kept, so that the next question
 * about the same house costs no pass. */
const kept = new WeakMap<NodeKernels[], Map<string, Weighed>>();
const MOST_KEPT = 50;

/** `clues` are in groups that are read apart from each other: of two dwellings, each tells by itself. */
function weighed(
  part: Part,
  nodes: NodeKernels[],
  clues: MetClue[][],
  fits: number[] | null,
  follow: LikeForLike | null,
  bare: ReadonlySet<number>,
): Weighed {
  if (clues.every((group) => group.length === 0) && fits === null)
    return { evidence: NO_EVIDENCE, backs: [] };
  const { kernels } = middleOf(nodes);
  const built = part.built.years[Math.floor(part.built.years.length / 2)]?.value ?? kernels.from;
  const key = `${built} ${fits} ${clues.map((group) => group.map(({ clue, year }) => `${clue.id}=${year}`).join()).join('/')}`;
  const cache = kept.get(nodes) ?? new Map<string, Weighed>();
  kept.set(nodes, cache);
  const ready = cache.get(key);
  if (ready !== undefined) return ready;
  if (cache.size > MOST_KEPT) cache.clear();
  const inputs = fits === null ? null : inputWeights(kernels, fits);
  let evidence: Evidence = { reachable: inputs, hidden: inputs, records: [] };
  const before = expected(nodes, follow, bare, built - kernels.from);
  for (const group of clues) {
    const { records, ...weights } = clueEvidence(kernels, group, evidence, before);
    evidence = { ...weights, records: [...evidence.records, ...records].sort((a, b) => a.year - b.year) };
  }
  const machine = { weights: evidence.reachable, records: evidence.records };
  if (follow !== null) evidence = follow.ofKinds(evidence);
  const backs = hasEvidence(evidence) ? nodes.map((node) => backward(node.kernels, evidence)) : [];
  const made = { evidence, backs, ...(follow === null ? {} : { machine }) };
  cache.set(key, made);
  return made;
}

/** Weight of a material that the inputs rule out: kept above zero, since inputs can be wrong. */
const IMPOSSIBLE = 1e-4;

/** Known inputs rule materials out. Unknown ones leave the shares as they are: the shares speak for them. Null if
 * they rule out none. */
function inputFits(index: BaseIndex, house: House, part: Part, system: Entry<System>): number[] | null {
  if (!askedByInputs(index, system)) return null;
  const materials = index.materialsOf.get(system.id) ?? [];
  const fits = materials.map(({ when }) =>
    when === undefined || whenOdds(when, house, part) > 0 ? 1 : IMPOSSIBLE,
  );
  return fits.every((f) => f === 1) ? null : [...fits, 1];
}

/** Whether an input may rule out a material of the system. */
export function askedByInputs(index: BaseIndex, system: Entry<System>): boolean {
  return index.materialsOf.get(system.id)?.some((m) => m.when !== undefined) ?? false;
}

function inputWeights(kernels: Kernels, fits: number[]): Float64Array[] {
  return fits.map((f) => new Float64Array(kernels.last + 1).fill(f));
}
