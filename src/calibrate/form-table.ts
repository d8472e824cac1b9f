import { FORMS } from '../../knowledge/schema/words.ts';
import type { Form } from '../../planner/house/house.ts';

/** Log loss of one house with its form open and with it known, both by fits that had not seen it. */
export interface FormLosses {
  built: number;
  form: Form;
  ours: number;
  knowing: number;
}

export interface FormFolds {
  title: string;
  /** Forms whose factors are in the fit. */
  stands: readonly Form[];
  parcels: readonly FormLosses[];
  areas: readonly FormLosses[];
}

/** What knowing the form brought in the cross-validation, for every system and form, whether its factors stand or not. */
export function formTable(systems: readonly FormFolds[]): string[] {
  return [
    'What knowing the form brings: log loss with the form known less that with it open, added up over the houses of the form',
    '(below nought is better), with its standard error; in the folds by parcel, of those houses built before 1961 alone, and in',
    'folds that keep neighborhoods whole. Houses of one development were built and re-clad together: what helps by parcel and',
    'not by neighborhood is knowledge of these developments. Factors stand where they lower the loss by at least one by',
    'parcel and raise it in neither of the others by more than its standard error.',
    '',
    '| system | form | rows | by parcel | before 1961 | by neighborhood | stands |',
    '| --- | --- | --: | --- | --- | --- | --- |',
    ...systems.flatMap(({ title, stands, parcels, areas }) =>
      FORMS.map((form) => {
        const own = parcels.filter((l) => l.form === form);
        const old = own.filter((l) => l.built < 1961);
        const whole = areas.filter((l) => l.form === form);
        const cells = [own, old, whole].map(gainText);
        return `| ${title} | ${form} | ${own.length} | ${cells.join(' | ')} | ${stands.includes(form) ? 'yes' : 'no'} |`;
      }),
    ),
  ];
}

function gainText(losses: readonly FormLosses[]): string {
  if (losses.length === 0) return '';
  const gains = losses.map((l) => l.knowing - l.ours);
  const sum = gains.reduce((a, b) => a + b, 0);
  const mean = sum / gains.length;
  const error = Math.sqrt(gains.reduce((a, b) => a + (b - mean) ** 2, 0));
  const rounded = Math.abs(sum) < 0.05 ? '0.0' : `${sum > 0 ? '+' : '-'}${Math.abs(sum).toFixed(1)}`;
  return `${rounded} (${error.toFixed(1)})`;
}
