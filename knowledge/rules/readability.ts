import type { Base, Finding } from '../schema/base.ts';
import { fileOf, type Rule } from './rule.ts';

/** School grade that a buyer's text must not exceed. */
export const HIGHEST_GRADE = 9;

/** What a buyer reads must be plain: one text at a time, by the Flesch-Kincaid grade
 * (J. P. Kincaid and others, Navy research branch report 8-75, 1975; from memory). */
export const readability: Rule = {
  name: 'readability',
  must: `What a buyer reads is at school grade ${HIGHEST_GRADE} or below: what to say, what to ask, the head of a period.`,
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    for (const { file, field, text } of buyerTexts(base)) {
      const grade = readingGrade(text);
      if (grade > HIGHEST_GRADE)
        findings.push({
          file,
          field,
          problem: `reads at grade ${grade.toFixed(1)}: "${text.slice(0, 60)}"`,
          fix: 'make shorter sentences and use shorter words',
        });
    }
    return findings;
  },
};

/** The texts meant for a buyer's eyes. */
export function buyerTexts(base: Base): { file: string; field: string; text: string }[] {
  return [
    ...base.failures.map((f) => ({ file: fileOf('failures', f.id), field: 'say', text: f.say })),
    ...base.questions.map((q) => ({ file: fileOf('questions', q.id), field: 'ask', text: q.ask })),
    ...base.eras.map((e) => ({ file: fileOf('eras', e.id), field: 'answer', text: e.answer })),
  ];
}

/** Flesch-Kincaid grade: 0.39 words a sentence + 11.8 syllables a word - 15.59. */
export function readingGrade(text: string): number {
  const words = text.match(/[A-Za-z]+(?:'[a-z]+)?|\d+/g) ?? [];
  const sentences = text.split(/[.!?]+(?:\s|$)/).filter((part) => /\w/.test(part)).length;
  if (words.length === 0 || sentences === 0) return 0;
  const sounds = words.reduce((total, word) => total + syllables(word), 0);
  return 0.39 * (words.length / sentences) + 11.8 * (sounds / words.length) - 15.59;
}

/** Syllables of an English word, by its groups of vowels. A mute final e is silent, and so are most -ed and -es;
 * i before another vowel is a syllable of its own unless it only softens the letter before (`-tion`, `-cian`). */
export function syllables(word: string): number {
  const sounded = word
    .toLowerCase()
    .replace(/[^a-z]/g, '')
    .replace(/([^aeiouytdl]|[aeiouy]l)ed$/, '$1')
    .replace(/([^aeiouylsxzcgh])es?$/, '$1')
    .replace(/([aeiouy]l|[sxzcgh])e$/, '$1')
    .replace(/([^ctsgx])i([aou])/g, '$1i-$2');
  return Math.max(1, sounded.match(/[aeiouy]+/g)?.length ?? 0);
}
