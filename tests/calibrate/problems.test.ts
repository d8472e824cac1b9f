import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ageSlope } from '../../src/calibrate/age-slope.ts';
import { type LeadShare, leadShares } from '../../src/calibrate/lead-survey.ts';
import { lifeRows } from '../../src/calibrate/life-tables.ts';
import { halfOf, type ProblemCell, readCells, shareOf } from '../../src/calibrate/problem-cells.ts';
import { PROBLEM_ITEMS } from '../../src/calibrate/problem-items.ts';
import { type Counted, expected, fitLink, type Link } from '../../src/calibrate/problem-link.ts';
import type { CellOdds } from '../../src/calibrate/problem-odds.ts';
import { aboveFloor, within } from '../../src/calibrate/problem-score.ts';
import { readLinks, scoreProblems } from '../../src/calibrate/problems.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

/** Condition against the American Housing Survey 1997 to 2013 (US Census Bureau and HUD, public domain), through the
 * observation link; lead-based paint against three national surveys; lives against publications not drawn on. */
const knowledge = join(import.meta.dirname, '../../knowledge');
const tables = join(import.meta.dirname, '../tables');
const { base } = readKnowledge(knowledge);
const cells = readCells(join(knowledge, 'surveys/housing-problems.csv'));

describe("the survey's cells", () => {
  // Tabulated apart from this code, from the same public rows: share and clustered standard error.
  it.each([
    ['foundation', 'before 1920', 0.0459, 0.0129, 294],
    ['foundation', '1950s', 0.0304, 0.007, 580],
    ['roof-leak', '1950s', 0.0724, 0.0131, 588],
    ['pipe-leak', 'before 1920', 0.0358, 0.0108, 296],
    ['breaker-trips', '1950s', 0.119, 0.0152, 584],
    ['peeling', 'before 1920', 0.05, 0.0126, 301],
  ])('add up to what was tabulated: %s, %s', (item, decade, share, error, answers) => {
    const found = shareOf(cells.filter((c) => c.item === item && c.decade === decade));
    expect(found?.share).toBeCloseTo(share, 3);
    expect(found?.error).toBeCloseTo(error, 3);
    expect(found?.answers).toBe(answers);
  });

  it('put a unit in one half, whatever the year', () => {
    expect(halfOf('28fa17f003')).toBe(halfOf('28fa17f003'));
    const homes = (half: string): number =>
      cells.filter((c) => c.half === half).reduce((sum, c) => sum + c.units, 0);
    expect(homes('fit') / (homes('fit') + homes('test'))).toBeCloseTo(0.5, 1);
  });
});

describe('the link', () => {
  const item = PROBLEM_ITEMS[0];
  if (item === undefined) throw new Error('there are no items');
  const truth: Link = { item: item.id, reported: 0.4, unprompted: 0.002, design: 1 };
  const where: Counted[] = (['Northeast', 'South'] as const).flatMap((region) =>
    (['before 1920', '1950s', '1990s'] as const).map((decade) => ({ region, decade, item: item.id })),
  );
  const odds: CellOdds[] = where.map(({ region, decade }, i) => ({
    region,
    decade,
    items: { [item.id]: 0.1 + 0.12 * i },
  }));
  const made = where.map((cell, i): ProblemCell => {
    const [homes, units] = [1000, 1000];
    const yes = homes * expected(truth, odds[i]?.items[item.id] ?? 0);
    return {
      ...cell,
      half: 'fit',
      answers: units,
      units,
      homes,
      yes,
      yesYes: yes,
      yesHomes: yes,
      homesHomes: homes,
    };
  });

  it('is found again from answers made by it', () => {
    expect(fitLink({ ...item, kind: 'sight' }, made, odds).reported).toBeCloseTo(0.4, 3);
    const both = fitLink({ ...item, kind: 'event' }, made, odds);
    expect(both.reported).toBeCloseTo(0.4, 2);
    expect(both.unprompted).toBeCloseTo(0.002, 3);
  });

  it('never reports more than there is', () => {
    for (const link of readLinks(knowledge).links) {
      expect(link.reported).toBeLessThanOrEqual(1);
      expect(link.unprompted).toBeLessThanOrEqual(link.reported);
    }
  });

  it('names failure modes that the base has', () => {
    const known = new Set(base.failures.map((f) => f.id));
    for (const { failures } of PROBLEM_ITEMS) for (const id of failures) expect([...known]).toContain(id);
  });
});

describe('age effects', () => {
  it('are found again from shares made by one', () => {
    const rows = [0, 1, 2, 3].flatMap((region) =>
      [1, 4, 8].map((decades) => ({
        decades,
        region,
        share: 1 / (1 + Math.exp(3 - region / 2 - 0.2 * decades)),
        answers: 100,
      })),
    );
    expect(ageSlope(rows).slope).toBeCloseTo(0.2, 4);
  });
});

describe('condition against the survey, on the half of the units that no fit saw', () => {
  const scores = scoreProblems(base, knowledge, 1);
  const rate = (good: boolean[]): number => good.filter((g) => g).length / good.length;

  it('is within its error in nine decades of ten', () => {
    expect(rate(scores.flatMap((s) => s.decades.map(within)))).toBeGreaterThanOrEqual(0.9);
  });

  it('is within its error in nine bands of a region of ten', () => {
    expect(rate(scores.flatMap((s) => s.bands.map(within)))).toBeGreaterThanOrEqual(0.9);
  });

  it.each(scores.map((s) => [s.item.title, s] as const))('%s: most decades', (_, score) => {
    expect(rate(score.decades.map(within))).toBeGreaterThanOrEqual(0.7);
  });

  it.each(scores.map((s) => [s.item.title, s] as const))(
    '%s: never below what occupants said',
    (_, score) => {
      for (const c of score.all)
        expect(aboveFloor(c), `${c.where}: ours ${c.present.toFixed(3)}, survey ${c.share.toFixed(3)}`).toBe(
          true,
        );
    },
  );

  it.each(scores.map((s) => [s.item.title, s.slope] as const))(
    '%s: rises with age as in the survey',
    (_, slope) => {
      expect(Math.abs(slope.ours - slope.survey)).toBeLessThanOrEqual(1.96 * slope.error);
    },
  );

  const slopeOf = (id: string): number => scores.find((s) => s.item.id === id)?.slope.ours ?? Number.NaN;

  it.each(['peeling', 'sagging-roof', 'missing-siding', 'sloping-walls', 'cracks', 'foundation'])(
    'age tells much: %s',
    (id) => {
      expect(slopeOf(id)).toBeGreaterThan(0.12);
    },
  );

  it.each(['roof-leak', 'pipe-leak', 'breaker-trips'])(
    'the age of the part tells, not that of the house: %s',
    (id) => {
      expect(Math.abs(slopeOf(id))).toBeLessThan(0.1);
    },
  );
});

describe('lead-based paint, a belief and no finding, against national surveys', () => {
  const rows = leadShares(base, knowledge);

  it.each(rows.map((r): [string, LeadShare] => [`${r.what}, ${r.from} to ${r.to}, ${r.source}`, r]))(
    '%s',
    (_, row) => {
      expect(Math.abs(row.ours - row.share), `ours ${row.ours.toFixed(3)}`).toBeLessThanOrEqual(row.margin);
    },
  );
});

describe('service lives against publications that the entries do not draw on', () => {
  const rows = lifeRows(base, tables, 'lives-independent.csv');

  it('meets nine of ten', () => {
    expect(rows.length).toBeGreaterThanOrEqual(25);
    expect(rows.filter((r) => r.meets).length / rows.length).toBeGreaterThanOrEqual(0.9);
  });
});
