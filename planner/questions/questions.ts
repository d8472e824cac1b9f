import type { Clue } from '../../knowledge/schema/clue.ts';
import type { BaseIndex } from '../base-index.ts';
import type { SystemState } from '../belief/believe.ts';
import { bareClue, notMet } from '../belief/not-met.ts';
import type { Condition } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { round } from '../numerics/functions.ts';
import type { Look, PlanQuestion } from '../plan-types.ts';
import { Looking, worthOfTelling } from '../value/information.ts';
import { stakeOf } from '../value/stakes.ts';
import { worthOfYears } from '../value/year-worth.ts';

/** A question is shown where its subject is in the house with at least these odds. */
const WORTH_ASKING_ODDS = 0.1;

/** How many looks before the visit are named. */
const LOOKS = 10;

/** Questions and looks, most worth first. */
export function ask(
  index: BaseIndex,
  house: House,
  states: SystemState[],
  conditions: Condition[],
): { questions: PlanQuestion[]; looks: Look[] } {
  const worthOf = worths(index, house, states, conditions);
  return {
    questions: questions(index, house, states, conditions, worthOf),
    looks: looks(index, worthOf, house.clues),
  };
}

/** What looking for each clue is worth that was not met yet. A system of several parts is asked about once, for the
 * first of them. */
function worths(
  index: BaseIndex,
  house: House,
  states: SystemState[],
  conditions: Condition[],
): Map<string, number> {
  const known = new Set(house.clues.map((c) => bareClue(c.id)));
  const own = new Map<SystemState, Condition[]>();
  const first = new Map<string, Condition>();
  for (const c of conditions) {
    const list = own.get(c.state);
    if (list === undefined) own.set(c.state, [c]);
    else list.push(c);
    if (!first.has(c.failure.id)) first.set(c.failure.id, c);
  }
  const systems = new Map<string, { applies: number; reading: (clue: Clue) => number }>();
  for (const s of states)
    if (!systems.has(s.system.id))
      systems.set(s.system.id, {
        applies: s.applies,
        reading: readingWorths(s, own.get(s) ?? [], house.client),
      });
  const worthOf = new Map<string, number>();
  for (const clue of index.base.clues) {
    const system = systems.get(clue.system);
    if (system === undefined || known.has(clue.id)) continue;
    worthOf.set(clue.id, system.applies * (system.reading(clue) + worthOfTelling(clue, first, house.client)));
  }
  addYears(index, house, states, conditions, worthOf);
  return worthOf;
}

/** Adds what clues to the build year itself tell of a vague one, but for those of a group that was told of already. */
function addYears(
  index: BaseIndex,
  house: House,
  states: SystemState[],
  conditions: Condition[],
  worthOf: Map<string, number>,
): void {
  const years = states[0]?.years ?? [];
  if (years.length < 2) return;
  const told = new Set(house.clues.map(({ id }) => index.clues.get(id)?.group));
  for (const clue of index.base.clues) {
    const worth = worthOf.get(clue.id);
    if (clue.built === undefined || worth === undefined || told.has(clue.group)) continue;
    worthOf.set(clue.id, worth + worthOfYears(clue, years, conditions, house.client));
  }
}

/** What each clue's reading would tell, worked out once for each state and its conditions. */
function readingWorths(
  state: SystemState,
  conditions: Condition[],
  client: readonly string[],
): (clue: Clue) => number {
  const [first] = conditions;
  if (first === undefined) return () => 0;
  const who = client.join();
  const ready = told.get(first);
  const of = ready?.who === who ? ready.of : new Map<string, number>();
  told.set(first, { who, of });
  let looking: Looking | null = null;
  return (clue) => {
    const kept = of.get(clue.id);
    if (kept !== undefined) return kept;
    looking ??= new Looking(state, conditions, client);
    const worth = looking.worthOf(clue);
    of.set(clue.id, worth);
    return worth;
  };
}

/** By the first condition of a state: the conditions of a state are made together. */
const told = new WeakMap<Condition, { who: string; of: Map<string, number> }>();

function questions(
  index: BaseIndex,
  house: House,
  states: SystemState[],
  conditions: Condition[],
  worthOf: Map<string, number>,
): PlanQuestion[] {
  const here = new Map<string, number>();
  for (const s of states) here.set(s.system.id, Math.max(here.get(s.system.id) ?? 0, s.applies));
  const main = house.parts[0];
  if (main === undefined) return [];
  const unsureOf = new Map<string, number>();
  for (const c of conditions) {
    const unsure = stakeOf(c.failure, house.client) * unsureness(c);
    unsureOf.set(c.failure.id, (unsureOf.get(c.failure.id) ?? 0) + unsure);
  }
  const asked = index.base.questions.flatMap((q) => {
    const odds = whenOdds(q.when, house, main) * Math.max(...q.systems.map((s) => here.get(s) ?? 0));
    if (odds < WORTH_ASKING_ODDS) return [];
    const unsure = q.failures.reduce((sum, id) => sum + (unsureOf.get(id) ?? 0), 0);
    const answers = q.answers.reduce((sum, id) => sum + (worthOf.get(id) ?? 0), 0);
    return [
      {
        question: q.id,
        ask: q.ask,
        of: q.of,
        why: q.why,
        worth: round(odds * (q.tells * unsure + ANSWER_SHARE * answers), 3),
        papers: q.papers,
        systems: q.systems,
      },
    ];
  });
  return asked.sort((a, b) => b.worth - a.worth || (a.question < b.question ? -1 : 1));
}

/** Part of the worth of a clue that hearsay carries (practice): a seller's word is weaker than a look. */
const ANSWER_SHARE = 0.5;

/** How much there is left to learn of a failure mode: most at even odds, none at 0 or 1; a wide range adds. */
function unsureness(c: Condition): number {
  return 2 * c.probability * (1 - c.probability) + (c.high - c.low) / 4;
}

/** The group of a clue that a record alone can tell: once read, its other answers are not worth looking for. */
function readOnce(index: BaseIndex, id: string): string[] {
  const clue = index.clues.get(id);
  return clue !== undefined && clue.dated === undefined && clue.where.every((w) => w === 'record')
    ? [clue.group]
    : [];
}

function looks(index: BaseIndex, worthOf: Map<string, number>, told: House['clues']): Look[] {
  const before = index.base.clues
    .filter(
      (c) => c.where.some((w) => w === 'photos' || w === 'record' || w === 'seller') && c.dated === undefined,
    )
    .map((c) => ({ clue: c, worth: worthOf.get(c.id) ?? 0 }))
    .filter((l) => l.worth > 1e-4)
    .sort((a, b) => b.worth - a.worth || (a.clue.id < b.clue.id ? -1 : 1));
  const groups = new Set(told.flatMap(({ id }) => readOnce(index, id)));
  const chosen: Look[] = [];
  for (const { clue, worth } of before) {
    if (groups.has(clue.group) || chosen.length === LOOKS) continue;
    groups.add(clue.group);
    chosen.push({
      clue: clue.id,
      say: clue.say,
      where: clue.where,
      worth: round(worth, 3),
      system: clue.system,
      missable: notMet(clue) !== null,
    });
  }
  return chosen;
}
