import { z } from 'zod';
import { Grade } from '../../knowledge/schema/common.ts';
import {
  COASTS,
  FORMS,
  FOUNDATIONS,
  FUELS,
  ROOFS,
  SEWERS,
  WALLS,
  WATERS,
} from '../../knowledge/schema/words.ts';
import { ACCEPTED } from '../../planner/house/words.ts';
import type { Plan as PlanType } from '../../planner/plan-types.ts';

/** What `datestone plan --json` prints. Published as docs/plan.schema.json. */
const Chance = z.number().min(0).max(1);
const Minutes = z.number().min(0);

const oddsOf = <T extends z.ZodType>(value: T) =>
  z.array(z.strictObject({ value, p: Chance })).describe('What it may be, with odds that add to 1');

const Part = z.strictObject({
  name: z.string(),
  built: z.strictObject({ given: z.string(), years: oddsOf(z.number().int()) }),
  foundation: oddsOf(z.enum(FOUNDATIONS)),
  walls: oddsOf(z.enum(WALLS)),
  roof: oddsOf(z.enum(ROOFS)),
  storeys: z.number().int(),
});

const House = z.strictObject({
  asOf: z.number().int().describe('The year that counts as today'),
  place: z.strictObject({
    given: z.string(),
    state: z.string().nullable(),
    zip3: z.string().nullable().describe('Three-digit ZIP prefix, if a ZIP was given'),
    coast: z.enum([...COASTS, 'unknown']).describe('How far salt water is'),
  }),
  form: oddsOf(z.enum(FORMS)),
  units: z.number().int(),
  area: z.number(),
  water: oddsOf(z.enum(WATERS)),
  sewer: oddsOf(z.enum(SEWERS)),
  fuel: oddsOf(z.enum(FUELS)),
  occupied: z.enum(['occupied', 'vacant', 'unknown']),
  utilities: z.enum(['on', 'off', 'unknown']),
  parts: z.array(Part),
  clues: z.array(
    z.strictObject({
      id: z.string(),
      year: z.number().int().nullable(),
      part: z.string(),
      unit: z.number().int().describe('Number of the dwelling it was met in, from 1'),
      impliedBy: z.exactOptional(z.string()).describe('The clue told whose sight this one is too'),
    }),
  ),
  client: z.array(z.string()),
  visit: z.strictObject({
    minutes: Minutes,
    team: z.number().int(),
    trainees: z.number().int(),
    signedOff: z.array(z.enum(ACCEPTED.signedOff)),
    rainHours: z.number().nullable(),
    outdoorF: z.number().nullable(),
    indoorF: z.number().nullable(),
    snow: z.boolean(),
    windy: z.boolean(),
    droughtDays: z.number().nullable(),
    daylightMinutes: z.number().nullable(),
  }),
  walk: z.strictObject({ pin: z.array(z.string()), drop: z.array(z.string()) }),
});

const Reason = z.strictObject({
  kind: z.enum(['shares', 'renewal', 'clue', 'place', 'input', 'cause', 'grade']),
  say: z.string(),
  grade: Grade.nullable(),
  source: z.array(z.string()),
});

const Quantiles = z.strictObject({ p10: z.number(), p50: z.number(), p90: z.number() });

const Range = z.tuple([Chance, Chance]);

const Material = z.strictObject({
  material: z.string(),
  title: z.string(),
  reachable: Chance.describe('In use where a person could reach'),
  hidden: Chance.describe('In use where it is buried'),
  anywhere: Chance,
  disconnected: Chance.describe('Still in the house, no longer in use'),
  removed: Chance.nullable().describe(
    'Was there once and has been taken out; null where that is not worked out',
  ),
  installed: z.strictObject({ reachable: Quantiles.nullable(), hidden: Quantiles.nullable() }),
  range: z
    .strictObject({ reachable: Range, hidden: Range, anywhere: Range })
    .describe('Low and high of the odds in use; they hold eight times in ten'),
  units: z
    .strictObject({ atLeastOne: Chance, every: Chance })
    .describe('In a house of several dwellings: in use in at least one of them, and in every one')
    .exactOptional(),
});

const Replaced = z.strictObject({
  allFirst: Chance.describe('Both portions are what was put in when the part was built'),
  partly: Chance.describe('The hidden portion is, what is within reach is later'),
  allSince: Chance.describe('Both were put in later, at once or one after the other'),
  twoAges: Chance.describe('The two portions are of different years'),
  twoMaterials: Chance.describe('The two portions are of different materials'),
});

const System = z.strictObject({
  system: z.string(),
  title: z.string(),
  part: z.string(),
  present: Chance,
  materials: z.array(Material),
  replaced: Replaced.nullable().describe(
    'How much of it was replaced, if the house has it; null where no portion is out of reach',
  ),
  why: z.array(Reason),
});

