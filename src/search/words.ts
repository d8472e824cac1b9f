import { fold } from './fold.ts';

/** Words as the search takes them: one way of cutting for what is indexed and for what is asked. */

/** Words that say nothing of a house. Short trade words (gas, lead, no, hot) are not among them. */
const STOP_WORDS = new Set(
  `a about after all also am an and any anyone are around as at be been before but by can cant could did do does
  doesnt dont down else every for from get gets getting go goes going got had has have having help her here hi him
  his how i id if ill im in into is isnt it its ive just keep keeps like looking lot make me my need now of off on
  one only or other our out over please put question really seem seems should so some someone something still take
  than thanks that the their them then there theres these they thing things this those to too up us use using very
  want was way we were what whats when where which while who why will with would you your`
    .split(/\s+/)
    .filter((word) => word !== ''),
);

/** Words that say little where others say more: left out of a question that has two better ones. */
const WEAK_WORDS = new Set(
  `advice age bad best better big check close common deal down fix good guy happen house home ideas issue little live
  long look normal old place problem recommend remove replace right safe side small tell today trouble weird work
  wrong year yesterday`.split(/\s+/),
);

/** Units written in many ways, folded into one spelling after a number. */
const UNITS: readonly [RegExp, string][] = [
  [/(\d)\s*-?\s*(?:amperes?|amps?)\b/g, '$1amp '],
  [/(\d)a\b/g, '$1amp '],
  [/(\d)\s*-?\s*(?:volts?|v)\b/g, '$1volt '],
  [/(\d)\s*-?\s*(?:inches|inch|in\b\.?|"|″|”)/g, '$1inch '],
  [/(\d)\s*-?\s*(?:feet|foot|ft\b\.?|'(?!\w)|′)/g, '$1foot '],
  [/(\d)\s*-?\s*(?:gauge|ga\b|awg)/g, '$1gauge '],
  [/(\d)\s*-?\s*(?:gallons?|gal\b\.?)/g, '$1gallon '],
  [/(\d)\s*-?\s*(?:psi)\b/g, '$1psi '],
];

/** `9 x 9`, `9x9`, `9 by 9`, `9"x9"` are one size. */
const SIZE =
  /(\d+)\s*(?:"|''|inch)?\s*(?:x|×|by)\s*(\d+)(?:\s*(?:x|×|by)\s*(\d+))?\s*(?:"|''|inch(?:es)?\b)?/g;

/** Cuts text into lower-case words of letters and digits, with numbers joined to their units and sizes whole. */
export function wordsOf(text: string): string[] {
  let folded = text
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/(\w)['’](\w)/g, '$1$2');
  folded = folded.replace(SIZE, (_, a: string, b: string, c: string | undefined) =>
    c === undefined ? ` ${a}x${b} ` : ` ${a}x${b}x${c} `,
  );
  for (const [pattern, to] of UNITS) folded = folded.replace(pattern, to);
  return folded.match(/[a-z0-9]+/g) ?? [];
}

/** The words of a text as they are indexed: without the small ones, folded, and a number with a unit also as
 * number and unit apart. */
export function foldedWords(text: string): string[] {
  return wordsOf(text)
    .filter((word) => !STOP_WORDS.has(word))
    .flatMap(formsOf);
}

/** What a word is indexed as: `pipes` as `pipe`; `60amp` as itself, `60` and `amp`. */
export function formsOf(word: string): string[] {
  const unit = /^(\d+)(amp|volt|inch|foot|gauge|gallon|psi)$/.exec(word);
  return unit?.[1] === undefined || unit[2] === undefined ? [fold(word)] : [word, unit[1], unit[2]];
}

/** The words of a question worth looking for: not the small ones, nor weak ones if two stronger are there; what
 * was typed as it is if nothing else is left. */
export function tellingWords(typed: readonly string[]): string[] {
  const telling = [...new Set(typed.filter((word) => !STOP_WORDS.has(word)))];
  const strong = telling.filter((word) => !WEAK_WORDS.has(word) && !WEAK_WORDS.has(fold(word)));
  if (strong.length >= 2) return strong;
  return telling.length > 0 ? telling : [...new Set(typed)];
}
