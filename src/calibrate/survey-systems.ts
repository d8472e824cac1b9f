import type { Base } from '../../knowledge/schema/base.ts';
import { coolingRows, foundationRows, heatingRows, type SurveyRow, windowRows } from './survey-rows.ts';

/** A system fitted to the energy surveys. Materials are moved in groups: what a survey can't tell apart keeps the
 * authored split. */
export interface SurveySystem {
  system: string;
  title: string;
  groups: Record<string, string[]>;
  /** Answer to the groups it may stand for, each with the share of the group that answers so. */
  links: Record<string, Record<string, number>>;
  /** Lives are fitted, as those of a kind: how long a house stays with it, machines renewed like for like meanwhile
   * (planner/belief/like-for-like.ts). Elsewhere lives stay as published. */
  keepsKind: boolean;
  /** Each state has an offset of its own besides its division's. */
  byState: boolean;
  /** The pace of waves differs by place, with offsets as the shares have. */
  paced: boolean;
  rows: (base: Base, folder: string) => SurveyRow[];
  /** Rows of which no fit may know. */
  held?: (row: SurveyRow) => boolean;
}

/** Zones in order of their names, every other one: the windows of these are kept for the test. */
const HELD_ZONES = ['2A', '3A', '3C', '4B', '5A', '6A', '7A', '8AK'];

export const SURVEY_SYSTEMS: SurveySystem[] = [
  {
    system: 'foundation',
    title: 'Foundation (slab)',
    groups: {
      slab: ['slab'],
      raised: [
        'brick-piers',
        'stone-piers',
        'block-piers',
        'wood-posts',
        'stone-wall',
        'brick-wall',
        'tile-wall',
        'block-wall',
        'poured-concrete-wall',
      ],
    },
    links: { slab: { slab: 1 }, 'not slab': { raised: 1 } },
    keepsKind: false,
    byState: true,
    paced: false,
    rows: foundationRows,
  },
  {
    system: 'cooling',
    title: 'Cooling',
    groups: {
      central: ['central-air'],
      pump: ['heat-pump'],
      room: ['window-units'],
      evaporative: ['evaporative-cooler'],
      none: ['none'],
    },
    // In 2020 a house with an evaporative cooler is counted among central systems or rooms; the halves are practice.
    links: {
      'central or evaporative': { central: 1, evaporative: 0.5 },
      'heat pump': { pump: 1 },
      room: { room: 1, evaporative: 0.5 },
      none: { none: 1 },
      central: { central: 1, pump: 1 },
      'window units': { room: 1 },
      'evaporative cooler': { evaporative: 1 },
    },
    keepsKind: true,
    byState: true,
    paced: true,
    rows: coolingRows,
  },
  {
    system: 'heating-plant',
    title: 'Heating plant',
    groups: {
      hydronic: ['hot-water-boiler', 'steam-boiler', 'coal-boiler'],
      ducted: ['gas-furnace', 'oil-furnace', 'gravity-furnace'],
      pump: ['heat-pump-heating'],
      pipeless: ['floor-furnace', 'wall-furnace'],
      room: ['room-heater'],
      electric: ['electric-heat'],
    },
    // Electric furnaces are among the warm-air furnaces of 2001: of electric resistance heat 0.66 has ducts in 2020.
    links: {
      'ducted, burning fuel': { ducted: 1 },
      'not ducted, burning fuel': { hydronic: 1, pipeless: 1, room: 1 },
      'heat pump': { pump: 1 },
      electric: { electric: 1 },
      'warm-air furnace': { ducted: 1, electric: 0.66 },
      'steam/hot water': { hydronic: 1 },
      'room heater': { room: 1 },
      'floor/wall pipeless furnace': { pipeless: 1 },
      'floor/wall furnace': { pipeless: 1 },
      'built-in electric': { electric: 0.34 },
    },
    keepsKind: true,
    byState: true,
    paced: false,
    rows: heatingRows,
  },
  {
    system: 'windows',
    title: 'Windows',
    groups: {
      wood: ['wood-sash'],
      storm: ['wood-with-storms'],
      metal: ['steel-casement', 'aluminum-single-pane', 'jalousie'],
      doubleMetal: ['metal-double-pane'],
      double: ['insulated-wood-window', 'vinyl-replacement-window'],
    },
    links: {
      'single, wood or vinyl': { wood: 1 },
      'single with storm': { storm: 1 },
      'single, metal': { metal: 1 },
      'double, metal': { doubleMetal: 1 },
      'double, wood or vinyl': { double: 1 },
    },
    keepsKind: false,
    byState: false,
    paced: false,
    rows: windowRows,
    held: (row) => HELD_ZONES.includes(row.name.split(' ')[0] ?? ''),
  },
];

/** Share of each group that an answer of the row stands for; the last answer `rest` takes what no other does. */
export function linkOf(system: SurveySystem, row: SurveyRow): number[][] {
  const groups = Object.keys(system.groups);
  const taken = groups.map(() => 0);
  return row.answers.map(({ name }) => {
    if (name === 'rest') return taken.map((t) => Math.max(0, 1 - t));
    const link = system.links[name];
    if (link === undefined) throw new Error(`${system.system}: answer "${name}" is not known`);
    return groups.map((group, g) => {
      const share = link[group] ?? 0;
      taken[g] = (taken[g] ?? 0) + share;
      return share;
    });
  });
}
