import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../../planner/base-index.ts';
import { paceOf, wavesAt } from '../../planner/belief/fit-of.ts';
import { planHouse } from '../../planner/index.ts';
import { houseIn, reachableShare } from '../../src/calibrate/survey-forecast.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';
import { resolved } from './any-house.ts';
import { toySystem } from './toy-system.ts';

const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
const UNCOOLED = ['none', 'no-cooling-no-ducts'];

/** Chance that a house has no cooling in 2020. */
function uncooled(from: Base, state: string, built: number): number {
  const index = indexBase(from);
  const cooling = index.systems.get('cooling');
  if (cooling === undefined) throw new Error('no system cooling');
  return reachableShare(index, houseIn(from, state, built, 2020), cooling, UNCOOLED);
}

/** The base with another pace of the waves of cooling in a state. */
function atPace(state: string, pace: number): Base {
  const fits = base.fits.map((fit) =>
    fit.system === 'cooling' && fit.states === null
      ? { ...fit, regions: fit.regions?.map((r) => (r.states?.includes(state) ? { ...r, pace } : r)) }
      : fit,
  );
  return { ...base, fits };
}

describe('the pace of waves in a place', () => {
  it('multiplies their rates, and renews no more than all in a year', () => {
    expect(wavesAt(toySystem.waves, 1)).toBe(toySystem.waves);
    expect(wavesAt(toySystem.waves, 2).map((w) => w.rate)).toEqual([0.04, 0.2]);
    expect(wavesAt(toySystem.waves, 20).map((w) => w.rate)).toEqual([0.4, 1]);
    expect(paceOf([{ factor: {}, pace: 2, grade: 'practice', source: [] }])).toBe(2);
    expect(paceOf([{ factor: {}, grade: 'practice', source: [] }])).toBe(1);
  });

  it('tells when an old house without cooling gets it, which no factor of shares can', () => {
    const [slow, quick] = [uncooled(atPace('CA', 0.3), 'CA', 1925), uncooled(atPace('CA', 2), 'CA', 1925)];
    expect(slow).toBeGreaterThan(quick + 0.2);
  });

  it('is said where the belief is explained', () => {
    const pace = base.fits
      .find((f) => f.system === 'cooling' && f.states === null)
      ?.regions?.find((r) => r.states?.includes('CA'))?.pace;
    const plan = planHouse(base, resolved({ asOf: 2026, place: 'CA', parts: [{ built: 1925 }] }));
    const why = plan.systems.find((s) => s.system === 'cooling')?.why ?? [];
    expect(why.find((r) => r.kind === 'place')?.say).toContain(
      `${Math.round(100 * (pace ?? 0)) / 100} times the nation's pace`,
    );
  });

  // Shares derived for ResStock 3.2.0 from the energy survey of 2020 (nrel-resstock-3-2), detached houses from before 1940.
  it.each([
    ['CA', 0.467],
    ['TX', 0.031],
    ['WA', 0.451],
    ['MA', 0.102],
  ])('leaves old houses of %s uncooled about as often as surveyed', (state, surveyed) => {
    expect(Math.abs(uncooled(base, state, 1925) - surveyed)).toBeLessThan(0.1);
  });
});
