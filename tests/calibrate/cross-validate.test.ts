import { describe, expect, it } from 'vitest';
import type { Form } from '../../planner/house/house.ts';
import { AMES_SYSTEMS, type AmesHouse } from '../../src/calibrate/ames.ts';
import { outOfFold } from '../../src/calibrate/cross-validate.ts';
import { designOf } from '../../src/calibrate/design.ts';
import { fitSubject } from '../../src/calibrate/fit-process.ts';
import { base } from '../planner/any-house.ts';

const tested = AMES_SYSTEMS.find((s) => s.system === 'cooling');
if (tested === undefined) throw new Error('cooling is not tested');
const subject = fitSubject(base, tested);

/** Invented houses: of two to four dwellings none is cooled, of the others all are; one in four is kept out. */
const houses = Array.from({ length: 120 }, (_, i): AmesHouse => {
  const form: Form = i % 3 === 0 ? 'two-to-four' : 'detached';
  return {
    built: 1950 + (i % 40),
    sold: 2008,
    form,
    area: `area ${i % 7}`,
    classes: { cooling: form === 'detached' ? 'central' : 'none' },
    held: i % 4 === 3,
    fold: i % 5,
    areaFold: i % 2,
  };
});
const kept = houses.filter((h) => !h.held);
const design = designOf('cooling');

describe('forecasts out of fold', () => {
  it('come in folds, without the rows kept out, and know a form only where asked', () => {
    const folds = outOfFold(subject, houses, design, { foldOf: (h) => h.fold, forms: ['two-to-four'] });
    expect(folds.map((f) => f.length)).toEqual(
      [0, 1, 2, 3, 4].map((fold) => kept.filter((h) => h.fold === fold).length),
    );
    for (const { form, chances, knowing } of folds.flat())
      if (form === 'detached') expect(knowing).toEqual(chances);
      else expect(knowing.none).toBeGreaterThan(1.2 * (chances.none ?? 1));
  });

  it('see nothing of their own fold', () => {
    const forms = ['two-to-four' as const];
    // Where every house of the form is in one fold, no other fold has a row to learn its factors from.
    const [first = [], second = []] = outOfFold(subject, houses, design, {
      foldOf: (h) => (h.form === 'two-to-four' ? 0 : 1),
      forms,
    });
    expect(first.every((f) => f.form === 'two-to-four')).toBe(true);
    expect(second.every((f) => f.form === 'detached')).toBe(true);
    for (const { chances, knowing } of first)
      for (const [name, p] of Object.entries(chances)) expect(knowing[name]).toBeCloseTo(p, 12);
  });

  it('know no form unless told to', () => {
    for (const { chances, knowing } of outOfFold(subject, houses, design).flat())
      expect(knowing).toEqual(chances);
  });
});
