/** A light fold of our own: plurals, -ing, -ed, -y and a silent e, so that pipe, pipes, piping and piped are one
 * word and tub and tube are not. It only has to be the same on both sides. The rules for what is left of a verb
 * are those of M. F. Porter, "An algorithm for suffix stripping", Program 14(3), 1980, steps 1 and 5. */
export function fold(word: string): string {
  if (word.length < 4 || /\d/.test(word)) return word;
  if (word.endsWith('ies') && word.length > 4) return fold(`${word.slice(0, -3)}y`);
  if (/(?:ss|sh|ch|x|zz)es$/.test(word)) return word.slice(0, -2);
  if (word.endsWith('s') && !/(?:ss|us|is)$/.test(word)) return fold(word.slice(0, -1));
  const verb = /^(.{3,}|[a-z][aeiou][a-z])(?:ing|ed)$/.exec(word)?.[1];
  if (verb !== undefined && /[aeiouy]/.test(verb)) return withoutSilentE(verbOf(verb));
  const noun = /^(.{3,})y$/.exec(word)?.[1];
  if (noun !== undefined && /[aeiou]/.test(noun)) return undoubled(noun);
  return withoutSilentE(word);
}

/** What stood before -ing or -ed: `dripp` is drip, `wir` is wire, `leak` is leak. */
function verbOf(stem: string): string {
  if (/(?:at|bl|iz)$/.test(stem)) return `${stem}e`;
  const single = undoubled(stem);
  if (single !== stem) return single;
  return syllables(stem) === 1 && isShort(stem) ? `${stem}e` : stem;
}

function undoubled(stem: string): string {
  return /([bdgkmnprt])\1$/.test(stem) ? stem.slice(0, -1) : stem;
}

function withoutSilentE(word: string): string {
  if (!word.endsWith('e') || word.length < 5) return word;
  const stem = word.slice(0, -1);
  return syllables(stem) > 1 || (syllables(stem) === 1 && !isShort(stem)) ? stem : word;
}

/** Runs of vowels followed by consonants. */
const syllables = (stem: string): number => stem.match(/[aeiouy]+[^aeiouy]+/g)?.length ?? 0;

/** Ends in consonant, vowel, consonant. */
const isShort = (stem: string): boolean => /[^aeiou][aeiouy][^aeiouwxy]$/.test(stem);
