import type { Base } from '../../knowledge/schema/base.ts';
import type { Fit, FormFactors } from '../../knowledge/schema/fit.ts';
import type { Form } from '../../planner/house/house.ts';
import { AMES_SYSTEMS, type AmesHouse } from './ames.ts';
import { outOfFold } from './cross-validate.ts';
import { designOf, FORM_DESIGN, formsOf } from './design.ts';
import { type FormRow, fitForm } from './fit-form.ts';
import { type FitSubject, fitProcess, fitSubject } from './fit-process.ts';
import { groupsOf } from './groups.ts';
import type { Process } from './parameters.ts';
import { roundedFactors, roundedFit } from './rounded-fit.ts';
import { worthOf } from './worth.ts';

/** Systems whose records tell kinds, not machines: their fitted lives say how long a house stays with a kind. */
const KEEPS_KIND: readonly string[] = ['cooling', 'heating-plant'];

/** Fits each tested system to the rows that are not kept out. Services renew much the same way all over, so that fit
 * stands everywhere; the others stand in Iowa alone, where their market is. */
export function fitAmes(
  base: Base,
  houses: readonly AmesHouse[],
  made: Omit<Fit['made'], 'rows'>,
  log: (line: string) => void,
): Fit[] {
  return AMES_SYSTEMS.map((tested) => {
    const rows = fitRows(houses, tested.system);
    log(`${tested.title}: ${rows.length} rows`);
    const subject = fitSubject(base, tested);
    const process = fitProcess(subject, rows, designOf(tested.system));
    const worth = worthOf(
      outOfFold(subject, houses, designOf(tested.system)).flatMap((fold) =>
        groupsOf(fold, Object.keys(tested.classes)),
      ),
    );
    log(`  as sure as a count of ${worth} houses`);
    return roundedFit(process, {
      system: tested.system,
      states: tested.system === 'service-equipment' ? null : ['IA'],
      keepsKind: KEEPS_KIND.includes(tested.system),
      odds: { worth, state: 'IA' },
      ...fitForms(subject, process, houses),
      made: { ...made, rows: rows.length },
    });
  });
}

/** Rows that a fit may see: those that are not kept out and name a class. */
export function fitRows(houses: readonly AmesHouse[], system: string): (FormRow & { form: Form })[] {
  return houses.flatMap(({ built, form, area, held, classes }) => {
    const name = classes[system] ?? null;
    return held || name === null ? [] : [{ built, form, area, name }];
  });
}

/** Factors of the forms that tell something of the system; the process is held, so that a house of unknown form is what it
 * would be without them. */
function fitForms(subject: FitSubject, process: Process, houses: readonly AmesHouse[]): Pick<Fit, 'forms'> {
  const { system } = subject.tested;
  const forms = formsOf(system).map((form): [Form, FormFactors] => {
    const rows = fitRows(houses, system).filter((r) => r.form === form);
    const { factors, effect } = fitForm(subject, process, rows, FORM_DESIGN);
    return [
      form,
      {
        new: roundedFactors(factors.new),
        renewal: roundedFactors(factors.renewal),
        rows: rows.length,
        effect: Math.round(effect * 10) / 10,
      },
    ];
  });
  return forms.length === 0 ? {} : { forms: Object.fromEntries(forms) };
}
