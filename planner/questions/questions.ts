import type { BaseIndex } from '../base-index.ts';
import type { SystemState } from '../belief/believe.ts';
import type { Condition } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { whenOdds } from '../house/when.ts';
import { round } from '../numerics/functions.ts';
import type { Look, PlanQuestion } from '../plan-types.ts';
import { worthOfLooking } from '../value/information.ts';
import { stakeOf } from '../value/stakes.ts';

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
  const met = new Set(house.clues.map((c) => c.id));
  const worthOf = new Map<string, number>();
  for (const clue of index.base.clues) {
    if (met.has(clue.id)) continue;
    const state = states.find((s) => s.system.id === clue.system);
    worthOf.set(
      clue.id,
      state === undefined ? 0 : state.applies * worthOfLooking(clue, state, conditions, house.client),
    );
  }
  return { questions: questions(index, house, states, conditions, worthOf), looks: looks(index, worthOf) };
}

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
  const asked = index.base.questions.flatMap((q) => {
    const odds = whenOdds(q.when, house, main) * Math.max(...q.systems.map((s) => here.get(s) ?? 0));
    if (odds < WORTH_ASKING_ODDS) return [];
    const subjects = conditions.filter((c) => q.failures.includes(c.failure.id));
    const unsure = subjects.reduce((sum, c) => sum + stakeOf(c.failure, house.client) * unsureness(c), 0);
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

function looks(index: BaseIndex, worthOf: Map<string, number>): Look[] {
  const before = index.base.clues
    .filter(
      (c) => c.where.some((w) => w === 'photos' || w === 'record' || w === 'seller') && c.dated === undefined,
    )
    .map((c) => ({ clue: c, worth: worthOf.get(c.id) ?? 0 }))
    .filter((l) => l.worth > 1e-4)
    .sort((a, b) => b.worth - a.worth || (a.clue.id < b.clue.id ? -1 : 1));
  const groups = new Set<string>();
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
    });
  }
  return chosen;
}
