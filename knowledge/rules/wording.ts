import type { Base, Finding } from '../schema/base.ts';
import { fileOf, type Rule, WRITTEN_KINDS } from './rule.ts';

/** Words that promise what a look can't give. Each with what to write instead. */
export const NEVER_SAY: { pattern: RegExp; instead: string }[] = [
  { pattern: /\babsent\b/i, instead: 'say "not seen" and from where' },
  { pattern: /\bcleared\b/i, instead: "say what was seen and what that can't show" },
  { pattern: /\b(safe|safely)\b/i, instead: 'say what was seen; leave the verdict to the licensed trade' },
  {
    pattern: /\b(proves?|proven|proved)\b/i,
    instead: 'say "points to", "raises the odds", "does not settle"',
  },
  { pattern: /\bup to code\b/i, instead: 'say what the rule asked and when; refer to the local authority' },
  {
    pattern: /\bactive (termites?|insects?|infestation|beetles?|ants?)\b/i,
    instead: 'say "signs of"; live insects are for a pest inspector',
  },
  {
    pattern: /\b(is|are|contains|has|have) (friable )?(asbestos|lead-based paint|lead paint|mold)\b/i,
    instead: 'say "may contain" or "presume until a laboratory says otherwise"',
  },
];

export const neverSay: Rule = {
  name: 'never-say',
  must: 'No text promises absence, clearance or safety, or names asbestos, lead or mold without a laboratory.',
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    for (const { file, field, text } of texts(base))
      for (const { pattern, instead } of NEVER_SAY) {
        const match = pattern.exec(text);
        if (match !== null)
          findings.push({
            file,
            field,
            problem: `says "${match[0]}" in "${around(text, match.index)}"`,
            fix: instead,
          });
      }
    return findings;
  },
};

/** Every piece of prose in the entries that reaches a reader (sources keep their own titles). */
export function texts(base: Base): { file: string; field: string; text: string }[] {
  const found: { file: string; field: string; text: string }[] = [];
  const visit = (value: unknown, file: string, field: string): void => {
    if (typeof value === 'string') {
      if (value.includes(' ')) found.push({ file, field, text: value });
    } else if (Array.isArray(value))
      for (const [i, item] of value.entries()) visit(item, file, `${field}.${i}`);
    else if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value))
        visit(inner, file, field === '' ? key : `${field}.${key}`);
  };
  for (const kind of WRITTEN_KINDS) for (const entry of base[kind]) visit(entry, fileOf(kind, entry.id), '');
  return found;
}

function around(text: string, index: number): string {
  return text.slice(Math.max(0, index - 30), index + 40).replace(/\s+/g, ' ');
}
