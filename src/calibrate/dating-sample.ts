import type { Clue } from '../../knowledge/schema/clue.ts';
import type { BaseIndex } from '../../planner/base-index.ts';
import { chanceIn } from '../../planner/belief/built-clues.ts';
import { clueEvidence, OTHER_PLATE } from '../../planner/belief/clue-evidence.ts';
import { type Expected, expected } from '../../planner/belief/expected.ts';
import { type Kernels, survival } from '../../planner/belief/kernels.ts';
import { type LikeForLike, likeForLike } from '../../planner/belief/like-for-like.ts';
import { machineless } from '../../planner/belief/machineless.ts';
import { nodeIn } from '../../planner/belief/mixture.ts';
import { NOT, notMet } from '../../planner/belief/not-met.ts';
import { type NodePair, nodePairs, spreadsOf } from '../../planner/belief/renewing.ts';
import { middleOf, systemKernels } from '../../planner/belief/system-kernels.ts';
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
  /** What was looked for and not met is told too, where that can be told. */
  missedToo: boolean;
}

const OLDEST = 1800;

/** Houses whose year is drawn from the stock of their state, whose owners and history are drawn from the renewal
 * model, and whose clues are met with the chances the base gives. Of each group looked into, one clue is looked for.
 * Dated papers are not drawn; nameplates are. */
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
    const clues = meet(index, blank, built, some(groups, looks, next), options.missedToo, next);
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

/** What is told of one house drawn from the model, as it stands today: which of the groups' clues are met, and, if
 * `missedToo`, which are not. */
function meet(
  index: BaseIndex,
  house: House,
  built: number,
  groups: Clue[][],
  missedToo: boolean,
  next: () => number,
): House['clues'] {
  const part = house.parts[0];
  if (part === undefined) throw new RangeError('a house has no part');
  const pairs = nodePairs(spreadsOf(index.base));
  const owners = draw(
    pairs.map((value) => ({ value, p: value.weight })),
    next,
  );
  const today = new Map<string, { process: Process; portions: Portions }>();
  return groups.flatMap((group) => {
    const clue = group[Math.floor(next() * group.length)];
    if (clue === undefined) return [];
    let year: number | null = null;
    let chance = clue.built === undefined ? 1 : chanceIn(clue.built, built);
    if (Object.keys(clue.reads).length > 0 || clue.installed !== undefined || clue.dated !== undefined) {
      const process = processOf(index, house, part, clue.system, owners);
      if (process === null) return [];
      const found = today.get(clue.system) ?? { process, portions: history(process, built, next) };
      today.set(clue.system, found);
      chance *= chanceOf(process, clue, found.portions);
      if (clue.dated !== undefined) {
        const plate = plateYears(process, found.portions.reachable);
        chance *= plate.reduce((sum, y) => sum + y.p, 0);
        year = draw(plate, next);
      }
    }
    const met = next() < chance;
    const id = met ? clue.id : `${NOT}${clue.id}`;
    return met || (missedToo && notMet(clue) !== null) ? [{ id, year, part: part.name, unit: 1 }] : [];
  });
}

/** How a system of a house of these owners came to be what it is. */
interface Process {
  kernels: Kernels;
  /** How its machines follow each other; null: its pieces are what the process puts in. */
  follow: LikeForLike | null;
  /** What the planner expects of such a house, as it weighs a nameplate. */
  before: Expected;
}

const expectations = new WeakMap<object, Expected>();

function processOf(
  index: BaseIndex,
  house: House,
  part: House['parts'][number],
  id: string,
  owners: NodePair,
): Process | null {
  const system = index.systems.get(id);
  if (system === undefined) return null;
  const nodes = systemKernels(index, house, part, system);
  const kernels = nodes[nodeIn(system.renewedWith, nodes.length, owners)]?.kernels;
  if (kernels === undefined) return null;
  const follow = likeForLike(index, house.place.state, system, middleOf(nodes).kernels);
  const before = expectations.get(nodes) ?? expected(nodes, follow, machineless(index, id, kernels.ids), 0);
  expectations.set(nodes, before);
  return { kernels, follow, before };
}

/** Chance of meeting a clue given what the portions are, in the proportions that the planner's evidence has. */
function chanceOf({ kernels, before }: Process, clue: Clue, { reachable, hidden }: Portions): number {
  const none = { reachable: null, hidden: null };
  const weights = clueEvidence(kernels, [{ clue, year: null }], none, before);
  const readings = [clue.reads.reachable, clue.reads.hidden].flatMap((r) => Object.values(r ?? {}));
  const highest = Math.max(...readings, clue.installed?.inside ?? 0, clue.installed?.outside ?? 0);
  const at = (table: Float64Array[] | null, p: Piece): number => table?.[p.material]?.[p.year] ?? 1;
  return (highest > 0 ? highest : 1) * at(weights.reachable, reachable) * at(weights.hidden, hidden);
}

/** Years that a nameplate may be read to say: within a year of the machine, or that of another machine in such a house, in
 * the proportions that the planner's evidence has. Adds to 1 where there is a machine. */
function plateYears({ kernels, before }: Process, { material, machine }: Piece): Odds<number> {
  const other = (t: number): number => (before.ofYear(t - 1) + before.ofYear(t) + before.ofYear(t + 1)) / 3;
  return Array.from({ length: kernels.last + 1 }, (_, t) => {
    const own = Math.abs(t - machine) <= 1 ? (1 - OTHER_PLATE) / 3 : 0;
    const said = own + OTHER_PLATE * other(t);
    return { value: kernels.from + t, p: before.bare.has(material) ? said / 200 : said };
  });
}

interface Piece {
  material: number;
  year: number;
  /** Year of the machine, which may have followed others of its kind. */
  machine: number;
}

interface Portions {
  hidden: Piece;
  reachable: Piece;
}

/** One history year by year, from the words of docs/model.md, section 1. */
function history({ kernels, follow }: Process, built: number, next: () => number): Portions {
  const put = (rows: Float64Array[], year: number): Piece => {
    const odds = rows.map((row, value) => ({ value, p: row[year] ?? 0 }));
    return { material: draw(odds, next), year, machine: year };
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
  if (follow === null) return portions;
  return {
    ...portions,
    reachable: { ...portions.reachable, machine: machineOf(follow, kernels, portions.reachable, next) },
  };
}

/** Draws the year of the machine that stands in a house that took to its kind in the year of the piece. */
function machineOf(
  follow: LikeForLike,
  { ids, last }: Kernels,
  { material, year }: Piece,
  next: () => number,
): number {
  const rows = ids.map((_, m) =>
    Float64Array.from({ length: last + 1 }, (__, t) => (m === material && t === year ? 1 : 0)),
  );
  const { reachable } = follow.machines({ hidden: rows, reachable: rows, same: rows, joint: [] });
  const odds = Array.from(reachable[material] ?? [], (p, value) => ({ value, p }));
  return draw(odds, next);
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
