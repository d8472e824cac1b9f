import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import { oddsInWords } from '../condition/odds-words.ts';
import { round } from '../numerics/functions.ts';
import type { Reason, Risk } from '../plan-types.ts';
import { priorityOf, stakeOf } from '../value/stakes.ts';
import { percent } from './percent.ts';

/** A failure mode's odds as numbers and words, with the reasons behind them. Made once for each condition and client. */
export function explainRisk(index: BaseIndex, c: Condition, client: readonly string[]): Risk {
  const who = client.join();
  const ready = made.get(c);
  if (ready?.who === who) return ready.risk;
  const risk = makeRisk(index, c, client);
  made.set(c, { who, risk });
  return risk;
}

const made = new WeakMap<Condition, { who: string; risk: Risk }>();

function makeRisk(index: BaseIndex, c: Condition, client: readonly string[]): Risk {
  const { failure } = c;
  return {
    failure: failure.id,
    title: failure.title,
    system: failure.system,
    part: c.state.part.name,
    probability: round(c.probability, 6),
    low: round(c.low, 6),
    high: round(c.high, 6),
    ...unitsOf(c),
    grade: c.grade,
    odds: oddsInWords(c.probability),
    soon: failure.soon,
    lifeSafety: failure.lifeSafety,
    stakes: failure.stakes,
    priority: round(priorityOf(c.probability, stakeOf(failure, client), failure.lifeSafety), 4),
    why: reasons(index, c),
  };
}

/** Chances in any one dwelling and in at least one, where they are not the same to three places. */
function unitsOf({ anyOne, probability }: Condition): Pick<Risk, 'units'> {
  if (anyOne === null || probability - anyOne < 0.0005) return {};
  return { units: { anyOne: round(anyOne, 6), atLeastOne: round(probability, 6) } };
}

type Cause = Condition['causes'][number]['cause'];

/** What is said of a cause in every plan, before and after the chance that what it needs is there. */
interface CauseWords {
  subject: string;
  /** Of an environmental cause, up to the age of the part. */
  effect: string;
  grade: Reason['grade'];
  source: string[];
}

const causeWords = new WeakMap<Cause, CauseWords>();

function wordsOf(index: BaseIndex, cause: Cause): CauseWords {
  const ready = causeWords.get(cause);
  if (ready !== undefined) return ready;
  const names = (cause.of ?? []).map((id) => index.materials.get(id)?.title ?? id);
  const figure =
    cause.cause === 'built-in' ? cause.share : cause.cause === 'ageing' ? cause.half : cause.base;
  const words = {
    subject: names.length === 0 ? 'The system is there' : shortList(names),
    effect: effectOf(cause),
    grade: figure.grade,
    source: figure.source,
  };
  causeWords.set(cause, words);
  return words;
}

function effectOf(cause: Cause): string {
  switch (cause.cause) {
    case 'built-in':
      return `Of houses with it, ${range(cause.share)} have this by design or custom.`;
    case 'ageing':
      return `Half have this by ${cause.half.best} years of age (${cause.half.low} to ${cause.half.high}).`;
    case 'environmental':
      return `About ${range(cause.base)} of such houses 80 years old have it; this part is about`;
  }
}

function causeReason(index: BaseIndex, c: Condition, { cause, ready }: Condition['causes'][number]): Reason {
  const { subject, effect, grade, source } = wordsOf(index, cause);
  const age = cause.cause === 'environmental' ? ` ${Math.round(c.partAge)}.` : '';
  const anyHouse = cause.cause === 'environmental' && cause.inAnyHouse;
  const present = anyHouse ? 'Any house can have it.' : `${subject}: ${percent(ready.present)}.`;
  return { kind: 'cause', say: `${present} ${effect}${age}`, grade, source };
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
  const { units } = unitsOf(c);
  if (units !== undefined)
    list.push({
      kind: 'input',
      say: `Each of the ${c.state.units?.count ?? 0} dwellings has its own: in any one of them ${percent(units.anyOne)}, in at least one ${percent(units.atLeastOne)}. Before any clue, half of such houses are taken as renewed as one, the others dwelling by dwelling.`,
      grade: 'practice',
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
