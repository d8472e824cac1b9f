import type { Base, Entry } from '../../knowledge/schema/base.ts';
import type { Material } from '../../knowledge/schema/material.ts';
import type { System } from '../../knowledge/schema/system.ts';
import { nodesOf, type RenewingNode, spreadsOf } from '../../planner/belief/renewing.ts';
import type { TestedSystem } from './ames.ts';
import { ClassLoss, type Count } from './class-loss.ts';
import { minimise } from './minimise.ts';
import { type Design, Parameters, type Process } from './parameters.ts';

export const FROM = 1870;
/** Houses were seen when sold, 2006 to 2010; the fit takes the middle year for all. */
export const SEEN = 2008;
const ITERATIONS = 400;

/** A house as a fit sees it. */
export interface FitRow {
  built: number;
  /** Class recorded. */
  name: string;
}

/** A tested system with its entries of the base. */
export interface FitSubject {
  tested: TestedSystem;
  system: Entry<System>;
  materials: Entry<Material>[];
  /** Kinds of owner that its chances are mixed over. */
  nodes: RenewingNode[];
}

export function fitSubject(base: Base, tested: TestedSystem): FitSubject {
  const system = base.systems.find((s) => s.id === tested.system);
  if (system === undefined) throw new Error(`knowledge/systems/${tested.system}.mdx is not there`);
  return {
    tested,
    system,
    materials: base.materials.filter((m) => m.system === system.id),
    nodes: nodesOf(spreadsOf(base), system),
  };
}

/** The process that is likeliest given the rows, the priors being centred on the authored tables. */
export function fitProcess(
  { tested, system, materials, nodes }: FitSubject,
  rows: readonly FitRow[],
  design: Design,
): Process {
  const start: Process = {
    shares: system.shares,
    lives: Object.fromEntries(materials.map((m) => [m.id, m.life.best])),
    waves: system.waves,
  };
  const parameters = new Parameters(start, design);
  const names = Object.keys(tested.classes);
  const ids = [...materials.map((m) => m.id), 'none'];
  const likelihood = new ClassLoss(
    materials,
    Object.values(tested.classes),
    countsOf(rows, names),
    { from: FROM, asOf: SEEN },
    nodes,
  );
  let slope: Float64Array = new Float64Array(0);
  const objective = (x: Float64Array): number => {
    const by = likelihood.at(parameters.apply(x));
    const prior = parameters.penalty(x);
    const own = parameters.slope(x, by, ids, FROM);
    slope = own.map((v, i) => v + (prior.slope[i] ?? 0));
    return by.loss + prior.value;
  };
  // The minimiser asks for the slope where it last asked for the value.
  const { x } = minimise(objective, new Float64Array(parameters.length), {
    iterations: ITERATIONS,
    slope: () => slope,
  });
  return parameters.apply(x);
}

/** Index of a build year in tables from FROM to SEEN; years outside count as the nearest. */
export function yearIndex(built: number): number {
  return Math.min(SEEN - FROM, Math.max(0, built - FROM));
}

/** Houses counted by build year and class. */
export function countsOf(rows: readonly FitRow[], names: string[]): Count[] {
  const counts = new Map<string, Count>();
  for (const { built, name } of rows) {
    const at = yearIndex(built);
    const of = names.indexOf(name);
    const count = counts.get(`${at} ${of}`) ?? { built: at, of, n: 0 };
    count.n++;
    counts.set(`${at} ${of}`, count);
  }
  return [...counts.values()];
}
