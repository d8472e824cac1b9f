import type { Options } from './options.ts';
import { UsageError } from './usage-error.ts';

/** For verbs that take options only. */
export function noWords(verb: string, options: Options): void {
  const [word] = options.words;
  if (word !== undefined)
    throw new UsageError(
      `${verb} takes no words, but ${JSON.stringify(word)} was given; see datestone ${verb} --help`,
    );
}

/** Fills text into lines of at most `width` characters, `first` before the first and `rest` before the others. */
export function wrap(text: string, width: number, first = '', rest = first): string[] {
  const lines: string[] = [];
  let line = '';
  const lead = (): string => (lines.length === 0 ? first : rest);
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    if (line !== '' && lead().length + line.length + 1 + word.length > width) {
      lines.push(lead() + line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') lines.push(lead() + line);
  return lines;
}

/** A title within a sentence: its first letter small, unless it opens with capitals (PEX). */
export function lowerFirst(title: string): string {
  return /^[A-Z][^A-Z]/.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;
}
