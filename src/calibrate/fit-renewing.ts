import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import type { Fit } from '../../knowledge/schema/fit.ts';
import type { Renewing } from '../../knowledge/schema/renewing.ts';
import { fitOf } from '../../planner/belief/fit-of.ts';
import { nodePairs, renewingNodes, type Spreads } from '../../planner/belief/renewing.ts';
import { readTable, textOf } from '../csv/read-table.ts';
import { AMES_SYSTEMS, type AmesHouse } from './ames.ts';
import { classChances } from './likelihood.ts';

/** Houses built from 1958 on have breakers and, most of them, central air: they say nothing of their owners. */
const BEFORE = 1958;
const FROM = 1870;
const SEEN = 2008;

/** The spread of the outside factor is common practice: of the works that owners do outside, these records tell one
 * alone, the cladding, and one tells no spread. */
const OUTSIDE = { best: 0.5, low: 0.2, high: 0.9, grade: 'practice' as const, source: [] };

/** Something that an owner who renews does away with. */
interface Left {
  name: string;
  factor: 'inside' | 'outside';
  /** Whether it is still there; null where the record does not say. */
  seen: (boolean | null)[];
  /** Chance that it is still there in a house of a year, by the factor of its owners. */
  chance: (built: number, factor: number) => number;
}

/** Estimates how much owners differ in renewing from what old houses still have side by side: a fuse panel, no
 * central cooling, an ordinary kitchen, the old cladding. Margins by decade are those of the records whatever the
 * spread, so that the spread explains nothing but what stands together. Rows kept out of the fits are left out here
 * too. Maximum likelihood on a grid; low and high hold the likelihood-ratio interval of 90%. */
export function fitRenewing(base: Base, houses: AmesHouse[], folder: string, made: Fit['made']): Renewing {
  const kitchens = ordinaryKitchens(folder);
  const rows = houses.flatMap((house, i) =>
    house.held || house.built >= BEFORE ? [] : [{ ...house, kitchen: kitchens[i] ?? null }],
  );
  const built = rows.map((r) => r.built);
  const classSeen = (system: string, names: string[]): (boolean | null)[] =>
    rows.map(({ classes }) => {
      const name = classes[system];
      return name === null || name === undefined ? null : names.includes(name);
    });
  const left: Left[] = [
    {
      name: 'fuse panel',
      factor: 'inside',
      seen: classSeen('service-equipment', ['fuse']),
      chance: chanceOf(base, 'service-equipment', ['fuse']),
    },
    {
      name: 'no central cooling',
      factor: 'inside',
      seen: classSeen('cooling', ['none']),
      chance: chanceOf(base, 'cooling', ['none']),
    },
    {
      name: 'ordinary kitchen',
      factor: 'inside',
      seen: rows.map((r) => r.kitchen),
      // No system stands for it: an ordinary kitchen goes by its owners' will alone, at a pace that the margins give.
      chance: (_, factor) => Math.exp(-factor),
    },
    {
      name: 'old cladding',
      factor: 'outside',
      seen: classSeen('cladding', OLD_CLADDING),
      chance: chanceOf(base, 'cladding', OLD_CLADDING),
    },
  ];
  const inside = left.filter((l) => l.factor === 'inside');
  const spread = best(range(0, 2.5, 0.02), (s) => logLikelihood(inside, built, { ...NONE, inside: s }));
  const correlation = best(range(-0.5, 0.5, 0.02), (r) =>
    logLikelihood(left, built, { inside: spread.best, outside: OUTSIDE.best, correlation: r }),
  );
  // While the records do not tell it from 0 it is taken as 0: inside works then say nothing of outside ones.
  if (correlation.low <= 0 && correlation.high >= 0) correlation.best = 0;
  const backing = { grade: 'measured' as const, source: [made.source] };
  return {
    inside: { ...spread, ...backing },
    outside: OUTSIDE,
    correlation: { ...correlation, ...backing },
    made: { ...made, rows: rows.length },
  };
}

const NONE: Spreads = { inside: 0, outside: 0, correlation: 0 };
const OLD_CLADDING = ['wood', 'wood shingle', 'asbestos-cement'];

/** Whether each row of the records names a kitchen of average finish or less; in the order of the file. */
function ordinaryKitchens(folder: string): (boolean | null)[] {
  return readTable(join(folder, 'ames-train.csv')).map((row) => {
    const quality = textOf(row, 'Kitchen Qual');
    return quality === '' ? null : ['TA', 'Fa', 'Po'].includes(quality);
  });
}

