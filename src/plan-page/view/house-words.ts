import type { House, Odds, Part } from '../../../planner/house/house.ts';
import { FORM_WORDS, ON_FOUNDATION, WALL_WORDS } from '../../site/words.ts';

/** The house in one line, as it was given: what is not known is said to be not known. */
export function houseInWords(house: House, stateName: string | null): string {
  const parts = house.parts.map((part, i) => partInWords(part, i === 0));
  const form = known(house.form);
  const place = stateName === null ? ', place not known' : ` in ${stateName}`;
  return `${form === null ? 'House' : FORM_WORDS[form]}${place}: ${parts.join('; ')}.`;
}

function partInWords(part: Part, main: boolean): string {
  const foundation = known(part.foundation);
  const walls = known(part.walls);
  const year = part.built.given === 'unknown' ? 'of unknown year' : `of ${yearsInWords(part.built.given)}`;
  const stands = foundation === null ? 'foundation not known' : ON_FOUNDATION[foundation];
  const storeys = main ? `, ${part.storeys} ${part.storeys === 1 ? 'storey' : 'storeys'}` : '';
  const body =
    walls === null
      ? `walls not known, ${stands}`
      : `${WALL_WORDS[walls].toLowerCase()}${foundation === null ? ',' : ''} ${stands}`;
  return `${part.name} ${year}, ${body}${storeys}`;
}

/** The value that is sure, or null where odds are spread. */
export function known<T>(odds: Odds<T>): T | null {
  const [only] = odds;
  return odds.length === 1 && only !== undefined ? only.value : null;
}

/** The likeliest value, for the drawing, which must draw something. */
export function likeliest<T>(odds: Odds<T>, fallback: T): T {
  let best = fallback;
  let most = -1;
  for (const { value, p } of odds)
    if (p > most) {
      most = p;
      best = value;
    }
  return best;
}

/** A build year as given, as it stands after "of": a decade takes its article. */
export function yearsInWords(given: string): string {
  return /^\d{4}s$/.test(given) ? `the ${given}` : given;
}
