import type { Clue } from '../../knowledge/schema/clue.ts';
import type { BaseIndex } from '../../planner/base-index.ts';
import { chanceIn } from '../../planner/belief/built-clues.ts';
import { clueEvidence } from '../../planner/belief/clue-evidence.ts';
import { CLAMP } from '../../planner/belief/evidence.ts';
import { type Kernels, survival } from '../../planner/belief/kernels.ts';
import { nodeIn } from '../../planner/belief/mixture.ts';
import { nodePairs, spreadsOf } from '../../planner/belief/renewing.ts';
import { systemKernels } from '../../planner/belief/system-kernels.ts';
import type { House, HouseInput, Odds } from '../../planner/house/house.ts';
import { stockByYear } from '../../planner/house/priors.ts';
import { resolveHouse } from '../../planner/house/resolve.ts';
import { random } from '../../planner/numerics/sampling.ts';

/** A house made by the model itself: its true year and what a visitor told of it. */
export interface SampledHouse {
  built: number;
  house: House;
}

/** How a sample is drawn. */
export interface SampleOptions {
  count: number;
  seed: number;
  states: string[];
  asOf: number;
  /** Groups of clues looked for, from and to. */
  looks: [number, number];
  /** Only houses in which everything looked for was met, so that silence hides nothing. */
  allMet: boolean;
}

const OLDEST = 1800;

/** Houses whose year is drawn from the stock of their state, whose owners and history are drawn from the renewal
 * model, and whose clues are met with the chances the base gives. Of each group looked into, one clue is looked for;
 * only what is met is told, as a person would. Dated papers are not drawn; nameplates are. */
export function sampleHouses(index: BaseIndex, options: SampleOptions): SampledHouse[] {
  const next = random(options.seed);
  const groups = lookGroups(index);
  const houses: SampledHouse[] = [];
  const empty = new Map(options.states.map((state) => [state, emptyHouse(index, state, options.asOf)]));
  for (let i = 0; houses.length < options.count; i++) {
    const state = options.states[i % options.states.length] ?? '';
    const blank = empty.get(state);
    if (blank === undefined) continue;
    const built = draw(stockByYear(index.base, state, OLDEST, options.asOf), next);
    const [fewest, most] = options.looks;
    const looks = fewest + Math.floor(next() * (most - fewest + 1));
    const clues = meet(index, blank, built, some(groups, looks, next), next);
    if (clues.length === 0 || (options.allMet && clues.length < looks)) continue;
    houses.push({ built, house: { ...blank, clues } });
  }
  return houses;
}

function emptyHouse(index: BaseIndex, state: string, asOf: number): House {
  const input: HouseInput = { asOf, place: state, parts: [{ built: OLDEST }] };
  const read = resolveHouse(index.base, input);
  if ('problems' in read) throw new RangeError(`cannot read an empty house in ${state}`);
  return read.house;
}

/** Clues that can date, by system and group, without dated papers. */
function lookGroups(index: BaseIndex): Clue[][] {
  const groups = new Map<string, Clue[]>();
  for (const clue of index.base.clues) {
    if (clue.dated?.kind === 'record' || !speaks(clue)) continue;
    const key = `${clue.built === undefined ? clue.system : ''} ${clue.group}`;
    groups.set(key, [...(groups.get(key) ?? []), clue]);
  }
  return [...groups.values()];
}

function speaks({ reads, installed, dated, built }: Clue): boolean {
  return Object.keys(reads).length > 0 || [installed, dated, built].some((x) => x !== undefined);
}

