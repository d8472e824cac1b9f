import { z } from 'zod';
import { Backing, backed, backedMessage, Id, Sentence } from './common.ts';

export const RULE_TOPICS = [
  'wiring',
  'grounding',
  'protection',
  'stairs',
  'egress',
  'glazing',
  'alarms',
  'ventilation',
  'plumbing',
  'heat',
  'structure',
  'materials',
] as const;

/** A rule or custom of building, and the years in which new work followed it. Adoption differed from town to town:
 * the years are those of the model rule or the custom, not of a given house. */
export const RuleThen = z
  .strictObject({
    id: Id,
    topic: z.enum(RULE_TOPICS),
    /** First year in force. */
    from: z.number().int(),
    /** First year in which another rule stood in its place; null: still so. */
    until: z.number().int().nullable(),
    what: Sentence,
    /** Why it matters now: what an old thing is by its age, and what is a fault all the same. */
    now: Sentence,
    systems: z.array(Id).min(1),
    ...Backing,
  })
  .refine(backed, backedMessage)
  .refine((rule) => rule.until === null || rule.until > rule.from, { message: 'until comes after from' });
export type RuleThen = z.infer<typeof RuleThen>;

/** The rules and customs under which a house of a year was built, oldest first. */
export function rulesInForce(rules: RuleThen[], year: number): RuleThen[] {
  return rules
    .filter((rule) => rule.from <= year && (rule.until === null || year < rule.until))
    .sort((a, b) => a.from - b.from || (a.id < b.id ? -1 : 1));
}
