import { z } from 'zod';
import { FOUNDATIONS, REGIONS } from './words.ts';

const Band = z.number().int().min(1).max(4);

/** One state or DC. Figures and their sources: knowledge/places/README.md and `fields` in states.json. */
export const State = z.strictObject({
  code: z.string().regex(/^[A-Z]{2}$/),
  name: z.string(),
  region: z.enum(REGIONS),
  division: z.string(),
  /** Energy-code climate zone where most houses stand. */
  zone: z.string(),
  /** Climate zones of its houses by their shares, those of less than 2% left out; they add to 1. */
  zones: z.record(z.string(), z.number().positive()),
  /** Subterranean termite pressure, 1 very heavy to 4 none to slight: typical and the span within. */
  termites: Band,
  termiteSpan: z.tuple([Band, Band]),
  formosan: z.string(),
  drywood: z.string(),
  /** Frost depth in inches, from memory: least, typical, most. */
  frostInches: z.tuple([z.number(), z.number(), z.number()]),
  expansiveSoil: z.enum(['low', 'moderate', 'high']),
  soilNote: z.string(),
  /** Decay hazard index over houses: 10th percentile, median, 90th percentile. */
  decay: z.tuple([z.number(), z.number(), z.number()]),
  freezeThawDays: z.number(),
  coast: z.boolean(),
  hurricane: z.boolean(),
  /** EPA radon zone where most houses stand, 1 highest. Test whatever the zone. */
  radonZone: Band,
  /** Seismic design categories spanned. */
  quake: z.string(),
  snow: z.string(),
  floodNote: z.string(),
  /** Field to the ids of local rules or surveys by which the table of states was corrected here. */
  corrected: z.record(z.string(), z.array(z.string())),
});
export type State = z.infer<typeof State>;

/** A three-digit ZIP prefix: its state, and what its own stations and counties say where that is finer than the state. */
export const ZipArea = z.strictObject({
  state: z.string().regex(/^[A-Z]{2}$/),
  /** Decay hazard index carried to the prefix's middle from its nearest stations. */
  decay: z.number(),
  /** The last two digits of ZIPs whose own index differs from the prefix's by more than its doubt, with that index. */
  own: z.record(z.string().regex(/^\d{2}$/), z.number()),
  zone: z.string(),
  radonZone: Band,
  /** Id of the nearest climate station, and how far off it is in kilometres. */
  station: z.string(),
  km: z.number().int(),
});
export type ZipArea = z.infer<typeof ZipArea>;

const FactorPair = z.tuple([z.number().positive(), z.number().positive()]);

export const Places = z.strictObject({
  states: z.array(State).length(51),
  /** Source ids and grade of each field of a state. */
  fields: z.record(z.string(), z.strictObject({ grade: z.string(), source: z.array(z.string()) })),
  /** What is known by three-digit ZIP prefix. */
  zip3: z.record(z.string(), ZipArea),
  /** Houses standing by vintage and state: the prior over build years. Rows add to 1. */
  stock: z.strictObject({
    vintages: z.array(z.tuple([z.number().int(), z.number().int()])),
    byState: z.record(z.string(), z.array(z.number())),
    /** Thousands of houses of one to four units, by state: the weight of a state in the nation. */
    units: z.record(z.string(), z.number()),
    source: z.array(z.string()),
  }),
  /** Foundation kinds by climate zone and vintage: the prior where the foundation is unknown. */
  foundations: z.strictObject({
    kinds: z.array(z.enum(FOUNDATIONS)),
    vintages: z.array(z.tuple([z.number().int(), z.number().int()])),
    /** Of detached houses; zone ALL is the nation. */
    byZone: z.record(z.string(), z.array(z.array(z.number()))),
    /** Of row houses. */
    rowByZone: z.record(z.string(), z.array(z.array(z.number()))),
    /** Factors by census division on the zone's shares, against raised houses (crawl space, piers, posts): a zone
     * runs through divisions that build otherwise. Each is given for houses of the two `factorYears`; it changes
     * log-linearly between them and stays the same outside. */
    byDivision: z.record(
      z.string(),
      z.strictObject({ basement: FactorPair, slab: FactorPair, mixed: FactorPair }),
    ),
    factorYears: z.tuple([z.number().int(), z.number().int()]).refine(([early, late]) => early < late),
    source: z.array(z.string()),
  }),
});
export type Places = z.infer<typeof Places>;
