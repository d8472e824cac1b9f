import type { Form } from '../../planner/house/house.ts';
import { type AmesHouse, FOLDS } from './ames.ts';
import { FORM_DESIGN } from './design.ts';
import { fitForm, shareFactors } from './fit-form.ts';
import { type FitSubject, FROM, fitProcess, SEEN, yearIndex } from './fit-process.ts';
import { classChances } from './likelihood.ts';
import type { Design, Process } from './parameters.ts';

/** A house with its recorded class and what was forecast for it. */
export interface Forecasted {
  built: number;
  form: Form;
  /** Class recorded. */
  name: string;
  chances: Record<string, number>;
  /** The same with the form of the house known. */
  knowing: Record<string, number>;
}

/** Which rows go together, and for which forms factors are fitted. */
export interface Folding {
  foldOf: (house: AmesHouse) => number;
  forms: readonly Form[];
}

/** Forecasts for every fit row by a fit that saw the other folds alone, one list a fold. Rows kept out are left out here
 * too. Folds must be judged one by one: over all of them together every house has had its say, and the forecasts agree
 * with the records better than any can with houses not seen. */
export function outOfFold(
  subject: FitSubject,
  houses: readonly AmesHouse[],
  design: Design,
  { foldOf, forms }: Folding = { foldOf: (h) => h.fold, forms: [] },
): Forecasted[][] {
  const rows = houses.flatMap((house) => {
    const { built, held, form, area, classes } = house;
    const name = classes[subject.tested.system] ?? null;
    return held || name === null ? [] : [{ built, name, form, area, fold: foldOf(house) }];
  });
  return Array.from({ length: FOLDS }, (_, fold) => {
    const others = rows.filter((r) => r.fold !== fold);
    const process = fitProcess(subject, others, design);
    const chances = chancesOf(subject, process);
    const knowing = new Map(
      forms.map((form) => {
        const own = others.filter((r) => r.form === form);
        return [form, chancesOf(subject, process, fitForm(subject, process, own, FORM_DESIGN).factors)];
      }),
    );
    return rows
      .filter((r) => r.fold === fold)
      .map(({ built, name, form }) => ({
        built,
        form,
        name,
        chances: chances(built),
        knowing: (knowing.get(form) ?? chances)(built),
      }));
  });
}

/** Chances of each class under a process by build year, seen in the fit's year; of houses of a form, if its factors are
 * given. */
export function chancesOf(
  { tested, materials, nodes }: FitSubject,
  process: Process,
  factors?: Parameters<typeof shareFactors>[0],
): (built: number) => Record<string, number> {
  const onShares = factors === undefined ? undefined : shareFactors(factors);
  const table = classChances(process, materials, tested.classes, FROM, SEEN, nodes, onShares);
  return (built) => {
    const at = yearIndex(built);
    return Object.fromEntries(Object.entries(table).map(([name, row]) => [name, row[at] ?? 0]));
  };
}
