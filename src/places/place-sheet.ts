import type { Base } from '../../knowledge/schema/base.ts';
import type { PlaceFactor } from '../../knowledge/schema/common.ts';
import type { State } from '../../knowledge/schema/place.ts';
import { PLACE_FACTORS } from '../../knowledge/schema/words.ts';
import type { Form, Foundation, Odds } from '../../planner/house/house.ts';
import { foundationPrior } from '../../planner/house/priors.ts';
import { decayIndex } from '../../planner/places/decay-index.ts';
import { FACTOR_BASIS, factorInWords } from '../../planner/places/factors.ts';
import { anywhereIn, zonesOf } from '../../planner/places/here.ts';
import { factorOdds } from '../../planner/places/normaliser.ts';
import type { Cladding } from './claddings.ts';
import type { Station } from './nearest-stations.ts';

/** What a factor does in a state, and the failure modes that it moves, most moved first. */
export interface Moved {
  factor: PlaceFactor;
  say: string;
  grade: string;
  /** By how much the odds are multiplied at full strength. */
  odds: number;
  failures: { id: string; title: string; odds: number }[];
}

/** How many failure modes of a factor a sheet names. */
const NAMED = 6;

/** Every place factor with its effect in a state, the one that moves odds most first. */
export function movedBy(base: Base, state: State): Moved[] {
  const here = anywhereIn(state);
  const distance = (odds: number): number => Math.abs(Math.log(odds));
  return PLACE_FACTORS.map((factor) => ({
    factor,
    say: factorInWords(factor, here),
    grade: FACTOR_BASIS[factor].grade,
    odds: factorOdds(base, factor, 1, here),
    failures: base.failures
      .flatMap((f) =>
        f.place
          .filter((p) => p.factor === factor)
          .map((p) => ({ id: f.id, title: f.title, odds: factorOdds(base, factor, p.strength, here) })),
      )
      .sort((a, b) => distance(b.odds) - distance(a.odds) || (a.id < b.id ? -1 : 1))
      .slice(0, NAMED),
  })).sort((a, b) => distance(b.odds) - distance(a.odds) || (a.factor < b.factor ? -1 : 1));
}

/** Foundation kinds of detached houses of a state, as the planner has them: rows of vintages, shares by kind. */
export function foundationRows(
  base: Base,
  state: Pick<State, 'zones' | 'division'>,
): { years: string; shares: { kind: Foundation; share: number }[] }[] {
  const { kinds, vintages } = base.places.foundations;
  const detached: Odds<Form> = [{ value: 'detached', p: 1 }];
  const shareOf = (kind: Foundation, year: number): number =>
    foundationPrior(base, zonesOf(state), [{ value: year, p: 1 }], detached, state.division).find(
      (o) => o.value === kind,
    )?.p ?? 0;
  return vintages
    .map(([from, to], i) => ({
      from,
      years: i === 0 ? `before ${to + 1}` : `${from} to ${to}`,
      shares: kinds.map((kind) => ({ kind, share: shareOf(kind, from) })),
    }))
    .filter(({ from }) => from < 1980)
    .map(({ years, shares }) => ({ years, shares }));
}

/** Claddings by vintage as a sentence each, most common first. */
export function claddingLines(claddings: readonly Cladding[]): { vintage: string; say: string }[] {
  const vintages = [...new Set(claddings.map((c) => c.vintage))];
  return vintages.map((vintage) => ({
    vintage: vintage === '<1940' ? 'before 1940' : `19${vintage.slice(2, 4)} to 19${vintage.slice(-2)}`,
    say: claddings
      .filter((c) => c.vintage === vintage)
      .sort((a, b) => b.share - a.share || (a.cladding < b.cladding ? -1 : 1))
      .map((c) => `${c.cladding} ${Math.round(c.share * 100)}`)
      .join(', '),
  }));
}

export function stationLines(
  stations: readonly Station[],
  state: string,
): { name: string; index: number; feet: number }[] {
  return stations
    .filter((s) => s.state === state)
    .map((s) => ({ name: s.name, index: decayIndex(s.months), feet: s.elevationM / 0.3048 }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
