import { describe, expect, it } from 'vitest';
import { renewingNodes } from '../../planner/belief/renewing.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { type FormFactors, type FormRow, fitForm, shareFactors } from '../../src/calibrate/fit-form.ts';
import { type FitSubject, FROM, SEEN } from '../../src/calibrate/fit-process.ts';
import { classChances } from '../../src/calibrate/likelihood.ts';
import type { Process } from '../../src/calibrate/parameters.ts';
import { roundedFactors } from '../../src/calibrate/rounded-fit.ts';
import { base } from '../planner/any-house.ts';
import { toyMaterials, toySystem } from '../planner/toy-system.ts';

const classes = { none: ['none'], iron: ['iron'], copper: ['copper'], plastic: ['plastic'] };
const nodes = renewingNodes(0.5);
const [system] = base.systems;
const [material] = base.materials;
if (system === undefined || material === undefined) throw new Error('the base is empty');
/** An invented system of three materials, with the fields that a fit looks at. */
const subject: FitSubject = {
  tested: { system: 'toy', title: 'Toy', column: '', classes },
  system: { ...system, ...toySystem },
  materials: toyMaterials.map(({ id, shape, whole }) => ({ ...material, id, shape, whole })),
  nodes,
};
const process: Process = {
  ...toySystem,
  lives: Object.fromEntries(toyMaterials.map((m) => [m.id, m.life ?? 1])),
};
const known: FormFactors = {
  new: { iron: 0.5, copper: 2.5, plastic: 1, none: 1 },
  renewal: { iron: 1, copper: 0.4, plastic: 2 },
};

function chancesWith(factors: FormFactors): Record<string, Float64Array> {
  return classChances(process, subject.materials, classes, FROM, SEEN, nodes, shareFactors(factors));
}

/** Houses of 1905 to 2005 whose classes are drawn by the process with the known factors. */
function drawn(count: number, areaOf: (i: number) => string): FormRow[] {
  const next = random(17);
  const chances = chancesWith(known);
  return Array.from({ length: count }, (_, i) => {
    const built = 1905 + Math.floor(next() * 101);
    let u = next();
    const name = Object.keys(classes).find((c) => {
      u -= chances[c]?.[built - FROM] ?? 0;
      return u < 0;
    });
    return { built, name: name ?? 'plastic', area: areaOf(i) };
  });
}

const ratio = (f: Record<string, number>, a: string, b: string): number => (f[a] ?? 1) / (f[b] ?? 1);

describe('the fit of factors by form', () => {
  const rows = drawn(20_000, (i) => `area ${i % 40}`);

  it('finds the factors that rows were drawn with, for new and for renewal work apart', () => {
    const { factors } = fitForm(subject, process, rows, { new: 3, renewal: 3 });
    for (const [a, b] of [
      ['copper', 'iron'],
      ['plastic', 'copper'],
    ] as const) {
      const off = (which: 'new' | 'renewal'): number =>
        Math.abs(Math.log(ratio(factors[which], a, b) / ratio(known[which], a, b)));
      expect(off('new')).toBeLessThan(0.2);
      expect(off('renewal')).toBeLessThan(0.2);
    }
    const [found, truth] = [chancesWith(factors), chancesWith(known)];
    for (const name of Object.keys(classes))
      for (const built of [1910, 1940, 1970, 2000])
        expect(
          Math.abs((found[name]?.[built - FROM] ?? 0) - (truth[name]?.[built - FROM] ?? 0)),
        ).toBeLessThan(0.02);
  });

  it('leaves every share as it is where the rows say nothing else than the process', () => {
    const chances = chancesWith({ new: {}, renewal: {} });
    const plain = Object.keys(classes).flatMap((name) =>
      [1910, 1940, 1970, 2000].flatMap((built) =>
        Array.from(
          { length: Math.round(1000 * (chances[name]?.[built - FROM] ?? 0)) },
          (_, i): FormRow => ({ built, name, area: `${i}` }),
        ),
      ),
    );
    const { factors } = fitForm(subject, process, plain, { new: 1, renewal: 1 });
    for (const f of [...Object.values(factors.new), ...Object.values(factors.renewal)])
      expect(Math.abs(Math.log(f))).toBeLessThan(0.06);
  });

  it('counts houses that stray together as fewer houses', () => {
    const few = rows.slice(0, 400).map((r, i) => ({ ...r, area: `${i}` }));
    const repeated = few.flatMap((row) => Array.from({ length: 10 }, () => row));
    const alone = fitForm(subject, process, few, { new: 1, renewal: 1 });
    const together = fitForm(subject, process, repeated, { new: 1, renewal: 1 });
    expect(alone.effect).toBeLessThan(1.3);
    expect(together.effect).toBeGreaterThan(8);
    expect(together.effect).toBeLessThan(12);
    // Ten copies of a house are one house: the factors are those of the houses by themselves.
    for (const id of ['iron', 'copper', 'plastic'])
      expect(
        Math.abs(Math.log(ratio(together.factors.new, id, 'none') / ratio(alone.factors.new, id, 'none'))),
      ).toBeLessThan(0.2);
  });

  it('commits factors that differ from 1 alone', () => {
    expect(roundedFactors({ a: 1.01, b: 1.234567, c: 0.985, d: 0.5 })).toEqual({ b: 1.23, d: 0.5 });
  });
});
