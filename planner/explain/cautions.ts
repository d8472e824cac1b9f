import type { BaseIndex } from '../base-index.ts';
import type { House, HouseInput, Part } from '../house/house.ts';
import type { Caution, Walk } from '../plan-types.ts';
import { DROUGHT_DAYS, DRY_HOURS, HOT, INFRARED_DIFFERENCE } from '../walk/day.ts';

/** What a reader must know before using the plan: what was not given, what the day changes, what is out of scope. */
export function cautions(
  index: BaseIndex,
  house: House,
  walk: Pick<Walk, 'feasible' | 'minutes' | 'minutesNeeded'>,
  given: HouseInput | null,
): Caution[] {
  const list: Caution[] = [];
  const say = (about: string, words: string): number => list.push({ about, say: words });

  if (!walk.feasible)
    say(
      'minutes',
      `The required scope and the life-safety checks need ${walk.minutesNeeded} minutes; ${walk.minutes} were given. Take the time or another person; nothing was shaved.`,
    );
  for (const part of house.parts) {
    const year = part.built.years.reduce((sum, y) => sum + y.p * y.value, 0);
    const raised = part.foundation.every((f) => f.value === 'piers' || f.value === 'posts');
    if (raised && year >= 1970)
      say(
        'scope',
        `${part.name}: a house on piers from the 1970s or later may be a manufactured home; that is another trade's scope. Look for a data plate.`,
      );
    if (part.built.years.length > 1)
      say('year', `${part.name}: the year "${part.built.given}" is taken as vague and summed over.`);
    if (part.foundation.length > 1)
      say(
        'foundation',
        `${part.name}: the foundation is not given; kinds are summed over by place and year.`,
      );
    const before = datedBefore(house, part);
    if (before.length > 0)
      say(
        'paper',
        `${part.name}: work or a part is dated ${before.join(', ')}, before any year given for the building. A year is wrong, or the thing came from elsewhere; look for a deed, an old map or a datestone.`,
      );
  }
  if (house.place.state === null)
    say(
      'place',
      'No place is given; climate, soil and termites are summed over the states where houses of those years stand.',
    );
  if (house.utilities === 'off' || house.occupied === 'vacant')
    say(
      'utilities',
      'Vacant or shut off: closed valves, unlit pilots and tripped breakers stay as they are. What could not run needs a return visit.',
    );
  weather(house, say);
  if (house.parts.some((p) => p.built.years.some((y) => y.value < 1978)))
    say(
      'paint',
      'Built before 1978: presume lead in old paint wherever it is disturbed; odds only choose where to have it tested.',
    );
  say(
    'radon',
    'Test for radon whatever the zone and the odds: neither a band nor a check left out for want of minutes is a reason not to.',
  );
  if (house.units > 1)
    say(
      'units',
      'Several units: minutes count every unit. Which units are walked is a matter of the contract; ask for keys and notice to tenants.',
    );
  if (given !== null) taken(house, given, say);
  void index;
  return list;
}

/** Years that papers and plates give, older than the oldest year that the part may be of. */
function datedBefore(house: House, part: Part): number[] {
  const oldest = Math.min(...part.built.years.map((y) => y.value));
  const years = house.clues.flatMap(({ part: where, year }) =>
    where === part.name && year !== null && year < oldest ? [year] : [],
  );
  return [...new Set(years)].sort((a, b) => a - b);
}

function weather(house: House, say: (about: string, words: string) => number): void {
  const { rainHours, outdoorF, indoorF, snow, windy, droughtDays, daylightMinutes, minutes } = house.visit;
  if (rainHours === null || rainHours > DRY_HOURS)
    say(
      'rain',
      'No rain in the last two days is known of: dry ground, basement or attic says little about leaks.',
    );
  if (droughtDays !== null && droughtDays >= DROUGHT_DAYS)
    say(
      'drought',
      `${droughtDays} days without rain: clay has shrunk, so cracks, gaps and doors are not as in a wet season. Measure and date; one visit shows no movement.`,
    );
  if (snow)
    say(
      'snow',
      'Snow hides roof, grade and steps, and no ladder goes up: say what could not be seen, and offer a return visit.',
    );
  if (windy) say('wind', 'Wind: no ladder goes up; stand clear of loose slates and limbs.');
  if (daylightMinutes !== null && daylightMinutes < minutes)
    say(
      'daylight',
      `Daylight ends ${daylightMinutes} minutes after arrival: the outside comes first; what is seen by torch is seen again by day.`,
    );
  if (outdoorF !== null && outdoorF >= HOT)
    say('attic', 'Hot day: do the attic first thing, a few minutes at a time, with water to drink.');
  if (outdoorF !== null && outdoorF <= 32)
    say(
      'frost',
      'Freezing: no cooling test, outside taps may be frozen, and snow or ice may hide roof and grade.',
    );
  if (outdoorF !== null && indoorF !== null && Math.abs(outdoorF - indoorF) < INFRARED_DIFFERENCE)
    say(
      'infrared',
      'Inside and outside differ by less than 18 F: an infrared picture of insulation will show little.',
    );
}

/** Inputs that were not given and had to be taken as something. */
function taken(house: House, given: HouseInput, say: (about: string, words: string) => number): void {
  const list: string[] = [];
  if (given.visit?.minutes === undefined) list.push(`${house.visit.minutes} minutes on site`);
  if (given.visit?.team === undefined) list.push(`${house.visit.team} person`);
  if (given.units === undefined) list.push(`${house.units} unit${house.units > 1 ? 's' : ''}`);
  if (given.parts[0]?.storeys === undefined) {
    const storeys = house.parts[0]?.storeys ?? 1;
    list.push(`${storeys} ${storeys > 1 ? 'storeys' : 'storey'}`);
  }
  if (list.length > 0) say('taken', `Not given, so taken as: ${list.join(', ')}.`);
}
