import type { Clue } from '../../knowledge/schema/clue.ts';
import type { BaseIndex } from '../base-index.ts';
import { NOT } from '../belief/not-met.ts';
import type { House, Odds } from './house.ts';
import { normalised } from './priors.ts';

type ToldClue = House['clues'][number];

/** The clues told and those that the same sight is for other systems (`implies`), met in the same place. What was told in
 * so many words, met or not met, is left as it is; an implied clue implies nothing further. */
export function withImplied(index: BaseIndex, told: ToldClue[]): ToldClue[] {
  const known = new Set(told.map(keyOf));
  const implied = told.flatMap((clue) =>
    (index.clues.get(clue.id)?.implies ?? []).flatMap((id) => {
      const other = { ...clue, id, year: null, impliedBy: clue.id };
      if (clue.id.startsWith(NOT) || known.has(keyOf(other))) return [];
      if (known.has(keyOf({ ...other, id: `${NOT}${id}` }))) return [];
      known.add(keyOf(other));
      return [other];
    }),
  );
  return [...told, ...implied];
}

function keyOf({ id, part, unit }: ToldClue): string {
  return `${id} ${unit} ${part}`;
}

/** Odds of an input that nobody gave, by the clues that speak of it (`inputs`). A given one stays: its odds are 1. */
export function oddsByClues<T extends string>(
  index: BaseIndex,
  told: ToldClue[],
  input: keyof Clue['inputs'],
  odds: Odds<T>,
): Odds<T> {
  let weighed = odds;
  for (const id of new Set(told.map((clue) => clue.id))) {
    const factors: Record<string, number> | undefined = id.startsWith(NOT)
      ? undefined
      : index.clues.get(id)?.inputs[input];
    if (factors !== undefined)
      weighed = normalised(weighed.map(({ value, p }) => ({ value, p: p * (factors[value] ?? 1) })));
  }
  return weighed;
}
