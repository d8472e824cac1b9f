import type { Base } from '../../knowledge/schema/base.ts';
import type { Form } from '../../planner/house/house.ts';
import type { AmesHouse } from './ames.ts';
import { decadeOf } from './groups.ts';

/** A rival forecast: chance of each class for a house built in a year. */
export type Forecast = (built: number) => Record<string, number>;

/** "In use between these years": every class whose materials were sold in the build year is equally likely, with
 * 5% spread over all classes. What a printed table of typical years would say. */
export function listForecast(base: Base, classes: Record<string, string[]>): Forecast {
  const names = Object.keys(classes);
  return (built) => {
    const sold = names.filter((name) =>
      (classes[name] ?? []).some((id) => {
        if (id === 'none') return built < 1960;
        const years = base.materials.find((m) => m.id === id)?.years;
        return years !== undefined && built >= years.common && built <= (years.last ?? 9999);
      }),
    );
    const among = sold.length > 0 ? sold : names;
    return Object.fromEntries(
      names.map((name) => [name, 0.95 * (among.includes(name) ? 1 / among.length : 0) + 0.05 / names.length]),
    );
  };
}

/** One average over all fitting rows (before 1961 if asked), add-half smoothed. */
export function averageForecast(
  rows: AmesHouse[],
  system: string,
  names: string[],
  keep: (h: AmesHouse) => boolean,
): Forecast {
  const forecast = shares(rows.filter(keep), system, names, 0.5);
  return () => forecast;
}

/** Shares by decade of building, shrunk to the average by five houses. */
export function decadeForecast(rows: AmesHouse[], system: string, names: string[]): Forecast {
  const posterior = decadePosterior(rows, system, names);
  return (built) =>
    Object.fromEntries(
      names.map((name) => {
        const { a, b } = posterior(decadeOf(built), name);
        return [name, a / (a + b)];
      }),
    );
}

/** Shares by decade of building and form, shrunk to those of the decade by five houses. */
export function decadeFormForecast(
  rows: AmesHouse[],
  system: string,
  names: string[],
): (built: number, form: Form) => Record<string, number> {
  const byDecade = decadeForecast(rows, system, names);
  const counts = new Map<string, Map<string, number>>();
  for (const { built, form, classes } of rows) {
    const name = classes[system] ?? null;
    if (name === null) continue;
    const key = `${decadeOf(built)} ${form}`;
    const own = counts.get(key) ?? new Map<string, number>();
    own.set(name, (own.get(name) ?? 0) + 1);
    counts.set(key, own);
  }
  return (built, form) => {
    const own = counts.get(`${decadeOf(built)} ${form}`) ?? new Map<string, number>();
    const n = [...own.values()].reduce((sum, v) => sum + v, 0);
    const open = byDecade(built);
    return Object.fromEntries(
      names.map((name) => [name, ((own.get(name) ?? 0) + SHRINK * (open[name] ?? 0)) / (n + SHRINK)]),
    );
  };
}

/** The Beta posterior of a class's share in a decade behind the decade table: its houses, and five more of the average
 * mix. */
export function decadePosterior(
  rows: AmesHouse[],
  system: string,
  names: string[],
): (decade: number, name: string) => { a: number; b: number } {
  const overall = shares(rows, system, names, 0.5);
  const counts = new Map<number, Map<string, number>>();
  for (const { built, classes } of rows) {
    const name = classes[system] ?? null;
    if (name === null) continue;
    const own = counts.get(decadeOf(built)) ?? new Map<string, number>();
    own.set(name, (own.get(name) ?? 0) + 1);
    counts.set(decadeOf(built), own);
  }
  return (decade, name) => {
    const own = counts.get(decade) ?? new Map<string, number>();
    const n = [...own.values()].reduce((sum, v) => sum + v, 0);
    const k = own.get(name) ?? 0;
    const share = overall[name] ?? 0;
    return { a: k + SHRINK * share, b: n - k + SHRINK * (1 - share) };
  };
}

const SHRINK = 5;

function shares(rows: AmesHouse[], system: string, names: string[], add: number): Record<string, number> {
  const known = rows.filter((h) => h.classes[system] !== null && h.classes[system] !== undefined);
  return Object.fromEntries(
    names.map((name) => [
      name,
      (known.filter((h) => h.classes[system] === name).length + add) / (known.length + add * names.length),
    ]),
  );
}
