import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Form } from '../../planner/house/house.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

/** Assessor records of Ames, Iowa (De Cock 2011, source `ames-housing-2011`). One row a house sold 2006 to 2010. */
export interface AmesHouse {
  built: number;
  sold: number;
  /** Form of the house as a plan takes it. */
  form: Form;
  /** Neighborhood of the record: houses of one development were often built, and re-clad, together. */
  area: string;
  /** Class of each tested system, or null where the record gives none. */
  classes: Record<string, string | null>;
  /** Kept out of every fit: 3 of 10 parcels by a hash of the parcel id. */
  held: boolean;
  /** Fold of the cross-validation inside the fit rows, 0 to 4, by another hash of the parcel id. */
  fold: number;
  /** Fold of a second cross-validation that keeps neighborhoods whole, 0 to 4, by a hash of the name. */
  areaFold: number;
}

export interface TestedSystem {
  system: string;
  title: string;
  column: string;
  /** Materials of each class of the record. */
  classes: Record<string, string[]>;
}

export const FOLDS = 5;

/** How an assessor's words link to our materials. The link is of words: an assessor's "CemntBd" is not a laboratory. */
export const AMES_SYSTEMS: TestedSystem[] = [
  {
    system: 'service-equipment',
    title: 'Service equipment',
    column: 'Electrical',
    classes: {
      breaker: ['breaker-panel', 'split-bus-panel', 'non-tripping-breaker-panel'],
      fuse: ['fuse-panel'],
    },
  },
  {
    system: 'cladding',
    title: 'Cladding',
    column: 'Exterior 1st',
    classes: {
      wood: ['wood-clapboard'],
      'wood shingle': ['wood-shingle-siding'],
      'asbestos-cement': ['asbestos-cement-siding'],
      metal: ['metal-siding'],
      vinyl: ['vinyl-siding'],
      hardboard: ['hardboard-siding'],
      plywood: ['plywood-siding'],
      stucco: ['stucco'],
      brick: ['brick-veneer', 'solid-brick-face'],
      'fiber cement': ['fiber-cement-siding'],
      other: ['asphalt-siding', 'stone-block-face'],
    },
  },
  {
    system: 'cooling',
    title: 'Central cooling',
    column: 'Central Air',
    classes: {
      central: ['central-air', 'heat-pump'],
      none: ['none', 'no-cooling-no-ducts', 'window-units', 'evaporative-cooler'],
    },
  },
  {
    system: 'foundation',
    title: 'Foundation',
    column: 'Foundation',
    classes: {
      block: ['block-wall'],
      'brick or tile': ['brick-wall', 'tile-wall'],
      poured: ['poured-concrete-wall'],
      slab: ['slab'],
      stone: ['stone-wall'],
    },
  },
  {
    system: 'heating-plant',
    title: 'Heating',
    column: 'Heating',
    classes: {
      'forced air': ['gas-furnace', 'heat-pump-heating', 'oil-furnace'],
      boiler: ['hot-water-boiler', 'steam-boiler', 'coal-boiler'],
      gravity: ['gravity-furnace'],
      'wall, floor or room': ['wall-furnace', 'floor-furnace', 'room-heater', 'electric-heat'],
    },
  },
];

const CLASS_OF: Record<string, Record<string, string>> = {
  Electrical: { SBrkr: 'breaker', FuseA: 'fuse', FuseF: 'fuse', FuseP: 'fuse', Mix: 'fuse' },
  'Exterior 1st': {
    'Wd Sdng': 'wood',
    'Wd Shng': 'wood shingle',
    WdShing: 'wood shingle',
    AsbShng: 'asbestos-cement',
    MetalSd: 'metal',
    VinylSd: 'vinyl',
    HdBoard: 'hardboard',
    Plywood: 'plywood',
    Stucco: 'stucco',
    ImStucc: 'stucco',
    BrkFace: 'brick',
    BrkComm: 'brick',
    CemntBd: 'fiber cement',
    CBlock: 'other',
    Stone: 'other',
    AsphShn: 'other',
    PreCast: 'other',
  },
  'Central Air': { Y: 'central', N: 'none' },
  Heating: {
    GasA: 'forced air',
    GasW: 'boiler',
    OthW: 'boiler',
    Grav: 'gravity',
    Wall: 'wall, floor or room',
    Floor: 'wall, floor or room',
  },
  Foundation: { CBlock: 'block', BrkTil: 'brick or tile', PConc: 'poured', Slab: 'slab', Stone: 'stone' },
};

const FORM_OF: Record<string, Form> = {
  '1Fam': 'detached',
  TwnhsE: 'row',
  Twnhs: 'row',
  Duplex: 'two-to-four',
  '2fmCon': 'two-to-four',
};

function formOf(type: string): Form {
  const form = FORM_OF[type];
  if (form === undefined) throw new RangeError(`ames-train.csv: no form for Bldg Type "${type}"`);
  return form;
}

/** Reads the open part of the records from the data folder. */
export function readAmes(folder: string): { houses: AmesHouse[]; hash: string } {
  const path = join(folder, 'ames-train.csv');
  const hash = createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 16);
  const houses = readTable(path).map((row) => ({
    built: numberOf(row, 'Year Built'),
    sold: numberOf(row, 'Yr Sold'),
    form: formOf(textOf(row, 'Bldg Type')),
    area: textOf(row, 'Neighborhood'),
    classes: Object.fromEntries(
      AMES_SYSTEMS.map(({ system, column }) => [system, CLASS_OF[column]?.[textOf(row, column)] ?? null]),
    ),
    held: hashed(`parcel ${textOf(row, 'PID')}`) < 0.3,
    fold: Math.floor(hashed(`fold ${textOf(row, 'PID')}`) * FOLDS),
    areaFold: Math.floor(hashed(`fold ${textOf(row, 'Neighborhood')}`) * FOLDS),
  }));
  return { houses, hash };
}

/** A parcel's rows stay together: splits are by a hash of the parcel id, not by row. From 0 to below 1. */
function hashed(text: string): number {
  return createHash('sha256').update(text).digest().readUInt32BE(0) / 2 ** 32;
}