/** Chance of one of the classes in a house of a year from the planner's own process, by the factor of its owners. */
function chanceOf(base: Base, id: string, names: string[]): Left['chance'] {
  const system = base.systems.find((s) => s.id === id);
  const tested = AMES_SYSTEMS.find((s) => s.system === id);
  if (system === undefined || tested === undefined) throw new Error(`no system ${id} to read chances of`);
  const fit = fitOf(base, id, 'IA');
  const materials = base.materials.filter((m) => m.system === id);
  const process = {
    shares: fit?.shares ?? system.shares,
    lives: fit?.lives ?? Object.fromEntries(materials.map((m) => [m.id, m.life.best])),
    waves: fit?.waves ?? system.waves,
  };
  const members = names.flatMap((name) => tested.classes[name] ?? []);
  const made = new Map<number, Float64Array>();
  return (built, factor) => {
    const row =
      made.get(factor) ??
      classChances(process, materials, { left: members }, FROM, SEEN, [{ factor, weight: 1 }]).left;
    if (row === undefined) return 0;
    made.set(factor, row);
    return row[Math.max(0, built - FROM)] ?? 0;
  };
}

/** Log-likelihood of everything left in every house, over owners of all kinds. */
function logLikelihood(left: Left[], built: number[], spreads: Spreads): number {
  const nodes = {
    inside: renewingNodes(spreads.inside),
    outside: renewingNodes(spreads.outside),
  };
  const chances = left.map((one) =>
    matched(
      one,
      built,
      nodes[one.factor].map((n) => n.factor),
      nodes[one.factor].map((n) => n.weight),
    ),
  );
  const pairs = nodePairs(spreads);
  let sum = 0;
  for (let i = 0; i < built.length; i++) {
    let house = 0;
    for (const pair of pairs) {
      let both = pair.weight;
      left.forEach((one, k) => {
        const p = chances[k]?.[pair[one.factor]]?.[i] ?? 0;
        const seen = one.seen[i];
        if (seen !== null && seen !== undefined) both *= seen ? p : 1 - p;
      });
      house += both;
    }
    sum += Math.log(Math.max(house, 1e-300));
  }
  return sum;
}

/** Chances by node and house, shifted in each decade so that over all owners they add to what the records count: in
 * log-odds, or for what goes by will alone in the logarithm of its pace. */
function matched(one: Left, built: number[], factors: number[], weights: number[]): number[][] {
  const result = factors.map(() => new Array<number>(built.length).fill(0));
  for (const decade of new Set(built.map(decadeOf))) {
    const own = built.flatMap((year, i) => (decadeOf(year) === decade && one.seen[i] != null ? [i] : []));
    const there = own.filter((i) => one.seen[i] === true).length;
    const wanted = (there + 0.5) / (own.length + 1);
    const shifted = (i: number, n: number, shift: number): number => {
      const p = Math.min(1 - 1e-9, Math.max(1e-9, one.chance(built[i] ?? 0, factors[n] ?? 1)));
      return one.name === 'ordinary kitchen'
        ? Math.exp(-(factors[n] ?? 1) * Math.exp(-shift))
        : 1 / (1 + (1 / p - 1) * Math.exp(-shift));
    };
    const mean = (shift: number): number =>
      own.reduce(
        (sum, i) => sum + factors.reduce((a, _, n) => a + (weights[n] ?? 0) * shifted(i, n, shift), 0),
        0,
      ) / own.length;
    let [low, high] = [-12, 12];
    for (let step = 0; step < 50; step++) {
      const middle = (low + high) / 2;
      if (mean(middle) < wanted) low = middle;
      else high = middle;
    }
    built.forEach((year, i) => {
      if (decadeOf(year) === decade)
        factors.forEach((_, n) => {
          const row = result[n];
          if (row !== undefined) row[i] = shifted(i, n, (low + high) / 2);
        });
    });
  }
  return result;
}

/** Few houses are older than 1910: they are one group. */
function decadeOf(year: number): number {
  return Math.max(190, Math.floor(year / 10));
}

/** The likeliest value of a grid, with the ends of the 90% likelihood-ratio interval. */
function best(grid: number[], f: (x: number) => number): { best: number; low: number; high: number } {
  const values = grid.map(f);
  const top = Math.max(...values);
  const within = grid.filter((_, i) => (values[i] ?? 0) >= top - 1.353);
  return {
    best: grid[values.indexOf(top)] ?? 0,
    low: within[0] ?? 0,
    high: within.at(-1) ?? 0,
  };
}

function range(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) =>
    Number((from + i * step).toFixed(4)),
  );
}
