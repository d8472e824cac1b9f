import type {
  COASTS,
  FORMS,
  FOUNDATIONS,
  FUELS,
  HAZARDS,
  ROOFS,
  SEWERS,
  WALLS,
  WATERS,
} from '../../knowledge/schema/words.ts';

export type Foundation = (typeof FOUNDATIONS)[number];
export type Wall = (typeof WALLS)[number];
export type Roof = (typeof ROOFS)[number];
export type Form = (typeof FORMS)[number];
export type Water = (typeof WATERS)[number];
export type Sewer = (typeof SEWERS)[number];
export type Fuel = (typeof FUELS)[number];
export type Hazard = (typeof HAZARDS)[number];
export type Coast = (typeof COASTS)[number];

/** What a person says of a house: plain words, as typed. Everything left out is unknown, never assumed in
 * silence. This is also the form of a house file (`docs/house.schema.json`). */
export interface HouseInput {
  schema?: 'datestone.house/1';
  /** Year from which "today" is counted. */
  asOf?: number;
  /** State code, five-digit ZIP or `unknown`. */
  place?: string;
  /** How far salt water is. */
  coast?: Coast | 'unknown';
  form?: Form | 'unknown';
  units?: number;
  /** Living area in square feet. */
  area?: number;
  water?: Water | 'unknown';
  sewer?: Sewer | 'unknown';
  fuel?: Fuel | 'unknown';
  occupied?: 'occupied' | 'vacant' | 'unknown';
  utilities?: 'on' | 'off' | 'unknown';
  /** The main block first, then additions. */
  parts: PartInput[];
  clues?: ClueInput[];
  /** Words on the client: children, unsteady, thin-reserves, renovating, breathing, landlord. */
  client?: string[];
  visit?: VisitInput;
  walk?: WalkInput;
}

/** What the person wants of the walk, by check id. */
export interface WalkInput {
  /** Always in, as if it were usual scope. */
  pin?: string[];
  /** Left out. What guards life, and what that needs, stays in whatever is said. */
  drop?: string[];
}

export interface PartInput {
  name?: string;
  /** 1913, 1910s, 1905-1915, about 1900, or unknown. */
  built?: string | number;
  /** Who says so. A round year from an assessor is taken as vague. */
  yearSource?: 'assessor' | 'listing' | 'owner' | 'deed' | 'permit' | 'map' | 'datestone' | 'unknown';
  foundation?: Foundation | 'unknown';
  walls?: Wall | 'unknown';
  roof?: Roof | 'unknown';
  storeys?: number;
}

export interface ClueInput {
  id: string;
  /** Year that a record or a nameplate gives. */
  year?: number;
  /** Name of the part it was met in; the first part if left out. */
  part?: string;
  /** Number of the dwelling it was met in, from 1, in a house of several; the first if left out. */
  unit?: number;
}

export interface VisitInput {
  /** Minutes on site, arrival to goodbye. */
  minutes?: number;
  /** People walking, 1 to 4. */
  team?: number;
  /** How many of them are trainees, fewer than the team: the last ones by number. */
  trainees?: number;
  /** Hazards that the trainees may meet alone. */
  signedOff?: string[];
  /** Hours since the last good rain. */
  rainHours?: number;
  outdoorF?: number;
  indoorF?: number;
  /** Snow or ice lies on roof and ground. */
  snow?: boolean;
  /** Too windy for a ladder. */
  windy?: boolean;
  /** Days since rain that soaked the ground. */
  droughtDays?: number;
  /** Minutes of daylight left at arrival. */
  daylightMinutes?: number;
}

/** Values of an input with their odds; odds add to 1. One value with odds 1 is known. */
export type Odds<T> = { value: T; p: number }[];

/** A house with every input resolved to a value or to odds over values. */
export interface House {
  asOf: number;
  /** `zip3` is the three-digit ZIP prefix if a ZIP was given. */
  place: { given: string; state: string | null; zip3: string | null; coast: Coast | 'unknown' };
  form: Odds<Form>;
  units: number;
  area: number;
  water: Odds<Water>;
  sewer: Odds<Sewer>;
  fuel: Odds<Fuel>;
  occupied: 'occupied' | 'vacant' | 'unknown';
  utilities: 'on' | 'off' | 'unknown';
  parts: Part[];
  /** `impliedBy` names the clue told whose sight this one is too: it speaks of its own system, not again of the build
   * year and the owners. */
  clues: { id: string; year: number | null; part: string; unit: number; impliedBy?: string }[];
  client: string[];
  visit: {
    minutes: number;
    team: number;
    trainees: number;
    signedOff: Hazard[];
    rainHours: number | null;
    outdoorF: number | null;
    indoorF: number | null;
    snow: boolean;
    windy: boolean;
    droughtDays: number | null;
    daylightMinutes: number | null;
  };
  walk: { pin: string[]; drop: string[] };
}

export interface Part {
  name: string;
  /** What was said of the year, and the years it may be with their odds, rising. */
  built: { given: string; years: Odds<number> };
  foundation: Odds<Foundation>;
  walls: Odds<Wall>;
  roof: Odds<Roof>;
  storeys: number;
}
