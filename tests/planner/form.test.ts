import { describe, expect, it } from 'vitest';
import type { Base } from '../../knowledge/schema/base.ts';
import type { Fit, FormFactors } from '../../knowledge/schema/fit.ts';
import { indexBase } from '../../planner/base-index.ts';
import type { Kernels } from '../../planner/belief/kernels.ts';
import { middleOf, systemKernels } from '../../planner/belief/system-kernels.ts';
import type { HouseInput } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import type { Plan, Reason } from '../../planner/plan-types.ts';
import { base, resolved } from './any-house.ts';

const houseOf = (said: Partial<HouseInput>): HouseInput => ({
  asOf: 2026,
  place: 'IA',
  parts: [{ built: 1975 }],
  ...said,
});

function planned(said: Partial<HouseInput>, of: Base = base): Plan {
  const input = houseOf(said);
  const read = resolveHouse(of, input);
  if ('problems' in read) throw new Error(read.problems.map((p) => p.option).join(', '));
  return planHouse(of, read.house, input);
}

/** The base with other factors by form in every fit. */
const withForms = (forms: Fit['forms']): Base => ({
  ...base,
  fits: base.fits.map(({ forms: _, ...fit }) => (forms === undefined ? fit : { ...fit, forms })),
});
const factors = (own: Partial<FormFactors>): FormFactors => ({
  new: {},
  renewal: {},
  rows: 100,
  effect: 1,
  ...own,
});

function kernelsOf(of: Base, said: Partial<HouseInput>): Kernels {
  const index = indexBase(of);
  const house = resolved(houseOf(said));
  const system = index.systems.get('cladding');
  const [part] = house.parts;
  if (system === undefined || part === undefined) throw new Error('no cladding');
  return middleOf(systemKernels(index, house, part, system)).kernels;
}

const odds = (plan: Plan, system: string, material: string): number =>
  plan.systems.find((s) => s.system === system)?.materials.find((m) => m.material === material)?.anywhere ??
  0;

function formReasons(plan: Plan): (Reason & { system: string })[] {
  return plan.systems.flatMap(({ system, why }) =>
    why.filter((r) => r.say.includes('against houses of all forms')).map((r) => ({ ...r, system })),
  );
}

describe('a house whose form is not known', () => {
  it.each([1885, 1931, 1975])('of %i has the plan that it would have if no fit told of forms', (built) => {
    const said = { parts: [{ built }] };
    expect(planned(said)).toEqual(planned(said, withForms(undefined)));
  });

  it('gives no reason of form', () => {
    expect(formReasons(planned({}))).toEqual([]);
  });
});

describe('a house whose form is known', () => {
  const fiber = 'fiber-cement-siding';

  it('takes a factor of new work in new work alone, and one of renewal work in renewal work alone', () => {
    const open = kernelsOf(base, {});
    const fresh = kernelsOf(withForms({ row: factors({ new: { 'wood-clapboard': 3 } }) }), { form: 'row' });
    const later = kernelsOf(withForms({ row: factors({ renewal: { 'wood-clapboard': 3 } }) }), {
      form: 'row',
    });
    const m = open.ids.indexOf('wood-clapboard');
    const tripled = (s: number): number => (3 * s) / (3 * s + 1 - s);
    for (const t of [0, 10, 40]) {
      expect(fresh.sNew[m]?.[t]).toBeCloseTo(tripled(open.sNew[m]?.[t] ?? 0), 12);
      expect(later.sRen[m]?.[t]).toBeCloseTo(tripled(open.sRen[m]?.[t] ?? 0), 12);
    }
    expect(fresh.sRen).toEqual(open.sRen);
    expect(later.sNew).toEqual(open.sNew);
    expect(fresh.complete).toEqual(open.complete);
  });

  it('takes its own form alone, and where the fit stands alone', () => {
    const other = withForms({ detached: factors({ new: { 'wood-clapboard': 3 } }) });
    expect(kernelsOf(other, { form: 'row' })).toEqual(kernelsOf(other, {}));
    const tripled = kernelsOf(other, { form: 'detached' });
    expect(tripled).not.toEqual(kernelsOf(other, {}));
    expect(kernelsOf(base, { form: 'row', place: 'OH' })).toEqual(kernelsOf(base, { place: 'OH' }));
  });

  it('may be told by its dwellings', () => {
    const two = withForms({ 'two-to-four': factors({ new: { 'wood-clapboard': 3 } }) });
    expect(kernelsOf(two, { units: 2 })).toEqual(kernelsOf(two, { form: 'two-to-four' }));
    expect(kernelsOf(two, { units: 2 })).not.toEqual(kernelsOf(two, {}));
  });

  it('has more fiber cement as a row house of 1975 in Iowa than as a detached one', () => {
    const [row, open, detached] = [planned({ form: 'row' }), planned({}), planned({ form: 'detached' })].map(
      (plan) => odds(plan, 'cladding', fiber),
    ) as [number, number, number];
    expect(row).toBeGreaterThan(1.5 * detached);
    expect(row).toBeGreaterThan(open);
    expect(open).toBeGreaterThan(detached);
  });

  it('has central cooling less often as a building of two to four dwellings of 1950', () => {
    const parts = [{ built: 1950 }];
    const two = odds(planned({ form: 'two-to-four', parts }), 'cooling', 'central-air');
    expect(two).toBeLessThan(odds(planned({ parts }), 'cooling', 'central-air'));
  });

  it('says what the form did, in the systems that it tells of', () => {
    const plan = planned({ form: 'row' });
    const [reason, ...more] = formReasons(plan);
    expect(more).toEqual([]);
    expect(reason).toMatchObject({ system: 'cladding', kind: 'input', source: ['ames-housing-2011'] });
    const percent = (p: number): string => `${Math.round(100 * p)}%`;
    const [was, is] = [odds(planned({}), 'cladding', fiber), odds(plan, 'cladding', fiber)];
    expect(reason?.say).toMatch(
      /^Row houses there against houses of all forms: new work, .*; renewal work, /,
    );
    expect(reason?.say).toContain(`This moves Fiber cement siding from ${percent(was)} to ${percent(is)}.`);
    expect(reason?.say).toContain('they come from few developments');
  });

  it('says nothing where factors are next to 1', () => {
    const plain = withForms({ row: factors({ new: { 'wood-clapboard': 1.05 } }) });
    expect(formReasons(planned({ form: 'row' }, plain))).toEqual([]);
  });
});