/** Which of the groups' clues are met in one house drawn from the model, as it stands today. */
function meet(
  index: BaseIndex,
  house: House,
  built: number,
  groups: Clue[][],
  next: () => number,
): House['clues'] {
  const part = house.parts[0];
  if (part === undefined) throw new RangeError('a house has no part');
  const pairs = nodePairs(spreadsOf(index.base));
  const owners = draw(
    pairs.map((value) => ({ value, p: value.weight })),
    next,
  );
  const today = new Map<string, { kernels: Kernels; portions: Portions }>();
  return groups.flatMap((group) => {
    const clue = group[Math.floor(next() * group.length)];
    if (clue === undefined) return [];
    let year: number | null = null;
    let chance = clue.built === undefined ? 1 : chanceIn(clue.built, built);
    if (Object.keys(clue.reads).length > 0 || clue.installed !== undefined || clue.dated !== undefined) {
      const system = index.systems.get(clue.system);
      if (system === undefined) return [];
      const nodes = systemKernels(index, house, part, system);
      const kernels = nodes[nodeIn(system.renewedWith, nodes.length, owners)]?.kernels;
      if (kernels === undefined) return [];
      const found = today.get(system.id) ?? { kernels, portions: history(kernels, built, next) };
      today.set(system.id, found);
      chance *= chanceOf(kernels, clue, found.portions);
      if (clue.dated !== undefined) {
        const plate = plateYears(kernels, found.portions.reachable);
        chance *= plate.reduce((sum, y) => sum + y.p, 0);
        year = draw(plate, next);
      }
    }
    return next() < chance ? [{ id: clue.id, year, part: part.name, unit: 1 }] : [];
  });
}

/** Chance of meeting a clue given what the portions are, in the proportions that the planner's evidence has. */
function chanceOf(kernels: Kernels, clue: Clue, { reachable, hidden }: Portions): number {
  const none = { reachable: null, hidden: null };
  const weights = clueEvidence(kernels, [{ clue, year: null }], none, () => ({ complete: 0, partial: 0 }));
  const readings = [clue.reads.reachable, clue.reads.hidden].flatMap((r) => Object.values(r ?? {}));
  const highest = Math.max(...readings, clue.installed?.inside ?? 0, clue.installed?.outside ?? 0);
  const at = (table: Float64Array[] | null, p: Piece): number => table?.[p.material]?.[p.year] ?? 1;
  return (highest > 0 ? highest : 1) * at(weights.reachable, reachable) * at(weights.hidden, hidden);
}

/** Years that a nameplate may be read to say, in the proportions that the planner's evidence has: within a year of the
 * piece, any other year 200 times less often. Adds to 1 where there is a piece. */
function plateYears(kernels: Kernels, { material, year }: Piece): Odds<number> {
  const isPiece = kernels.ids[material] !== 'none';
  const odds = Array.from({ length: kernels.last + 1 }, (_, t) => ({
    value: kernels.from + t,
    p: isPiece && Math.abs(t - year) <= 1 ? 1 : 1 / CLAMP,
  }));
  const most = 3 + (kernels.last - 2) / CLAMP;
  return odds.map((y) => ({ ...y, p: y.p / most }));
}

interface Piece {
  material: number;
  year: number;
}

interface Portions {
  hidden: Piece;
  reachable: Piece;
}

/** One history year by year, from the words of docs/model.md, section 1. */
function history(kernels: Kernels, built: number, next: () => number): Portions {
  const put = (rows: Float64Array[], year: number): Piece => {
    const odds = rows.map((row, value) => ({ value, p: row[year] ?? 0 }));
    return { material: draw(odds, next), year };
  };
  const rings = (clock: Kernels['complete'], { material, year }: Piece, t: number): boolean => {
    const before = survival(clock, material, year, t - 1);
    return next() >= (before > 0 ? survival(clock, material, year, t) / before : 0);
  };
  const first = put(kernels.sNew, built - kernels.from);
  let portions: Portions = { hidden: first, reachable: first };
  for (let t = first.year + 1; t <= kernels.last; t++) {
    const whole = rings(kernels.complete, portions.hidden, t);
    const part = rings(kernels.partial, portions.reachable, t);
    if (!whole && !part) continue;
    const piece = put(kernels.sRen, t);
    portions = { hidden: whole ? piece : portions.hidden, reachable: piece };
  }
  return portions;
}

/** Draws a value by its odds, which need not add to 1. */
function draw<T>(odds: Odds<T>, next: () => number): T {
  let left = next() * odds.reduce((sum, o) => sum + o.p, 0);
  const found = odds.find((o) => {
    left -= o.p;
    return left < 0;
  });
  const value = found ?? odds.at(-1);
  if (value === undefined) throw new RangeError('nothing to draw from');
  return value.value;
}

function some<T>(all: T[], count: number, next: () => number): T[] {
  const left = [...all];
  return Array.from({ length: Math.min(count, all.length) }, () =>
    left.splice(Math.floor(next() * left.length), 1),
  ).flat();
}
