import type { Grade } from '../knowledge/schema/common.ts';
import type { House } from './house/house.ts';

/** What `plan --json` prints. Names are a contract: later versions add, never rename. */
export interface Plan {
  schema: 'datestone.plan/1';
  /** What the person calls the house, on a line of a batch that says so. */
  id?: string;
  /** Hash of the knowledge it was made from. */
  base: string;
  house: House;
  systems: SystemBelief[];
  /** Clues that do not sit together, or not with the rest. */
  contradictions: Contradiction[];
  /** Most pressing first. */
  risks: Risk[];
  /** Whether the top of that list survives the ranges; null where there are no more risks than that. */
  risksSurvive: RisksSurvive | null;
  walk: Walk;
  /** Most worth asking first. */
  questions: PlanQuestion[];
  /** Clues most worth looking for before the visit. */
  looks: Look[];
  cautions: Caution[];
}

export interface SystemBelief {
  system: string;
  title: string;
  part: string;
  /** Chance that the house has this system at all, from inputs (septic, well) and from `none`. */
  present: number;
  materials: MaterialBelief[];
  /** How much of it was replaced, if the house has it; null where no portion of it is out of reach. */
  replaced: Replaced | null;
  /** How the numbers came about, in order. */
  why: Reason[];
}

/** Odds over how much of a system is later than the house. The first three add to 1. */
export interface Replaced {
  /** Both portions are what was put in when the part was built. */
  allFirst: number;
  /** The hidden portion is, what is within reach is later. */
  partly: number;
  /** Both were put in later, at once or one after the other. */
  allSince: number;
  /** The two portions are of different years. */
  twoAges: number;
  /** The two portions are of different materials. */
  twoMaterials: number;
}

/** Clues of a system that do not sit together (two), or not with the year and all else that was said (one). */
export interface Contradiction {
  system: string;
  part: string;
  clues: string[];
  /** Chance of meeting the less likely of them given all the rest; null where that is not worked out. */
  chance: number | null;
  say: string;
  /** The reading without the clue whose removal raises the likelihood of the rest most. */
  leastSurprising: { without: string; say: string } | null;
}

/** In each draw of the ranges the risks are ranked anew. */
export interface RisksSurvive {
  /** So many risks from the top. */
  first: number;
  /** Share of draws in which they are the same ones, in whatever order. */
  same: number;
  /** How many of them stay among them, on average. */
  stay: number;
}

export interface MaterialBelief {
  material: string;
  title: string;
  /** In use in the reachable portion, in the hidden portion, in either. `none` has a row too. */
  reachable: number;
  hidden: number;
  anywhere: number;
  /** Chance that it is still in the house, dead or covered, where it is no longer in use. */
  disconnected: number;
  /** Chance that it was there once and has been taken out; null where that is not worked out. */
  removed: number | null;
  /** Years it was put in, if it is there: 10th, 50th and 90th percentile. */
  installed: { reachable: Quantiles | null; hidden: Quantiles | null };
  /** Low and high of the odds in use: they hold eight times in ten (docs/model.md, section 8). */
  range: { reachable: [number, number]; hidden: [number, number]; anywhere: [number, number] };
  /** In a house of several dwellings that each have their own: in use in at least one, and in every one; for `none`,
   * that at least one or every dwelling is without. The figures above are then of any one dwelling. */
  units?: { atLeastOne: number; every: number };
}

export interface Quantiles {
  p10: number;
  p50: number;
  p90: number;
}

/** One step of an explanation: what acted, what it did, who says so. */
export interface Reason {
  kind: 'shares' | 'renewal' | 'clue' | 'place' | 'input' | 'cause' | 'grade';
  say: string;
  grade: Grade | null;
  source: string[];
}

export interface Risk {
  failure: string;
  title: string;
  system: string;
  part: string;
  /** Chance that this house has it today, in a house of several dwellings in at least one; low and high hold the parameter
   * ranges nine times in ten. */
  probability: number;
  low: number;
  high: number;
  /** Of a system that each of several dwellings has its own of, where they differ: chance in any one dwelling, and in at
   * least one. */
  units?: { anyOne: number; atLeastOne: number };
  grade: Grade;
  /** Odds in words. */
  odds: string;
  soon: 'settle-first' | 'budget-for' | 'look-after' | 'for-the-record';
  lifeSafety: boolean;
  stakes: { people: number; structure: number; water: number; money: number };
  /** Stake-weighted chance, with a floor for what guards life. */
  priority: number;
  why: Reason[];
}

export interface Walk {
  feasible: boolean;
  /** Minutes given, and minutes that the required scope and the life-safety checks need. */
  minutes: number;
  minutesNeeded: number;
  minutesUsed: number;
  /** Stake-weighted chance that the walk brings to light. */
  worth: number;
  /** No walk of these minutes can be worth more than this. */
  bound: number;
  stops: WalkStop[];
  /** The inspector's private list. `again`: another visit could do it. */
  leftOut: {
    check: string;
    title: string;
    minutes: number;
    worth: number;
    why: string;
    again: boolean;
  }[];
  /** Worth against minutes, for pricing a visit. */
  curve: { minutes: number; worth: number }[];
  /** What so many minutes more would add; null where nothing is left to add or the minutes do not hold the scope. */
  more: { minutes: number; worth: number; checks: string[] } | null;
  /** Of the draws of odds and minutes within their ranges, the share in which the same choice would be made
   * (docs/model.md, section 7); null if nothing was there to choose. */
  survives: number | null;
  tools: string[];
}

export interface WalkStop {
  place: string;
  title: string;
  /** Whoever walks it, 1 is the lead. */
  person: number;
  /** Minutes from arrival. */
  start: number;
  minutes: number;
  /** Standing idle before or between its checks, and for what. */
  waits: { minutes: number; why: string }[];
  /** What the day's weather and the state of the house change in what is seen here. */
  today: string[];
  checks: WalkCheck[];
}

export interface WalkCheck {
  check: string;
  title: string;
  start: number;
  minutes: number;
  /** Failure modes it is done for, most worth first. */
  for: string[];
  gate: { stopIf: string; do: string }[];
  permission: { of: string; what: string } | null;
  tools: string[];
  waits: { after: string; minutes: number; why: string }[];
  scope: 'required' | 'life-safety' | 'optional';
  people: number;
}

export interface PlanQuestion {
  question: string;
  ask: string;
  of: string;
  why: string;
  worth: number;
  papers: string[];
  systems: string[];
}

export interface Look {
  clue: string;
  say: string;
  where: string[];
  worth: number;
  system: string;
  /** Not meeting it can be told too, as `not:` and its id. */
  missable: boolean;
}

export interface Caution {
  about: string;
  say: string;
}
