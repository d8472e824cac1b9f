import type { Base, Finding } from '../schema/base.ts';
import { chains } from './chains.ts';
import { overlap } from './overlap.ts';
import { order, reach, unique } from './reach.ts';
import { readability } from './readability.ts';
import { references } from './references.ts';
import type { Rule } from './rule.ts';
import { shares, years } from './shares.ts';
import { neverSay } from './wording.ts';

export const RULES: Rule[] = [
  unique,
  references,
  shares,
  years,
  reach,
  order,
  chains,
  neverSay,
  readability,
  overlap,
];

/** Runs every rule over the base; the findings name the rule, the file, the field and what to do. */
export function checkBase(base: Base): Finding[] {
  return RULES.flatMap((rule) => rule.run(base).map((finding) => ({ rule: rule.name, ...finding })));
}
