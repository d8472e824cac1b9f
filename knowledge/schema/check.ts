import { z } from 'zod';
import { Backing, backed, backedMessage, Id, Phrase, Sentence, When } from './common.ts';
import { HAZARDS } from './words.ts';

/** Stops of a walk. Their titles, opening costs and neighbours are in stops.yaml. */
export const STOPS = [
  'arrival',
  'street',
  'exterior',
  'grounds',
  'porches',
  'roof',
  'garage',
  'main-rooms',
  'kitchen',
  'baths',
  'upper-rooms',
  'attic',
  'mechanical',
  'panel',
  'basement',
  'crawl',
  'closing',
] as const;

/** When in the walk a check may stand: arrival first; start-up turns things on; main; re-read comes
 * back to what was started; last is dirty or low work; closing leaves all as found. */
export const PHASES = ['arrival', 'start-up', 'main', 're-read', 'last', 'closing'] as const;

export const Find = z
  .strictObject({
    failure: Id,
    /** Chance that this check brings the failure mode to light where it is there. */
    sensitivity: z.number().min(0).max(1),
    ...Backing,
  })
  .refine(backed, backedMessage);

export const Check = z
  .strictObject({
    title: Phrase,
    answer: Sentence,
    stop: z.enum(STOPS),
    phase: z.enum(PHASES).default('main'),
    /** required: usual scope; life-safety: always done; optional: done when worth its minutes. */
    scope: z.enum(['required', 'life-safety', 'optional']),
    minutes: z.number().min(1).max(90),
    /** What the minutes are for: one of these. */
    each: z.enum(['house', 'part', 'unit', 'storey']).default('house'),
    people: z.union([z.literal(1), z.literal(2)]).default(1),
    tools: z.array(Phrase).default([]),
    /** Checks that come before this one, where the house has them. */
    needs: z.array(Id).default([]),
    /** Minutes that must pass after the end of another check before this one counts. */
    waits: z.array(z.strictObject({ after: Id, minutes: z.number().min(1), why: Phrase })).default([]),
    /** Conditions under which nobody goes on. */
    gate: z.array(z.strictObject({ stopIf: Phrase, do: Phrase })).default([]),
    /** Whose leave it takes, and for what. */
    permission: z.strictObject({ of: z.enum(['owner', 'occupant', 'association']), what: Phrase }).optional(),
    hazard: z.enum(HAZARDS).optional(),
    /** What it starts or runs in the house. */
    runs: z.enum(['heat', 'cooling', 'water', 'appliance']).optional(),
    /** What nobody may use in the house while it is done. */
    still: z.enum(['water']).optional(),
    /** Outdoor temperature limits in F outside which it is not run. */
    outdoorF: z.strictObject({ min: z.number().optional(), max: z.number().optional() }).optional(),
    when: When.optional(),
    finds: z.array(Find).min(1),
    steps: z.array(Sentence).min(2),
    never: z.array(Sentence).default([]),
    cannotTell: z.array(Sentence).min(1),
    /** How to word its limits for the client. */
    limits: Sentence,
    source: z.array(Id).default([]),
    grade: Backing.grade,
  })
  .refine(backed, backedMessage);
export type Check = z.infer<typeof Check>;

export const Stop = z.strictObject({
  id: z.enum(STOPS),
  title: Phrase,
  /** Minutes spent once to open it: suit, hatch, ladder. */
  opening: z.number().min(0),
  openingTools: z.array(Phrase).default([]),
  when: When.optional(),
  /** Walking minutes to its neighbours. */
  near: z.partialRecord(z.enum(STOPS), z.number().positive()),
});
