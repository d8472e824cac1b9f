import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Form } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import type { Plan } from '../../planner/plan-types.ts';
import { AMES_SYSTEMS } from '../../src/calibrate/ames.ts';
import { chancesOf } from '../../src/calibrate/cross-validate.ts';
import { fitSubject, SEEN } from '../../src/calibrate/fit-process.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';
import { datestone } from '../cli/run-datestone.ts';

const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
const YEARS = [1885, 1912, 1928, 1937, 1946, 1958, 1967, 1979, 1990, 2005];

const planned = (built: number, form: Form | 'unknown' = 'unknown'): Plan => {
  const input = { asOf: SEEN, place: 'IA', form, parts: [{ built: String(built) }] };
  const read = resolveHouse(base, input);
  if ('problems' in read) throw new Error(read.problems.map((p) => p.option).join(', '));
  return planHouse(base, read.house, input);
};

/** Odds that a plan gives a class of the record: its materials in the reachable portion, added up. */
const oddsIn = (plan: Plan, system: string, members: string[]): number =>
  (plan.systems.find((s) => s.system === system)?.materials ?? [])
    .filter((m) => members.includes(m.material))
    .reduce((sum, m) => sum + m.reachable, 0);

const fitted = AMES_SYSTEMS.map((tested) => {
  const fits = base.fits.filter((f) => f.system === tested.system);
  const fit = fits.find((f) => f.states?.includes('IA')) ?? fits.find((f) => f.states === null);
  if (fit === undefined) throw new Error(`no fit of ${tested.system}`);
  return { tested, fit, chances: chancesOf(fitSubject(base, tested), fit) };
});

describe('what was fitted is what a plan says', () => {
  // A plan rounds each material to six decimals and leaves out what is below a hundred-thousandth.
  const slack = (members: string[]): number => 1e-6 + 1e-5 * members.length;

  it.each(YEARS)('for a house of %i in Iowa', (built) => {
    const plan = planned(built);
    for (const { tested, chances } of fitted)
      for (const [name, members] of Object.entries(tested.classes)) {
        const expected = chances(built)[name] ?? 0;
        const said = oddsIn(plan, tested.system, members);
        const listed = (plan.systems.find((s) => s.system === tested.system)?.materials ?? []).filter((m) =>
          members.includes(m.material),
        ).length;
        const tolerance = listed === members.length ? 1e-6 * members.length : slack(members);
        expect(Math.abs(said - expected), `${tested.system}, ${name}`).toBeLessThan(tolerance);
      }
  });

  it.each([1912, 1946, 1979])('for a house of %i in Iowa whose form is known', (built) => {
    for (const form of ['detached', 'row', 'two-to-four'] as const) {
      const plan = planned(built, form);
      for (const { tested, fit } of fitted) {
        const chances = chancesOf(fitSubject(base, tested), fit, fit.forms?.[form])(built);
        for (const [name, members] of Object.entries(tested.classes))
          expect(
            Math.abs(oddsIn(plan, tested.system, members) - (chances[name] ?? 0)),
            `${form}, ${tested.system}, ${name}`,
          ).toBeLessThan(slack(members));
      }
    }
  });

  it('and what a batch says', () => {
    const path = join(mkdtempSync(join(tmpdir(), 'datestone-')), 'houses.csv');
    writeFileSync(path, `built,place\n${YEARS.map((y) => `${y},IA`).join('\n')}\n`);
    const ran = datestone(['plan', '--batch', path, '--as-of', String(SEEN)]);
    const plans = ran.out
      .trimEnd()
      .split('\n')
      .map((line): Plan => JSON.parse(line));
    expect(plans).toHaveLength(YEARS.length);
    YEARS.forEach((built, i) => {
      expect(plans[i]?.systems).toEqual(JSON.parse(JSON.stringify(planned(built).systems)));
    });
  });
});
