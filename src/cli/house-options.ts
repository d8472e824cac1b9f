import type { ClueInput, HouseInput, PartInput, VisitInput } from '../../planner/house/house.ts';
import type { OptionKinds } from './options.ts';
import { readNumber } from './options.ts';
import { refusal, UsageError } from './usage-error.ts';

/** Options that describe a house and a visit. The same names head the columns of a batch. */
export const HOUSE_OPTIONS = {
  built: 'one',
  foundation: 'one',
  place: 'one',
  coast: 'one',
  'as-of': 'one',
  form: 'one',
  units: 'one',
  storeys: 'one',
  area: 'one',
  minutes: 'one',
  team: 'one',
  trainees: 'one',
  'signed-off': 'many',
  clue: 'many',
  client: 'many',
  'rain-hours': 'one',
  outdoor: 'one',
  indoor: 'one',
  snow: 'one',
  windy: 'one',
  'drought-days': 'one',
  'daylight-minutes': 'one',
  pin: 'many',
  drop: 'many',
  'year-source': 'one',
  walls: 'one',
  roof: 'one',
  water: 'one',
  sewer: 'one',
  fuel: 'one',
  occupied: 'one',
  utilities: 'one',
} as const satisfies OptionKinds;

export type HouseOption = keyof typeof HOUSE_OPTIONS;

export function isHouseOption(name: string): name is HouseOption {
  return Object.hasOwn(HOUSE_OPTIONS, name);
}

/** Values by option name, as typed; an option left out is unknown. */
export type HouseWords = ReadonlyMap<HouseOption, readonly string[]>;

/** Lays what was typed over a house (an empty one, or one read from a file). Options on a part speak of the
 * first part, the main block. Words are handed on as they are: the planner says which it accepts. */
export function houseFrom(words: HouseWords, under: HouseInput, asOf: number): HouseInput {
  const one = (name: HouseOption): string | undefined => words.get(name)?.at(-1);
  const number = (name: HouseOption): number | undefined => {
    const text = one(name);
    return text === undefined ? undefined : readNumber(`--${name}`, text, 'a whole number');
  };
  const yesNo = (name: HouseOption): boolean | undefined => {
    const text = one(name);
    if (text === undefined || text === 'unknown') return undefined;
    if (text === 'yes' || text === 'no') return text === 'yes';
    throw new UsageError(refusal(`--${name}`, text, 'yes, no or unknown', null));
  };
  const [first = {}, ...additions] = under.parts;
  const part = overlay<PartInput>(first, {
    built: one('built'),
    yearSource: one('year-source'),
    foundation: one('foundation'),
    walls: one('walls'),
    roof: one('roof'),
    storeys: number('storeys'),
  });
  const visit = overlay<VisitInput>(under.visit ?? {}, {
    minutes: number('minutes'),
    team: number('team'),
    trainees: number('trainees'),
    signedOff: words.get('signed-off'),
    rainHours: number('rain-hours'),
    outdoorF: number('outdoor'),
    indoorF: number('indoor'),
    snow: yesNo('snow'),
    windy: yesNo('windy'),
    droughtDays: number('drought-days'),
    daylightMinutes: number('daylight-minutes'),
  });
  const house = overlay<Omit<HouseInput, 'parts'>>(under, {
    place: one('place'),
    coast: one('coast'),
    form: one('form'),
    units: number('units'),
    area: number('area'),
    water: one('water'),
    sewer: one('sewer'),
    fuel: one('fuel'),
    occupied: one('occupied'),
    utilities: one('utilities'),
  });
  return {
    ...house,
    asOf: number('as-of') ?? under.asOf ?? asOf,
    parts: [part, ...additions],
    clues: [...(under.clues ?? []), ...(words.get('clue') ?? []).map(clueFrom)],
    client: [...(under.client ?? []), ...(words.get('client') ?? [])],
    visit,
    walk: {
      pin: [...(under.walk?.pin ?? []), ...(words.get('pin') ?? [])],
      drop: [...(under.walk?.drop ?? []), ...(words.get('drop') ?? [])],
    },
  };
}

/** `ID` or, where a paper or a nameplate gives a year, `ID=YEAR`; `#N` after it names the dwelling it was met in, `@PART`
 * after that the part. */
export function clueFrom(text: string): ClueInput {
  const [before, part] = cutAt(text, '@');
  const [clue, dwelling] = cutAt(before, '#');
  const [id, year] = cutAt(clue, '=');
  if (year !== null && !/^\d{4}$/.test(year))
    throw new UsageError(refusal('--clue', text, 'ID or ID=YEAR with a year of four digits', null));
  if (dwelling !== null && !/^\d$/.test(dwelling))
    throw new UsageError(
      refusal('--clue', text, 'ID#N or ID=YEAR#N with the number of a dwelling, from 1', null),
    );
  return {
    id,
    ...(year === null ? {} : { year: Number(year) }),
    ...(part === null ? {} : { part }),
    ...(dwelling === null ? {} : { unit: Number(dwelling) }),
  };
}

/** What stands before a sign and what after it; null if the sign is not there. */
function cutAt(text: string, sign: string): [string, string | null] {
  const at = text.indexOf(sign);
  return at < 0 ? [text, null] : [text.slice(0, at), text.slice(at + 1)];
}

/** The words typed are any text; the planner checks them one by one and names the nearest it accepts. */
function overlay<T extends object>(under: T, over: { [K in keyof T]?: unknown }): T {
  const given = Object.entries(over).filter(([, value]) => value !== undefined);
  return Object.assign({}, under, Object.fromEntries(given));
}