const Risk = z.strictObject({
  failure: z.string(),
  title: z.string(),
  system: z.string(),
  part: z.string(),
  probability: Chance,
  low: Chance,
  high: Chance,
  units: z
    .strictObject({ anyOne: Chance, atLeastOne: Chance })
    .describe('Chance in any one dwelling and in at least one, where they differ; probability is the latter')
    .exactOptional(),
  grade: Grade,
  odds: z.string(),
  soon: z.enum(['settle-first', 'budget-for', 'look-after', 'for-the-record']),
  lifeSafety: z.boolean(),
  stakes: z.strictObject({
    people: z.number(),
    structure: z.number(),
    water: z.number(),
    money: z.number(),
  }),
  priority: z.number(),
  why: z.array(Reason),
});

const WalkCheck = z.strictObject({
  check: z.string(),
  title: z.string(),
  start: Minutes,
  minutes: Minutes,
  for: z.array(z.string()).describe('Failure modes it is done for, most worth first'),
  gate: z.array(z.strictObject({ stopIf: z.string(), do: z.string() })),
  permission: z.strictObject({ of: z.string(), what: z.string() }).nullable(),
  tools: z.array(z.string()),
  waits: z.array(z.strictObject({ after: z.string(), minutes: Minutes, why: z.string() })),
  scope: z.enum(['required', 'life-safety', 'optional']),
  people: z.number().int(),
});

const Walk = z.strictObject({
  feasible: z.boolean().describe('Whether the minutes hold the required scope and the life-safety checks'),
  minutes: Minutes,
  minutesNeeded: Minutes,
  minutesUsed: Minutes,
  worth: z.number(),
  bound: z.number(),
  stops: z.array(
    z.strictObject({
      place: z.string(),
      title: z.string(),
      person: z.number().int(),
      start: Minutes,
      minutes: Minutes,
      waits: z.array(z.strictObject({ minutes: Minutes, why: z.string() })),
      today: z.array(z.string()),
      checks: z.array(WalkCheck),
    }),
  ),
  leftOut: z.array(
    z.strictObject({
      check: z.string(),
      title: z.string(),
      minutes: Minutes,
      worth: z.number(),
      why: z.string(),
      again: z.boolean().describe('Another visit could do it'),
    }),
  ),
  curve: z.array(z.strictObject({ minutes: Minutes, worth: z.number() })),
  more: z
    .strictObject({ minutes: Minutes, worth: z.number(), checks: z.array(z.string()) })
    .nullable()
    .describe('What so many minutes more would add'),
  survives: Chance.nullable().describe(
    'Share of draws within the ranges in which the same choice would be made',
  ),
  tools: z.array(z.string()),
});

export const Plan = z.strictObject({
  schema: z.literal('datestone.plan/1'),
  id: z
    .exactOptional(z.string())
    .describe('What the person calls the house, on a line of a batch that says so'),
  base: z.string().describe('Hash of the knowledge it was made from'),
  house: House,
  systems: z.array(System),
  contradictions: z
    .array(
      z.strictObject({
        system: z.string(),
        part: z.string(),
        clues: z.array(z.string()),
        chance: Chance.nullable().describe('Of meeting the less likely of them, given all the rest'),
        say: z.string(),
        leastSurprising: z.strictObject({ without: z.string(), say: z.string() }).nullable(),
      }),
    )
    .describe('Clues that do not sit together, or not with the rest'),
  risks: z.array(Risk).describe('Most pressing first'),
  risksSurvive: z
    .strictObject({
      first: z.number().int().describe('So many risks from the top'),
      same: Chance.describe('Share of draws within the ranges in which they are the same ones'),
      stay: z.number().describe('How many of them stay among them, on average'),
    })
    .nullable(),
  walk: Walk,
  questions: z.array(
    z.strictObject({
      question: z.string(),
      ask: z.string(),
      of: z.string(),
      why: z.string(),
      worth: z.number(),
      papers: z.array(z.string()),
      systems: z.array(z.string()),
    }),
  ),
  looks: z
    .array(
      z.strictObject({
        clue: z.string(),
        say: z.string(),
        where: z.array(z.string()),
        worth: z.number(),
        system: z.string(),
        missable: z.boolean().describe('Not meeting it can be told too, as "not:" and its id'),
      }),
    )
    .describe('Clues most worth looking for before the visit'),
  cautions: z.array(z.strictObject({ about: z.string(), say: z.string() })),
}) satisfies z.ZodType<PlanType>;

/** Both ways: a field added to the type and not here is a type error too. */
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;
const bothWays: Same<z.infer<typeof Plan>, PlanType> = true;
void bothWays;
