import type { Backward } from './backward.ts';
import type { Weighed } from './draft.ts';
import { type Evidence, NO_EVIDENCE } from './evidence.ts';
import { FlatTables } from './flat-tables.ts';
import { forward, type Posterior } from './forward.ts';
import type { Kernels } from './kernels.ts';
import { middleOf, type NodeKernels } from './system-kernels.ts';

/** A system's tables mixed over its nodes and the build years (as indices); `odds` is [node][year], adds to 1. */
export function mixedTables(
  nodes: NodeKernels[],
  years: number[],
  odds: number[][],
  { evidence, backs }: Weighed,
): Posterior {
  if (backs.length === 0) return unweighed(nodes, years, odds);
  return mix(
    nodes,
    nodes.map(({ kernels }, i) => {
      const back = backs[i];
      const row = odds[i] ?? [];
      const weight = row.reduce((sum, p) => sum + p, 0);
      const ofKind = weight > 0 ? row.map((p) => p / weight) : row;
      if (back === undefined) throw new RangeError('a kind of owner has no backward pass');
      return { tables: weighedOfOneKind(kernels, evidence, back, years, ofKind), weight };
    }),
  );
}

/** Tables with evidence for one kind of owner, by the odds of the build years: the last ones, by the pass behind them. The
 * passes are linear in the weight of the kind, so that a clue of another system costs none. */
const keptWeighed = new WeakMap<Backward, Kept<FlatTables>>();

function weighedOfOneKind(
  kernels: Kernels,
  evidence: Evidence,
  back: Backward,
  years: number[],
  odds: number[],
): FlatTables {
  const kept = keptWeighed.get(back);
  if (kept !== undefined && same(kept.odds, odds) && same(kept.years, years)) return kept.tables;
  const entries = years.map((t, k) => {
    const z = back.z[t] ?? 0;
    return z > 0 ? (odds[k] ?? 0) / z : 0;
  });
  const tables = forward(kernels, evidence, years, entries, back);
  keptWeighed.set(back, { years, odds, tables });
  return tables;
}

interface Kept<T> {
  years: number[];
  odds: number[];
  tables: T;
}

/** Tables of a system without evidence, by the weights they were mixed with: the last few. */
const keptMixed = new WeakMap<NodeKernels[], Kept<Posterior>[]>();
const MOST_KEPT = 3;

function unweighed(nodes: NodeKernels[], years: number[], odds: number[][]): Posterior {
  const all = odds.flat();
  const kept = keptMixed.get(nodes) ?? [];
  keptMixed.set(nodes, kept);
  const ready = kept.find((k) => same(k.odds, all) && same(k.years, years));
  if (ready !== undefined) return ready.tables;
  const tables = mix(
    nodes,
    nodes.map(({ kernels }, i) => {
      const row = odds[i] ?? [];
      const weight = row.reduce((sum, p) => sum + p, 0);
      return { tables: ofOneKind(kernels, years, weight > 0 ? row.map((p) => p / weight) : row), weight };
    }),
  );
  kept.push({ years, odds: all, tables });
  if (kept.length > MOST_KEPT) kept.shift();
  return tables;
}

/** Tables for one kind of owner, by the odds of the build years: the last ones. A clue of another system moves the
 * weights of the kinds but, where the year is known, not these. */
const keptOfOneKind = new WeakMap<Kernels, Kept<FlatTables>>();

function ofOneKind(kernels: Kernels, years: number[], odds: number[]): FlatTables {
  const kept = keptOfOneKind.get(kernels);
  if (kept !== undefined && same(kept.odds, odds) && same(kept.years, years)) return kept.tables;
  const tables = forward(kernels, NO_EVIDENCE, years, odds, null);
  keptOfOneKind.set(kernels, { years, odds, tables });
  return tables;
}

function same(a: number[], b: number[]): boolean {
  return a.length === b.length && a.every((v, i) => v === b[i]);
}

function mix(nodes: NodeKernels[], of: { tables: FlatTables; weight: number }[]): Posterior {
  const [only] = of;
  if (of.length === 1 && only?.weight === 1) return only.tables.rows();
  const { kernels } = middleOf(nodes);
  const sum = new FlatTables(kernels.ids.length, kernels.last + 1);
  for (const { tables, weight } of of) sum.add(tables, weight);
  return sum.rows();
}
