import { z } from 'zod';
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
import type { HouseInput } from '../../planner/house/house.ts';
import { ACCEPTED } from '../../planner/house/words.ts';

/** A house file: what a person says of a house. Published as docs/house.schema.json. */
const orUnknown = <const T extends readonly string[]>(words: T) => z.enum([...words, 'unknown']);

const Part = z
  .strictObject({
    name: z.string().min(1).max(60).describe('Name of the part; the first is the main block').exactOptional(),
    built: z
      .union([z.string().max(40), z.number().int()])
      .describe('1913, "1910s", "1905-1915", "about 1900" or "unknown"')
      .exactOptional(),
    yearSource: orUnknown(ACCEPTED.yearSource)
      .describe('Who says so; a round year from an assessor is taken as vague')
      .exactOptional(),
    foundation: orUnknown(FOUNDATIONS).exactOptional(),
    walls: orUnknown(WALLS).exactOptional(),
    roof: orUnknown(ROOFS).exactOptional(),
    storeys: z.number().int().min(1).max(5).exactOptional(),
  })
  .describe('The main block, or an addition');

const Clue = z.strictObject({
  id: z
    .string()
    .describe('Id of a clue; datestone clues lists them. "not:" before it: looked for and not met'),
  year: z.number().int().describe('Year that a paper or a nameplate gives').exactOptional(),
  part: z.string().describe('Name of the part it was met in; the first part if left out').exactOptional(),
  unit: z
    .number()
    .int()
    .min(1)
    .max(4)
    .describe('Number of the dwelling it was met in, from 1; the first if left out')
    .exactOptional(),
});

const Visit = z.strictObject({
  minutes: z.number().int().min(20).max(960).describe('Minutes on site, arrival to goodbye').exactOptional(),
  team: z.number().int().min(1).max(4).describe('People walking').exactOptional(),
  trainees: z
    .number()
    .int()
    .min(0)
    .max(3)
    .describe('How many of the team are trainees: the last ones by number')
    .exactOptional(),
  signedOff: z
    .array(z.enum(ACCEPTED.signedOff))
    .describe('Hazards that trainees may meet alone')
    .exactOptional(),
  rainHours: z.number().int().min(0).max(2000).describe('Hours since the last good rain').exactOptional(),
  outdoorF: z.number().int().min(-60).max(130).exactOptional(),
  indoorF: z.number().int().min(-20).max(130).exactOptional(),
  snow: z.boolean().describe('Snow or ice lies on roof and ground').exactOptional(),
  windy: z.boolean().describe('Too windy for a ladder').exactOptional(),
  droughtDays: z
    .number()
    .int()
    .min(0)
    .max(400)
    .describe('Days since rain that soaked the ground')
    .exactOptional(),
  daylightMinutes: z.number().int().min(0).max(960).describe('Daylight left at arrival').exactOptional(),
});

const Walk = z.strictObject({
  pin: z.array(z.string()).describe('Ids of checks that are always in').exactOptional(),
  drop: z.array(z.string()).describe('Ids of checks left out; what guards life stays in').exactOptional(),
});

export const House = z
  .strictObject({
    schema: z.literal('datestone.house/1').exactOptional(),
    asOf: z.number().int().min(1900).max(2100).describe('The year that counts as today').exactOptional(),
    place: z.string().max(40).describe('State code, five-digit ZIP or "unknown"').exactOptional(),
    coast: orUnknown(COASTS).describe('How far salt water is').exactOptional(),
    form: orUnknown(FORMS).exactOptional(),
    units: z.number().int().min(1).max(4).exactOptional(),
    area: z.number().int().min(200).max(20000).describe('Living area in square feet').exactOptional(),
    water: orUnknown(WATERS).exactOptional(),
    sewer: orUnknown(SEWERS).exactOptional(),
    fuel: orUnknown(FUELS).describe('Main heating fuel').exactOptional(),
    occupied: orUnknown(ACCEPTED.occupied).exactOptional(),
    utilities: orUnknown(ACCEPTED.utilities).exactOptional(),
    parts: z.array(Part).min(1).max(8).describe('The main block first, then additions'),
    clues: z.array(Clue).exactOptional(),
    client: z.array(z.enum(ACCEPTED.client)).exactOptional(),
    visit: Visit.exactOptional(),
    walk: Walk.exactOptional(),
  })
  .describe(
    'A house as a person describes it. What is left out is unknown, never assumed.',
  ) satisfies z.ZodType<HouseInput>;
