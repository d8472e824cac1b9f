import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../../planner/base-index.ts';
import { type OddsSpread, oddsSpread, oddsVariance, RANGE_SHARE } from '../../planner/belief/ranges.ts';
import { AMES_SYSTEMS, type AmesHouse } from './ames.ts';
import { groupsOf } from './groups.ts';
import {
  betaCounts,
  type CountChances,
  countRange,
  intervalScore,
  normalOddsCounts,
  partInside,
} from './predictive.ts';
import { countedClasses } from './reliability.ts';
import { decadePosterior } from './rivals.ts';
import { plannerForecast } from './score.ts';

/** How one forecast's ranges did over a set of groups. */
export interface RangeScore {
  groups: number;
  /** Share of groups inside the range of whole counts. */
  inside: number;
  /** The same where the edges of the range may cut a count. */
  partInside: number;
  /** Mean interval score for shares. */
  score: number;
}

export interface SystemRanges {
  system: string;
  title: string;
  /** Groups where at least one house is expected on either side, and all groups. */
  open: { ours: RangeScore; table: RangeScore };
  all: { ours: RangeScore; table: RangeScore };
}

/** A group with the counts that each forecast expects. */
export interface Judged {
  open: boolean;
  k: number;
  ours: CountChances;
  table: CountChances;
}

/** Scores the ranges on the rows kept out of every fit: how many of each class a decade's houses have, against the
 * counts expected under our odds with their spread and under the decade table with its Beta posterior. */
export function scoreRanges(base: Base, houses: readonly AmesHouse[]): SystemRanges[] {
  return rangesOf(
    AMES_SYSTEMS.map(({ system, title, classes }) => ({
      system,
      title,
      groups: judgeKeptOut(base, houses, system, classes),
    })),
  );
}

/** Scores by system, and of all together. */
export function rangesOf(judged: { system: string; title: string; groups: Judged[] }[]): SystemRanges[] {
  const whole = { system: 'all', title: 'All five', groups: judged.flatMap((j) => j.groups) };
  return [...judged, whole].map(({ system, title, groups }) => {
    const both = (kept: Judged[]) => ({
      ours: scoreOf(kept, (g) => g.ours),
      table: scoreOf(kept, (g) => g.table),
    });
    return { system, title, open: both(groups.filter((g) => g.open)), all: both(groups) };
  });
}

function judgeKeptOut(
  base: Base,
  houses: readonly AmesHouse[],
  system: string,
  classes: Record<string, string[]>,
): Judged[] {
  const forecast = plannerForecast(base, system, classes);
  const known = houses.flatMap((h) => {
    const name = h.classes[system] ?? null;
    return name === null ? [] : [{ ...h, name }];
  });
  const names = Object.keys(classes);
  const held = known
    .filter((h) => h.held)
    .map((h) => ({ built: h.built, name: h.name, chances: forecast(h) }));
  const fitting = known.filter((h) => !h.held);
  return judgeGroups(held, names, spreadInIowa(base, system), decadePosterior(fitting, system, names));
}

/** The spread that a plan gives odds of a system in Iowa. */
export function spreadInIowa(base: Base, system: string): OddsSpread {
  const index = indexBase(base);
  const entry = index.systems.get(system);
  if (entry === undefined) throw new Error(`no system ${system}`);
  return oddsSpread(index, entry, 'IA').reachable;
}

/** Groups of forecasted houses by class and decade, with what our odds and the decade table expect of each. */
export function judgeGroups(
  rows: Parameters<typeof groupsOf>[0],
  names: readonly string[],
  spread: OddsSpread,
  posterior: ReturnType<typeof decadePosterior>,
): Judged[] {
  return groupsOf(rows, countedClasses(names)).map(({ name, decade, n, k, chance }) => {
    const { a, b } = posterior(decade, name);
    return {
      open: chance * n >= 1 && (1 - chance) * n >= 1,
      k,
      ours: normalOddsCounts(chance, oddsVariance(chance, spread), n),
      table: betaCounts(a, b, n),
    };
  });
}

function scoreOf(groups: Judged[], countsOf: (g: Judged) => CountChances): RangeScore {
  const mean = (of: (g: Judged) => number): number =>
    groups.reduce((sum, g) => sum + of(g), 0) / groups.length;
  return {
    groups: groups.length,
    inside: mean((g) => {
      const { low, high } = countRange(countsOf(g), RANGE_SHARE);
      return g.k >= low && g.k <= high ? 1 : 0;
    }),
    partInside: mean((g) => partInside(countsOf(g), g.k, RANGE_SHARE)),
    score: mean((g) => intervalScore(countsOf(g), g.k, RANGE_SHARE)),
  };
}
