import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../../planner/base-index.ts';
import { believeSystem } from '../../planner/belief/believe.ts';
import { resolveHouse } from '../../planner/house/resolve.ts';
import { AMES_SYSTEMS, type AmesHouse } from './ames.ts';
import {
  averageForecast,
  decadeForecast,
  decadeFormForecast,
  type Forecast,
  listForecast,
} from './rivals.ts';

export interface Score {
  forecast: string;
  rows: number;
  /** Mean of minus the log of the chance given to the class recorded. */
  logLoss: number;
  /** Mean squared error summed over classes. */
  brier: number;
}

/** Mean difference in log loss, with the 90% interval of a paired bootstrap over houses. */
export interface Difference {
  mean: number;
  low: number;
  high: number;
}

/** Names of our own forecasts, and of the rival that is told the form too. */
export const OURS = 'Datestone';
export const OURS_FORM_KNOWN = 'Datestone, form known';
export const TABLE_FORM_KNOWN = 'decade table, form known';

export interface SystemScore {
  system: string;
  title: string;
  /** `all` years, or houses built `before 1961`. */
  years: string;
  scores: Score[];
  /** Ours less the decade table in log loss: 5th and 95th percentile over 2,000 resamples of houses. */
  againstDecade: Difference;
  /** The same for ours with the form of the house known, which the table does not know. */
  formAgainstDecade: Difference;
}

/** Chance of each recorded class from the planner, as of the year of sale, for a house of which only the place and
 * the year are known, and the form if asked. */
export function plannerForecast(
  base: Base,
  system: string,
  classes: Record<string, string[]>,
  known: 'form' | null = null,
): (h: AmesHouse) => Record<string, number> {
  const index = indexBase(base);
  const entry = index.systems.get(system);
  if (entry === undefined) throw new Error(`no system ${system}`);
  const made = new Map<string, Record<string, number>>();
  return ({ built, sold, form: recorded }) => {
    const form = known === 'form' ? recorded : 'unknown';
    const key = `${built} ${sold} ${form}`;
    const ready = made.get(key);
    if (ready !== undefined) return ready;
    const resolved = resolveHouse(base, { asOf: sold, place: 'IA', form, parts: [{ built }] });
    if ('problems' in resolved) throw new Error(`cannot read a house built in ${built}, seen in ${sold}`);
    const part = resolved.house.parts[0];
    if (part === undefined) throw new Error('a house has no part');
    const state = believeSystem(index, resolved.house, part, entry, new Set());
    const reachable = new Map(state.kernels.ids.map((id, m) => [id, sum(state.tables.reachable[m])]));
    const chances = Object.fromEntries(
      Object.entries(classes).map(([name, ids]) => [
        name,
        ids.reduce((sum, id) => sum + (reachable.get(id) ?? 0), 0),
      ]),
    );
    made.set(key, chances);
    return chances;
  };
}

/** Scores the planner and its rivals on the rows kept out of every fit. */
export function scoreAmes(base: Base, houses: AmesHouse[]): SystemScore[] {
  return AMES_SYSTEMS.flatMap(({ system, title, classes }) => {
    const names = Object.keys(classes);
    const known = houses.filter((h) => h.classes[system] !== null);
    const fitting = known.filter((h) => !h.held);
    const ours = plannerForecast(base, system, classes);
    const formKnown = plannerForecast(base, system, classes, 'form');
    const byForm = decadeFormForecast(fitting, system, names);
    const byYear = (forecast: Forecast) => (h: AmesHouse) => forecast(h.built);
    return [
      { years: 'all', keep: () => true },
      { years: 'before 1961', keep: (h: AmesHouse) => h.built < 1961 },
    ].map(({ years, keep }) => {
      const held = known.filter((h) => h.held && keep(h));
      const decade = byYear(decadeForecast(fitting, system, names));
      const scores = [
        score('in use between years', held, system, names, byYear(listForecast(base, classes))),
        score('one average', held, system, names, byYear(averageForecast(fitting, system, names, keep))),
        score('decade table', held, system, names, decade),
        score(OURS, held, system, names, ours),
        score(TABLE_FORM_KNOWN, held, system, names, (h) => byForm(h.built, h.form)),
        score(OURS_FORM_KNOWN, held, system, names, formKnown),
      ];
      const against = (forecast: typeof ours): Difference =>
        bootstrap(held.map((h) => loss(forecast(h), h.classes[system]) - loss(decade(h), h.classes[system])));
      return {
        system,
        title,
        years,
        scores,
        againstDecade: against(ours),
        formAgainstDecade: against(formKnown),
      };
    });
  });
}

function score(
  forecast: string,
  rows: AmesHouse[],
  system: string,
  names: string[],
  chancesOf: (h: AmesHouse) => Record<string, number>,
): Score {
  let logLoss = 0;
  let brier = 0;
  for (const house of rows) {
    const chances = chancesOf(house);
    const recorded = house.classes[system];
    logLoss += loss(chances, recorded);
    for (const name of names) brier += ((chances[name] ?? 0) - (name === recorded ? 1 : 0)) ** 2;
  }
  return { forecast, rows: rows.length, logLoss: logLoss / rows.length, brier: brier / rows.length };
}

function loss(chances: Record<string, number>, recorded: string | null | undefined): number {
  return -Math.log(Math.max(chances[recorded ?? ''] ?? 0, 1e-6));
}

/** Paired bootstrap over houses with a fixed seed. */
function bootstrap(differences: number[]): Difference {
  let seed = 20261124;
  const next = (): number => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
  const n = differences.length;
  const means = Array.from({ length: 2000 }, () => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += differences[Math.floor(next() * n)] ?? 0;
    return sum / n;
  }).sort((a, b) => a - b);
  return { mean: differences.reduce((a, b) => a + b, 0) / n, low: means[100] ?? 0, high: means[1899] ?? 0 };
}

function sum(row: Float64Array | undefined): number {
  let total = 0;
  for (const value of row ?? []) total += value;
  return total;
}
