import type { Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import type { Form, House, Part } from '../house/house.ts';
import { fitOf, formFactors, knownForm, paceOf, placeFactors, shareFactors, wavesAt } from './fit-of.ts';
import { type Kernels, kernelsByNode } from './kernels.ts';
import { nodesOf, spreadsOf } from './renewing.ts';

/** A system's renewal process at one node of its owners' factor. */
export interface NodeKernels {
  kernels: Kernels;
  /** Weight of the node before any evidence. */
  weight: number;
}

const kept = new WeakMap<BaseIndex, Map<string, NodeKernels[]>>();
/** Kernels of more places and years than this are not kept at once. */
const MOST_KEPT = 200;

/** Kernels depend on the place, the years and a known form alone; a clue leaves them as they are. */
export function systemKernels(
  index: BaseIndex,
  house: House,
  part: Part,
  system: Entry<System>,
): NodeKernels[] {
  const from = Math.min(...part.built.years.map((y) => y.value));
  const state = house.place.state;
  // A form that tells nothing of the system shares the kernels of an open one.
  const known = knownForm(house);
  const form = formFactors(index, system, state, known) === undefined ? null : known;
  const key = `${system.id} ${state} ${from} ${house.asOf} ${form}`;
  const cache = kept.get(index) ?? new Map<string, NodeKernels[]>();
  kept.set(index, cache);
  const ready = cache.get(key);
  if (ready !== undefined) return ready;
  if (cache.size > MOST_KEPT) cache.clear();
  const made = makeAll(index, { state, form }, system, from, house.asOf);
  cache.set(key, made);
  return made;
}

function makeAll(
  index: BaseIndex,
  { state, form }: { state: string | null; form: Form | null },
  system: Entry<System>,
  from: number,
  asOf: number,
): NodeKernels[] {
  const fit = fitOf(index.base, system.id, state);
  const materials = (index.materialsOf.get(system.id) ?? []).map((m) => ({
    id: m.id,
    life: fit?.lives[m.id] ?? m.life.best,
    shape: m.shape,
    whole: m.whole,
  }));
  const onShares = shareFactors(index, system, state, form);
  const { shares, waves } = fit ?? system;
  const process = { shares, waves: wavesAt(waves, paceOf(placeFactors(index, system, state))) };
  const nodes = nodesOf(spreadsOf(index.base), system);
  const renewing = nodes.map((node) => node.factor);
  return kernelsByNode(process, materials, from, asOf, onShares, renewing).map((kernels, i) => ({
    kernels,
    weight: nodes[i]?.weight ?? 0,
  }));
}

/** Of the kinds of owner the middle one. */
export function middleOf<T>(nodes: T[]): T {
  const node = nodes[Math.floor(nodes.length / 2)];
  if (node === undefined) throw new RangeError('a system has no node');
  return node;
}
