import type { Clue } from '../../knowledge/schema/clue.ts';
import type { BaseIndex } from '../base-index.ts';
import type { House, Part } from '../house/house.ts';
import { log } from '../numerics/functions.ts';
import { CLAMP } from './evidence.ts';

type BuiltTable = NonNullable<Clue['built']>;

/** Log-likelihood, for each of `count` build years from `from` on, of what speaks of a part's build year itself: clues
 * with a chance by build year, and papers of work, by whose year the house stood. Of each group of clues only the one
 * whose chances differ most counts. `without` leaves clues out. */
export function builtLikelihood(
  index: BaseIndex,
  house: House,
  part: Part,
  from: number,
  count: number,
  without: ReadonlySet<string>,
): Float64Array {
  const groups = new Map<string, BuiltTable>();
  let stoodBy = Number.POSITIVE_INFINITY;
  for (const { id, year, part: where, impliedBy } of house.clues) {
    const clue = index.clues.get(id);
    if (clue === undefined || where !== part.name || without.has(id) || impliedBy !== undefined) continue;
    if (clue.dated?.kind === 'record' && year !== null) stoodBy = Math.min(stoodBy, year);
    if (clue.built === undefined) continue;
    const rival = groups.get(clue.group);
    if (rival === undefined || spread(clue.built) > spread(rival)) groups.set(clue.group, clue.built);
  }
  // A paper may be of another house, or of one that stood there before.
  const sum = Float64Array.from({ length: count }, (_, t) => (from + t > stoodBy ? -log(CLAMP) : 0));
  for (const table of groups.values()) {
    const highest = Math.max(...table.chance, 1e-9);
    for (let t = 0; t < count; t++) {
      const chance = chanceIn(table, from + t) / highest;
      sum[t] = (sum[t] ?? 0) + log(Math.max(chance, 1 / CLAMP));
    }
  }
  return sum;
}

/** Chance of the clue in a house built in `year`: linear between the table's years, constant outside. */
export function chanceIn({ years, chance }: BuiltTable, year: number): number {
  const right = years.findIndex((y) => y >= year);
  if (right < 0) return chance.at(-1) ?? 0;
  const [x0, x1] = [years[right - 1], years[right] ?? year];
  if (x0 === undefined) return chance[0] ?? 0;
  const w = (year - x0) / (x1 - x0);
  return (1 - w) * (chance[right - 1] ?? 0) + w * (chance[right] ?? 0);
}

function spread({ chance }: BuiltTable): number {
  return log(Math.max(...chance, 1e-9) / Math.max(Math.min(...chance), 1e-9));
}
