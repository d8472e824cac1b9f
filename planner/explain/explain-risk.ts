import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import { oddsInWords } from '../condition/odds-words.ts';
import { round } from '../numerics/functions.ts';
import type { Reason, Risk } from '../plan-types.ts';
import { priorityOf, stakeOf } from '../value/stakes.ts';
import { percent } from './explain-system.ts';

/** A failure mode's odds as numbers and words, with the reasons behind them. */
export function explainRisk(index: BaseIndex, c: Condition, client: readonly string[]): Risk {
  const { failure } = c;
  return {
    failure: failure.id,
    title: failure.title,
    system: failure.system,
    part: c.state.part.name,
    probability: round(c.probability, 6),
    low: round(c.low, 6),
    high: round(c.high, 6),
    grade: c.grade,
    odds: oddsInWords(c.probability),
    soon: failure.soon,
    lifeSafety: failure.lifeSafety,
    stakes: failure.stakes,
    priority: round(priorityOf(c.probability, stakeOf(failure, client), failure.lifeSafety), 4),
    why: reasons(index, c),
  };
}

function causeReason(index: BaseIndex, c: Condition, { cause, ready }: Condition['causes'][number]): Reason {
  const names = (cause.of ?? []).map((id) => index.materials.get(id)?.title ?? id);
  const subject = names.length === 0 ? 'The system is there' : shortList(names);
  const present = `${subject}: ${percent(ready.present)}.`;
  switch (cause.cause) {
    case 'built-in':
      return {
        kind: 'cause',
        say: `${present} Of houses with it, ${range(cause.share)} have this by design or custom.`,
        grade: cause.share.grade,
        source: cause.share.source,
      };
    case 'ageing':
      return {
        kind: 'cause',
        say: `${present} Half have this by ${cause.half.best} years of age (${cause.half.low} to ${cause.half.high}).`,
        grade: cause.half.grade,
        source: cause.half.source,
      };
    case 'environmental':
      return {
        kind: 'cause',
        say: `${present} About ${range(cause.base)} of such houses 80 years old have it; this part is about ${Math.round(c.partAge)}.`,
        grade: cause.base.grade,
        source: cause.base.source,
      };
  }
}

function reasons(index: BaseIndex, c: Condition): Reason[] {
  const list = c.causes.map((cause) => causeReason(index, c, cause));
  for (const p of c.place)
    list.push({
      kind: 'place',
      say: `${p.say}. Odds times ${round(p.odds, 2)}.`,
      grade: p.grade,
      source: p.source,
    });
  for (const clue of c.clues)
    list.push({
      kind: 'clue',
      say: `${clue.say} Odds times ${round(clue.ratio, 2)}.`,
      grade: null,
      source: [],
    });
  if (c.applies < 1)
    list.push({
      kind: 'input',
      say: `Only houses of a kind have this; by what was given the odds of that are ${percent(c.applies)}.`,
      grade: null,
      source: [],
    });
  return list;
}

function range(figure: { best: number; low: number; high: number }): string {
  return `${percent(figure.best)} (${percent(figure.low)} to ${percent(figure.high)})`;
}

function shortList(names: string[]): string {
  return names.length <= 3
    ? names.join(', ')
    : `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;
}
