import type { Base } from '../../knowledge/schema/base.ts';
import type { State } from '../../knowledge/schema/place.ts';
import { exp } from '../numerics/functions.ts';
import { divisionFactor } from './division-factors.ts';
import type { Form, Foundation, Fuel, Odds, Roof, Sewer, Wall, Water } from './house.ts';

/** Odds of inputs that nobody gave. Graded common practice unless a source is named; they only spread what is
 * unknown, a given input always outranks them. */

/** Wall kind of old single-family houses: parcel records (ResStock 3.2.0 wall type, US, before 1940, 83% wood
 * frame and 15% brick), split further by practice. */
export const WALL_PRIOR: Odds<Wall> = [
  { value: 'frame', p: 0.79 },
  { value: 'brick', p: 0.11 },
  { value: 'veneer', p: 0.05 },
  { value: 'plank', p: 0.02 },
  { value: 'stone', p: 0.01 },
  { value: 'block', p: 0.01 },
  { value: 'log', p: 0.005 },
  { value: 'adobe', p: 0.005 },
];

export const FORM_PRIOR: Odds<Form> = [
  { value: 'detached', p: 0.85 },
  { value: 'row', p: 0.07 },
  { value: 'two-to-four', p: 0.08 },
];

export const WATER_PRIOR: Odds<Water> = [
  { value: 'town', p: 0.87 },
  { value: 'well', p: 0.13 },
];

export const SEWER_PRIOR: Odds<Sewer> = [
  { value: 'town', p: 0.8 },
  { value: 'septic', p: 0.2 },
];

/** Main heating fuel by region; practice, after the housing survey's order of fuels. */
export function fuelPrior(region: string | null): Odds<Fuel> {
  const [gas, oil, propane, electric, wood] = FUEL_BY_REGION[region ?? 'US'] ?? [0.6, 0.08, 0.06, 0.22, 0.04];
  return [
    { value: 'gas', p: gas },
    { value: 'oil', p: oil },
    { value: 'propane', p: propane },
    { value: 'electric', p: electric },
    { value: 'wood', p: wood },
  ];
}

const FUEL_BY_REGION: Record<string, [number, number, number, number, number]> = {
  US: [0.6, 0.08, 0.06, 0.22, 0.04],
  Northeast: [0.55, 0.27, 0.05, 0.09, 0.04],
  Midwest: [0.76, 0.02, 0.09, 0.1, 0.03],
  South: [0.45, 0.03, 0.06, 0.43, 0.03],
  West: [0.64, 0.02, 0.05, 0.23, 0.06],
};

export function roofPrior(form: Odds<Form>): Odds<Roof> {
  const row = form.find((f) => f.value === 'row')?.p ?? 0;
  const flat = 0.05 + 0.45 * row;
  return [
    { value: 'pitched', p: 1 - flat },
    { value: 'flat', p: flat },
  ];
}

/** Foundation kinds of houses of the years, climate zones, form and census division, from survey shares; the nation's
 * if the place is unknown. Houses of two to four units are taken as detached ones: no survey tells them apart. */
export function foundationPrior(
  base: Base,
  zones: Odds<string> | null,
  years: Odds<number>,
  form: Odds<Form>,
  division: string | null = null,
): Odds<Foundation> {
  const { kinds, vintages, byZone, rowByZone } = base.places.foundations;
  const factors = years.map(({ value }) =>
    kinds.map(divisionFactor(base.places.foundations, division, value)),
  );
  const odds = kinds.map((value) => ({ value, p: 0 }));
  const row = form.reduce((sum, f) => sum + (f.value === 'row' ? f.p : 0), 0);
  const add = (table: number[][], weight: number): void => {
    years.forEach(({ value: year, p }, y) => {
      const shares = (table[vintageOf(vintages, year)] ?? []).map((s, i) => s * (factors[y]?.[i] ?? 1));
      const whole = shares.reduce((sum, s) => sum + s, 0);
      odds.forEach((o, i) => {
        o.p += whole > 0 ? (weight * p * (shares[i] ?? 0)) / whole : 0;
      });
    });
  };
  for (const { value: zone, p } of zones ?? [{ value: 'ALL', p: 1 }]) {
    add(byZone[zone] ?? byZone.ALL ?? [], p * (1 - row));
    add(rowByZone[zone] ?? rowByZone.ALL ?? [], p * row);
  }
  return normalised(odds.filter((o) => o.p > 0));
}

/** States where houses of these years stand, by how many of them stand in each. */
export function statesOfYears(base: Base, years: Odds<number>): Odds<State> {
  const { vintages, byState, units } = base.places.stock;
  const odds = base.places.states.map((value) => ({ value, p: 0 }));
  for (const { value: year, p } of years) {
    const at = vintageOf(vintages, year);
    const houses = odds.map(({ value }) => (units[value.code] ?? 0) * (byState[value.code]?.[at] ?? 0));
    const all = houses.reduce((sum, n) => sum + n, 0);
    odds.forEach((o, i) => {
      o.p += all > 0 ? (p * (houses[i] ?? 0)) / all : 0;
    });
  }
  return normalised(odds);
}

/** Shares of the vintages among the houses standing in a state, or in the nation. */
function stockShares(base: Base, state: string | null): number[] {
  const { vintages, byState, units } = base.places.stock;
  const own = state === null ? undefined : byState[state];
  if (own !== undefined) return own;
  const all = Object.values(units).reduce((sum, n) => sum + n, 0);
  return vintages.map((_, i) =>
    Object.entries(byState).reduce((sum, [code, row]) => sum + ((units[code] ?? 0) * (row[i] ?? 0)) / all, 0),
  );
}

/** Build years of houses standing in a state (or the nation), by survey vintages, as one year in five. */
export function stockPrior(base: Base, state: string | null, asOf: number): Odds<number> {
  const { vintages } = base.places.stock;
  const shares = stockShares(base, state);
  const odds: Odds<number> = [];
  vintages.forEach(([from, to], i) => {
    const share = shares[i] ?? 0;
    const years: number[] = [];
    for (let y = from + 2; y <= Math.min(to, asOf); y += 5) years.push(y);
    for (const value of years) odds.push({ value, p: share / years.length });
  });
  return normalised(odds);
}

/** Build years of houses standing, year by year from `from` to `asOf`: a vintage's share is spread evenly over its
 * years; the oldest vintage thins out by half every twenty years before it begins (practice). */
export function stockByYear(base: Base, state: string | null, from: number, asOf: number): Odds<number> {
  const { vintages } = base.places.stock;
  const shares = stockShares(base, state);
  const density = vintages.map(([first, last], i) => (shares[i] ?? 0) / (last - first + 1));
  const oldest = vintages[0]?.[0] ?? from;
  const years = Array.from({ length: asOf - from + 1 }, (_, i) => from + i);
  return normalised(
    years.map((value) => {
      const at = density[vintageOf(vintages, value)] ?? 0;
      return { value, p: value < oldest ? at * exp((-Math.LN2 * (oldest - value)) / 20) : at };
    }),
  );
}

function vintageOf(vintages: [number, number][], year: number): number {
  const at = vintages.findIndex(([from, to]) => year >= from && year <= to);
  if (at >= 0) return at;
  return year < (vintages[0]?.[0] ?? 0) ? 0 : vintages.length - 1;
}

export function normalised<T>(odds: Odds<T>): Odds<T> {
  const sum = odds.reduce((total, o) => total + o.p, 0);
  return sum > 0 ? odds.map((o) => ({ value: o.value, p: o.p / sum })) : odds;
}
