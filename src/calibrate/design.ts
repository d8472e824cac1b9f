import type { Form } from '../../planner/house/house.ts';
import type { FormDesign } from './fit-form.ts';
import type { Design } from './parameters.ts';

/** The freedom of fits to Ames. Chosen among a dozen by the log loss of five systems together in the
 * cross-validation inside the fit rows (docs/model.md, section 8). */
const FREE: Design = {
  newKnots: [
    1880, 1890, 1900, 1905, 1910, 1915, 1920, 1925, 1930, 1935, 1940, 1945, 1950, 1955, 1957, 1959, 1961,
    1963, 1966, 1970, 1975, 1980, 1985, 1988, 1991, 1994, 1998, 2002, 2006,
  ],
  renewalKnots: [1905, 1930, 1945, 1955, 1965, 1975, 1987, 2000],
  sd: { offset: 2.5, step: 1.5, renewalOffset: 2, renewalStep: 1, life: 0.4, rate: 0.7 },
};

/** Close to the authored tables. Two classes, fuses or breakers, do not tell what was put in from what was renewed since:
 * left free, the fit would have breakers in new houses of 1935. It loses nothing in the cross-validation. */
const CLOSE: Design = {
  ...FREE,
  sd: { offset: 1, step: 0.2, renewalOffset: 1, renewalStep: 0.3, life: 0.4, rate: 0.7 },
};

export function designOf(system: string): Design {
  return system === 'service-equipment' ? CLOSE : FREE;
}

/** The freedom of factors by form: of eight tried the one with the least log loss where neighborhoods are kept whole.
 * Looser ones do better by parcel alone, which is knowledge of the developments of Ames. */
export const FORM_DESIGN: FormDesign = { new: 1, renewal: 1 };

/** Forms whose factors stand, by system: those that lower the log loss of the form's houses by at least one in the
 * cross-validation, and do not raise it where neighborhoods are kept whole nor for houses built before 1961, each
 * within its standard error (docs/calibration.md tells of all). */
const FORMS_THAT_TELL: Record<string, readonly Form[]> = {
  cladding: ['detached', 'row'],
  cooling: ['detached', 'two-to-four'],
  foundation: ['detached', 'two-to-four'],
  'heating-plant': ['two-to-four'],
};

export function formsOf(system: string): readonly Form[] {
  return FORMS_THAT_TELL[system] ?? [];
}
