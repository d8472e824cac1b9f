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
const SIZE = /(\d+)\s*(?:"|''|inch)?\s*(?:x|×|by)\s*(\d+)(?:\s*(?:x|×|by)\s*(\d+))?/g;

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

export function isStopWord(word: string): boolean {
  return STOP_WORDS.has(word);
}

/** A word and what it folds to: the plain singular or verb, `60amp` also `60` and `amp`. Both are indexed, so a
 * beginning typed so far and a slip of the thumb still find the whole word. */
export function formsOf(word: string): string[] {
  const forms = new Set([word]);
  const unit = /^(\d+)(amp|volt|inch|foot|gauge|gallon|psi)$/.exec(word);
  if (unit?.[1] !== undefined && unit[2] !== undefined) {
    forms.add(unit[1]);
    forms.add(unit[2]);
  } else forms.add(fold(word));
  return [...forms];
}

/** A light fold of our own: plurals, -ing and -ed. It only has to be the same on both sides. */
export function fold(word: string): string {
  if (word.length < 4 || /\d/.test(word)) return word;
  if (word.endsWith('ies') && word.length > 4) return `${word.slice(0, -3)}y`;
  if (/(?:ss|sh|ch|x|zz)es$/.test(word)) return word.slice(0, -2);
  if (word.endsWith('s') && !/(?:ss|us|is)$/.test(word)) return fold(word.slice(0, -1));
  const stem = /^(.{3,})(?:ing|ed|y|er)$/.exec(word)?.[1];
  if (stem === undefined || !/[aeiouy]/.test(stem)) return word;
  const doubled = /([bdgklmnprt])\1$/.test(stem) ? stem.slice(0, -1) : stem;
  return doubled.endsWith('e') ? doubled.slice(0, -1) : doubled;
}
