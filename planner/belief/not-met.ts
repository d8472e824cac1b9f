import type { Clue } from '../../knowledge/schema/clue.ts';

/** Before the id of a clue that was looked for and not met. */
export const NOT = 'not:';

/** A clue that speaks of failure modes is met in so many of the houses that have one (practice). */
export const MET_IF_FAILED = 0.6;

/** The id of a clue, whether it was met or not. */
export function bareClue(id: string): string {
  return id.startsWith(NOT) ? id.slice(NOT.length) : id;
}

/** Clues by id, met or not met; what not meeting one says is made when it is asked for. */
export class ClueIndex {
  readonly #met: Map<string, Clue>;
  readonly #missed = new Map<string, Clue | null>();

  constructor(clues: readonly Clue[]) {
    this.#met = new Map(clues.map((clue) => [clue.id, clue]));
  }

  get(id: string): Clue | undefined {
    if (!id.startsWith(NOT)) return this.#met.get(id);
    const ready = this.#missed.get(id);
    if (ready !== undefined) return ready ?? undefined;
    const clue = this.#met.get(bareClue(id));
    if (clue === undefined) return undefined;
    const missed = notMet(clue);
    this.#missed.set(id, missed);
    return missed ?? undefined;
  }
}

/** What it says that a clue was looked for, where it would show, and not met: every chance is one less the chance of
 * meeting it. Null where that says nothing that can be weighed: papers, hearsay, clues by installation year. */
export function notMet(clue: Clue): Clue | null {
  const looked = clue.where.some((w) => w === 'site' || w === 'photos');
  if (!looked || clue.dated !== undefined || clue.installed !== undefined) return null;
  const { built, caution: _, ...rest } = clue;
  return {
    ...rest,
    id: `${NOT}${clue.id}`,
    say: `Looked for and not met: ${clue.say}`,
    reads: missedReads(clue),
    ...(built === undefined ? {} : { built: { ...built, chance: built.chance.map((c) => 1 - c) } }),
    failures: Object.fromEntries(
      Object.entries(clue.failures).map(([failure, ratio]) => [failure, missedRatio(ratio)]),
    ),
    caution: 'It may still be there, out of sight or covered.',
  };
}

/** Chances of looking and not meeting the clue. One that speaks of both portions is one event: it is the portion in which
 * it is met more often that was looked at, and the other follows it. */
export function missedReads({ reads }: Pick<Clue, 'reads'>): Clue['reads'] {
  const { reachable, hidden } = reads;
  if (reachable === undefined || hidden === undefined)
    return {
      ...(reachable === undefined ? {} : { reachable: missed(reachable) }),
      ...(hidden === undefined ? {} : { hidden: missed(hidden) }),
    };
  return highest(reachable) >= highest(hidden)
    ? { reachable: missed(reachable) }
    : { hidden: missed(hidden) };
}

type Reading = NonNullable<Clue['reads']['reachable']>;

function missed(reading: Reading): Reading {
  return Object.fromEntries(Object.entries(reading).map(([id, chance]) => [id, 1 - chance]));
}

function highest(reading: Reading): number {
  return Math.max(...Object.values(reading));
}

/** Factor on the odds of a failure mode when a clue of it is not met, given that when it is. */
function missedRatio(ratio: number): number {
  const ifFailed = Math.min(MET_IF_FAILED, MET_IF_FAILED * ratio);
  return (1 - ifFailed) / (1 - ifFailed / ratio);
}
