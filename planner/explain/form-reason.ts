import type { FormFactors } from '../../knowledge/schema/fit.ts';
import type { BaseIndex } from '../base-index.ts';
import { believeSystem, type SystemState } from '../belief/believe.ts';
import { fitOf, formFactors, knownForm } from '../belief/fit-of.ts';
import type { Form, House } from '../house/house.ts';
import { FORM_PRIOR } from '../house/priors.ts';
import { log, round } from '../numerics/functions.ts';
import type { Reason } from '../plan-types.ts';
import { movedMost } from './moved-most.ts';

const HOUSES: Record<Form, string> = {
  detached: 'Detached houses',
  row: 'Row houses',
  'two-to-four': 'Buildings of two to four dwellings',
};

/** Factors are told for this many materials of new work, and of renewal work, if they are further from 1 than this. */
const MOST_FACTORS = 3;
const LEAST_LOG = 0.1;

/** Rows that stray together this much are said to come from few developments. */
const TOGETHER = 3;

/** What the known form of the house did to a system: the factors furthest from 1, and the material whose odds they move
 * most. Nothing where the form is open or tells nothing of the system. */
export function formReasons(
  index: BaseIndex,
  house: House,
  state: SystemState,
  title: (id: string) => string,
): Reason[] {
  const form = knownForm(house);
  const fit = fitOf(index.base, state.system.id, house.place.state);
  const own = formFactors(index, state.system, house.place.state, form);
  if (form === null || fit === undefined || own === undefined) return [];
  const where = fit.states === null ? '' : ' there';
  const name = (id: string): string => (id === 'none' ? `no ${state.system.title.toLowerCase()}` : title(id));
  const told = [
    factorsInWords('new work', own.new, name),
    factorsInWords('renewal work', own.renewal, name),
  ].filter((words) => words !== '');
  if (told.length === 0) return [];
  return [
    {
      kind: 'input',
      say: `${HOUSES[form]}${where} against houses of all forms: ${told.join('; ')}. ${effectInWords(index, house, state, title)} ${rowsInWords(own)}`,
      grade: 'measured',
      source: [fit.made.source],
    },
  ];
}

function factorsInWords(
  work: string,
  factors: Record<string, number>,
  title: (id: string) => string,
): string {
  const told = Object.entries(factors)
    .filter(([, f]) => Math.abs(log(f)) > LEAST_LOG)
    .sort(([, a], [, b]) => Math.abs(log(b)) - Math.abs(log(a)))
    .slice(0, MOST_FACTORS)
    .map(([id, f]) => `${title(id)} times ${round(f, 2)}`);
  return told.length === 0 ? '' : `${work}, ${told.join(', ')}`;
}

/** The odds with the form open against those with it known, for the material that it moved most. */
function effectInWords(
  index: BaseIndex,
  house: House,
  state: SystemState,
  title: (id: string) => string,
): string {
  // The state may be of an earlier plan of the same house; the parts are those of this one.
  const part = house.parts.find((p) => p.name === state.part.name) ?? state.part;
  const open = believeSystem(index, { ...house, form: FORM_PRIOR }, part, state.system, new Set());
  return `This ${movedMost(open, state, title, 'the odds')}.`;
}

function rowsInWords({ rows, effect }: FormFactors): string {
  const together =
    effect >= TOGETHER
      ? `; they come from few developments, and tell no more than ${Math.round(rows / effect)} houses by themselves would`
      : '';
  return `From ${rows} records of such houses${together}.`;
}
