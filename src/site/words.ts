import type { Grade } from '../../knowledge/schema/common.ts';
import type { Form, Foundation, Fuel, Roof, Sewer, Wall, Water } from '../../planner/house/house.ts';

/** Words for the values that the base and the planner use. A value without words is a type error. */
export const FOUNDATION_WORDS: Record<Foundation, string> = {
  piers: 'Masonry piers',
  posts: 'Wood posts',
  crawl: 'Crawl space on walls',
  'basement-stone': 'Basement, stone walls',
  'basement-brick': 'Basement, brick walls',
  'basement-block': 'Basement, block walls',
  'basement-concrete': 'Basement, poured concrete',
  slab: 'Slab on the ground',
  mixed: 'Mixed under one part',
};

/** The same within a sentence: "wood frame over a stone basement". */
export const ON_FOUNDATION: Record<Foundation, string> = {
  piers: 'on masonry piers',
  posts: 'on wood posts',
  crawl: 'over a crawl space',
  'basement-stone': 'over a stone basement',
  'basement-brick': 'over a brick basement',
  'basement-block': 'over a block basement',
  'basement-concrete': 'over a concrete basement',
  slab: 'on a slab',
  mixed: 'on mixed foundations',
};

export const WALL_WORDS: Record<Wall, string> = {
  frame: 'Wood frame',
  brick: 'Solid brick',
  veneer: 'Brick veneer on frame',
  stone: 'Solid stone',
  plank: 'Plank, no studs',
  log: 'Log',
  adobe: 'Adobe',
  block: 'Block',
};

export const ROOF_WORDS: Record<Roof, string> = { pitched: 'Pitched', flat: 'Flat or nearly' };

export const FORM_WORDS: Record<Form, string> = {
  detached: 'Detached house',
  row: 'Row or half of a pair',
  'two-to-four': 'Two to four units',
};

export const WATER_WORDS: Record<Water, string> = { town: 'Town water', well: 'Well' };
export const SEWER_WORDS: Record<Sewer, string> = { town: 'Town sewer', septic: 'Septic or cesspool' };

export const FUEL_WORDS: Record<Fuel, string> = {
  gas: 'Gas',
  oil: 'Oil',
  propane: 'Propane',
  electric: 'Electricity',
  wood: 'Wood or coal',
};

export const YEAR_SOURCE_WORDS = {
  assessor: 'Assessor',
  listing: 'Listing',
  owner: 'Owner',
  deed: 'Deed',
  permit: 'Permit',
  map: 'Old map',
  datestone: 'Date on the house',
} as const;

export const CLIENT_WORDS: Record<string, string> = {
  children: 'Small children in the house',
  unsteady: 'Someone unsteady on stairs',
  'thin-reserves': 'Little money left after closing',
  renovating: 'Plans to renovate',
  breathing: 'Someone with poor lungs',
  landlord: 'Will rent it out',
};

export const GRADE_WORDS: Record<Grade, { word: string; means: string }> = {
  measured: { word: 'measured', means: 'from a survey or a data set' },
  published: { word: 'published', means: 'from a handbook, a standard or a law' },
  practice: { word: 'practice', means: 'common practice, no source' },
  memory: { word: 'from memory', means: 'recalled and not yet looked up' },
};

export type Soon = 'settle-first' | 'budget-for' | 'look-after' | 'for-the-record';

export const SOON_WORDS: Record<Soon, { title: string; means: string }> = {
  'settle-first': { title: 'Settle first', means: 'before anyone commits' },
  'budget-for': { title: 'Budget for', means: 'a cost to plan, not a crisis' },
  'look-after': { title: 'Look after', means: 'upkeep that keeps it small' },
  'for-the-record': { title: 'For the record', means: 'worth knowing, little to do' },
};
export const SOONS: readonly Soon[] = ['settle-first', 'budget-for', 'look-after', 'for-the-record'];

export const ASKED_WORDS: Record<string, string> = {
  seller: 'the seller',
  agent: 'the agent',
  occupant: 'whoever lives there',
  authority: 'the town or county',
  utility: 'the utility',
  client: 'the client',
  neighbour: 'a neighbour',
};

export const GROUP_WORDS: Record<string, string> = {
  electrical: 'Electrical',
  plumbing: 'Water and drains',
  gas: 'Gas and fuel',
  heating: 'Heat, flues and hot water',
  structure: 'Structure',
  envelope: 'Roof, walls and openings',
  interior: 'Inside',
  environment: 'Air and damp',
  site: 'Ground',
  hazard: 'Old hazards',
  'life-safety': 'Life safety',
};

export const PHASE_WORDS: Record<string, string> = {
  arrival: 'on arrival',
  'start-up': 'at start-up',
  main: 'in the main round',
  're-read': 'on coming back to what was started',
  last: 'last, because it is low or dirty',
  closing: 'in the closing round',
};

export const SCOPE_WORDS: Record<string, string> = {
  required: 'usual scope',
  'life-safety': 'guards life, always done',
  optional: 'when it is worth its minutes',
};

export const WHERE_WORDS: Record<string, string> = {
  photos: 'in photographs',
  seller: 'from the seller',
  record: 'in a record',
  site: 'on site',
};

export const BALKS_WORDS: Record<string, string> = {
  insurer: 'an insurer',
  lender: 'a lender',
  authority: 'the town',
};
