import { join } from 'node:path';
import type { BaseIndex } from '../../planner/base-index.ts';
import { type HouseYears, houseYears } from '../../planner/belief/house-years.ts';
import type { Odds } from '../../planner/house/house.ts';
import { resolveHouse } from '../../planner/house/resolve.ts';
import { readTable, type TableRow, textOf } from '../csv/read-table.ts';
import { readAmes } from './ames.ts';

/** One house as the assessor's card tells it, its build year left out of the clues. */
export interface CardHouse {
  built: number;
  sold: number;
  held: boolean;
  /** One of five parts of the fit rows, by a hash of the parcel. */
  fold: number;
  /** The card's words in the columns used. */
  words: Record<string, string>;
  clues: string[];
}

/** How the card's words read as clues of the base. The link is of words: a card's "CemntBd" is not a test. Years on the
 * card (garage, remodelling) are left out: most of them repeat the build year. */
export const CARD_CLUES: Record<string, Record<string, string>> = {
  Electrical: {
    SBrkr: 'breakers-seen',
    FuseA: 'fuses-seen',
    FuseF: 'fuses-seen',
    FuseP: 'fuses-seen',
    Mix: 'fuses-seen',
  },
  'Exterior 1st': {
    'Wd Sdng': 'wood-boards-seen',
    'Wd Shng': 'wood-shingles-seen',
    WdShing: 'wood-shingles-seen',
    AsbShng: 'hard-shingles-wavy-foot',
    MetalSd: 'metal-siding-seen',
    VinylSd: 'vinyl-siding-seen',
    HdBoard: 'hardboard-siding-seen',
    Plywood: 'plywood-siding-seen',
    Stucco: 'stucco-seen',
    ImStucc: 'stucco-seen',
    BrkFace: 'stretchers-only-brick',
    BrkComm: 'header-courses-seen',
    CemntBd: 'fiber-cement-seen',
  },
  'Central Air': { Y: 'condenser-on-pad-seen', N: 'no-central-cooling-said' },
  Heating: {
    GasA: 'ducted-furnace-said',
    GasW: 'hot-water-or-steam-said',
    OthW: 'hot-water-or-steam-said',
    Grav: 'octopus-furnace-seen',
    Wall: 'room-heat-said',
    Floor: 'room-heat-said',
  },
  Foundation: {
    CBlock: 'gray-block-base-seen',
    BrkTil: 'brick-base-seen',
    PConc: 'smooth-poured-walls-seen',
    Slab: 'slab-on-ground-said',
    Stone: 'rough-stone-base-seen',
  },
  'House Style': {
    '1Story': 'one-storey-on-one-level',
    '1.5Fin': 'one-and-a-half-storeys',
    '1.5Unf': 'one-and-a-half-storeys',
    '2Story': 'two-full-storeys',
    '2.5Fin': 'two-and-a-half-storeys',
    '2.5Unf': 'two-and-a-half-storeys',
    SLvl: 'split-level-seen',
    SFoyer: 'split-entry-seen',
  },
  'Bldg Type': {
    TwnhsE: 'homes-association-row',
    Twnhs: 'homes-association-row',
    '2fmCon': 'cut-into-two-homes',
  },
  'Garage Type': {
    Attchd: 'attached-garage-seen',
    BuiltIn: 'attached-garage-seen',
    Detchd: 'detached-garage-seen',
    NA: 'no-garage-seen',
  },
  'Roof Style': { Gambrel: 'gambrel-roof-seen' },
  'Enclosed Porch': { some: 'closed-in-porch-seen' },
  'Bsmt Qual': {
    Po: 'basement-under-80-inches',
    Fa: 'basement-under-80-inches',
    TA: 'basement-80-to-89-inches',
    Gd: 'basement-90-to-99-inches',
    Ex: 'basement-100-inches-or-more',
  },
};

/** The columns that speak of the five systems, without the shape of the house. */
export const SYSTEM_COLUMNS = ['Electrical', 'Exterior 1st', 'Central Air', 'Heating', 'Foundation'];

/** Houses of the open part of the records, source `ames-housing-2011`. */
export function readCards(folder: string): CardHouse[] {
  const rows = readTable(join(folder, 'ames-train.csv'));
  return readAmes(folder).houses.map(({ built, sold, held, fold }, i) => {
    const row = rows[i] ?? new Map<string, string>();
    const words = Object.fromEntries(Object.keys(CARD_CLUES).map((column) => [column, wordIn(row, column)]));
    return { built, sold, held, fold, words, clues: cluesOf(words, Object.keys(CARD_CLUES)) };
  });
}

/** A word of the card; of an area only whether there is any. */
function wordIn(row: TableRow, column: string): string {
  const text = textOf(row, column);
  if (column !== 'Enclosed Porch') return text;
  return text === '0' ? 'none' : 'some';
}

export function cluesOf(words: Record<string, string>, columns: readonly string[]): string[] {
  return columns.flatMap((column) => CARD_CLUES[column]?.[words[column] ?? ''] ?? []);
}

/** Dates a house seen in the year of its sale from the given clues, as `datestone date --place IA` would. */
export function cardDater(
  index: BaseIndex,
  priorOf: (asOf: number) => Odds<number>,
): (clues: string[], sold: number) => HouseYears {
  const made = new Map<string, HouseYears>();
  return (clues, sold) => {
    const key = `${sold} ${clues.join(' ')}`;
    const ready = made.get(key);
    if (ready !== undefined) return ready;
    const read = resolveHouse(index.base, {
      asOf: sold,
      place: 'IA',
      parts: [{}],
      clues: clues.map((id) => ({ id })),
    });
    if ('problems' in read) throw new RangeError(`cannot read the clues ${clues.join(', ')}`);
    const years = houseYears(index, read.house, priorOf(sold), new Set());
    made.set(key, years);
    return years;
  };
}
