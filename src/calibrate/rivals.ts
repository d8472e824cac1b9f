import type { Base } from '../../knowledge/schema/base.ts';
import type { AmesHouse } from './ames.ts';

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
  const overall = shares(rows, system, names, 0.5);
  const tables = new Map<number, Record<string, number>>();
  for (const decade of new Set(rows.map((h) => Math.floor(h.built / 10)))) {
    const own = rows.filter((h) => Math.floor(h.built / 10) === decade && h.classes[system] !== null);
    const n = own.length;
    tables.set(
      decade,
      Object.fromEntries(
        names.map((name) => [
          name,
          (own.filter((h) => h.classes[system] === name).length + SHRINK * (overall[name] ?? 0)) /
            (n + SHRINK),
        ]),
      ),
    );
  }
  return (built) => tables.get(Math.floor(built / 10)) ?? overall;
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
