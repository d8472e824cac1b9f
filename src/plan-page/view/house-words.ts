import type { House, Odds, Part } from '../../../planner/house/house.ts';
import { FORM_WORDS, FOUNDATION_WORDS, WALL_WORDS } from '../../site/words.ts';

/** The house in one line, as it was given: what is not known is said to be not known. */
export function houseInWords(house: House): string {
  const parts = house.parts.map((part, i) => partInWords(part, i === 0));
  const form = known(house.form);
  const place = house.place.state ?? 'place unknown';
  return `${form === null ? 'House' : FORM_WORDS[form]}, ${place}: ${parts.join('; ')}.`;
}

function partInWords(part: Part, main: boolean): string {
  const foundation = known(part.foundation);
  const walls = known(part.walls);
  const words = [
    `${part.name} ${part.built.given === 'unknown' ? 'of unknown year' : `of ${part.built.given}`}`,
    walls === null ? 'walls unknown' : WALL_WORDS[walls].toLowerCase(),
    foundation === null ? 'foundation unknown' : FOUNDATION_WORDS[foundation].toLowerCase(),
    main ? `${part.storeys} ${part.storeys === 1 ? 'storey' : 'storeys'}` : '',
  ];
  return words.filter((w) => w !== '').join(', ');
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
