import type { Entry } from '../../knowledge/schema/base.ts';
import type { Check } from '../../knowledge/schema/check.ts';
import type { House } from '../house/house.ts';

/** Why a check is not for this visit. `again` if another visit could do it. */
export interface NotNow {
  why: string;
  again: boolean;
}

/** Outdoors at or above this, cooling may run and heat stays off; heat and cooling never both in one visit (F). */
const COOLING_WEATHER = 75;

/** Hours after rain in which rungs and roofs are taken as wet (practice). */
const WET_HOURS = 2;

/** Rain longer ago than this leaves a leak time to dry (hours; practice). */
export const DRY_HOURS = 48;

/** Days without rain after which clay soil has shrunk enough to move cracks and doors (practice). */
export const DROUGHT_DAYS = 21;

/** Outdoors at or above this an attic is entered first and for minutes only (F; practice). */
export const HOT = 85;

/** Difference of inside and outside below which an infrared picture of insulation shows little (F; practice). */
export const INFRARED_DIFFERENCE = 18;

/** Why a check has to wait for another visit, or null. */
export function reasonNotNow(check: Entry<Check>, house: House): NotNow | null {
  const { outdoorF, team, snow, windy, rainHours } = house.visit;
  const again = (why: string): NotNow => ({ why, again: true });
  if (check.runs !== undefined && house.utilities === 'off')
    return again(
      'utilities are off: closed valves and tripped breakers stay as they are; this needs a return visit',
    );
  if (isFirstDraw(check) && (house.utilities === 'off' || house.occupied === 'vacant'))
    return again('the water has stood too long to be a usual first draw: leave the bottle or set a date');
  if (check.people === 2 && team < 2) return again('it takes two people');
  if (check.hazard === 'ladder' || check.hazard === 'roof') {
    if (snow)
      return again(
        'snow or ice: no ladder goes up; the roof is seen from the ground, the rest on a return visit',
      );
    if (windy) return again('wind: no ladder goes up; look again on a still day');
    if (rainHours !== null && rainHours <= WET_HOURS)
      return again('rungs and roof are wet: no ladder goes up until they have dried');
  }
  if (check.runs === 'cooling' && outdoorF === null)
    return again('the outdoor temperature is not given; cooling is not run on a guess');
  if (check.runs === 'cooling' && outdoorF !== null && outdoorF < COOLING_WEATHER)
    return again(`heat and cooling are not both run in one visit, and at ${outdoorF} F heat is run`);
  if (check.runs === 'heat' && outdoorF !== null && outdoorF >= COOLING_WEATHER)
    return again(`at ${outdoorF} F outdoors cooling is run and heat is left off`);
  if (outdoorF !== null && check.outdoorF?.min !== undefined && outdoorF < check.outdoorF.min)
    return again(`it is not run below ${check.outdoorF.min} F outdoors`);
  if (outdoorF !== null && check.outdoorF?.max !== undefined && outdoorF > check.outdoorF.max)
    return again(`it is not run above ${check.outdoorF.max} F outdoors`);
  return null;
}

/** Water that stood in the pipes overnight: taken before anybody runs any. */
export function isFirstDraw(check: Check): boolean {
  return check.phase === 'arrival' && check.stop !== 'arrival';
}

/** Stops in the open air, where daylight and weather decide what can be seen. */
export const OUTSIDE = ['street', 'exterior', 'grounds', 'porches', 'roof', 'garage'];

/** Stops where water that came in would show. */
const WHERE_LEAKS_SHOW = ['attic', 'basement', 'crawl'];

/** What the day changes in what is seen at a stop: words for the person who stands there. `end` is when they leave. */
export function meansToday(stop: string, checks: Entry<Check>[], house: House, end: number): string[] {
  const { visit } = house;
  const says: string[] = [];
  const outside = OUTSIDE.includes(stop);
  if (WHERE_LEAKS_SHOW.includes(stop) && (visit.rainHours === null || visit.rainHours > DRY_HOURS))
    says.push(
      'No rain of the last two days is known: dry here says little about leaks. Look for old rings and rust.',
    );
  if (WHERE_LEAKS_SHOW.includes(stop) && visit.rainHours !== null && visit.rainHours <= DRY_HOURS)
    says.push(`Rain ${visit.rainHours} hours ago: drips and damp show today; look now and note where.`);
  if (
    visit.droughtDays !== null &&
    visit.droughtDays >= DROUGHT_DAYS &&
    ['exterior', 'grounds', 'main-rooms'].includes(stop)
  )
    says.push(
      `${visit.droughtDays} days without rain: clay has shrunk, so gaps at the wall and cracks may be wider than in a wet season. Measure and date them; one visit shows no movement.`,
    );
  if (visit.snow && ['street', 'roof', 'grounds', 'exterior', 'porches'].includes(stop))
    says.push('Snow covers roof, grade or steps: say which parts could not be seen.');
  if (visit.windy && stop === 'street') says.push('Wind: stand clear of loose slates, tiles and limbs.');
  if (visit.outdoorF !== null && visit.outdoorF <= 32 && (stop === 'exterior' || stop === 'grounds'))
    says.push('Freezing: leave outside taps as they are; frost may lift soil and hold doors and gates.');
  if (visit.outdoorF !== null && visit.outdoorF >= HOT && stop === 'attic')
    says.push(
      'Hot: a few minutes at a time, water to drink, somebody within call; come down at the first dizziness.',
    );
  if (house.occupied === 'vacant' && (stop === 'baths' || stop === 'kitchen'))
    says.push(
      'Vacant: traps may be dry and seals shrunk, and a short run does not load drains as a family does.',
    );
  if (house.utilities === 'off' && ['baths', 'kitchen', 'mechanical', 'basement', 'crawl'].includes(stop))
    says.push('Shut off: nothing ran, so dry fittings and ceilings say little.');
  if (checks.some((check) => check.tools.some((tool) => tool.includes('infrared')))) {
    says.push(
      'Infrared: leave out walls that the sun is on or has left within hours, and write down what ran before.',
    );
    if (
      visit.outdoorF !== null &&
      visit.indoorF !== null &&
      Math.abs(visit.outdoorF - visit.indoorF) < INFRARED_DIFFERENCE
    )
      says.push('Inside and outside are nearly alike: the picture shows little of insulation today.');
  }
  if (outside && visit.daylightMinutes !== null && end > visit.daylightMinutes)
    says.push('Daylight is gone before this ends: see again by day what was seen by torch.');
  return says;
}
