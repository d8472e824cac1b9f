import type { Base } from '../../knowledge/schema/base.ts';
import { FORMS } from '../../knowledge/schema/words.ts';
import { AMES_SYSTEMS, type AmesHouse, FOLDS, readAmes } from './ames.ts';
import { outOfFold } from './cross-validate.ts';
import { designOf, formsOf } from './design.ts';
import { type FitSubject, fitSubject } from './fit-process.ts';
import { type FormLosses, formTable } from './form-table.ts';
import { rangesTable } from './ranges-section.ts';
import { decadeForecast, decadeFormForecast, decadePosterior } from './rivals.ts';
import { type Judged, judgeGroups, rangesOf, spreadInIowa } from './score-ranges.ts';
import type { Step } from './steps.ts';

/** Log loss of one house, ours and the decade table's, all made without its fold. */
interface Losses extends FormLosses {
  table: number;
  /** The decade table's by decade and form. */
  tableByForm: number;
  /** Ours with the form known, where its factors stand; else ours. */
  formKnown: number;
}

/** What the choice of design rests on: the cross-validation inside the fit rows. It looks at no row that is kept out. */
export const foldsStep: Step = {
  id: 'folds',
  sections({ folder, base, log }) {
    const { houses } = readAmes(folder);
    const validations = AMES_SYSTEMS.map((tested) => {
      const subject = fitSubject(base, tested);
      const own = validated(base, houses, subject);
      const wholeAreas = lossesOf(
        outOfFold(subject, houses, designOf(tested.system), { foldOf: (h) => h.areaFold, forms: FORMS }),
      );
      log(`${tested.title}: ${own.losses.length} rows cross-validated`);
      return { tested, ...own, wholeAreas };
    });
    const rows = validations.flatMap(({ tested, losses }) => [
      rowOf(tested.title, 'all', losses),
      rowOf(
        tested.title,
        'before 1961',
        losses.filter((l) => l.built < 1961),
      ),
    ]);
    return [
      [
        '## Cross-validation in Ames',
        '',
        `Inside the fit rows: ${FOLDS} folds by a hash of the parcel id, each forecast from the other ${FOLDS - 1}. How free the fits`,
        'are was chosen on the sum of these losses, so they flatter ours a little; the kept-out rows above do not. After a',
        'difference to the decade table stands its standard error over houses. *Form known*: told besides whether the house',
        'is detached, a row house or of two to four dwellings; its difference is to the plain table, which is not told. The',
        'last column is the loss of a table by decade and form, shrunk to that by decade by five houses.',
        '',
        '| system | built | rows | decade table | Datestone | difference | form known | difference | table by form |',
        '| --- | --- | --: | --: | --: | --- | --: | --- | --: |',
        ...rows,
        '',
        ...formTable(
          validations.map(({ tested, losses, wholeAreas }) => ({
            title: tested.title,
            stands: formsOf(tested.system),
            parcels: losses,
            areas: wholeAreas,
          })),
        ),
        '',
        'Ranges of odds, as below, in groups within one fold; how many houses a fit is worth was found on the same groups.',
        '',
        ...rangesTable(
          rangesOf(
            validations.map(({ tested, groups }) => ({ system: tested.system, title: tested.title, groups })),
          ),
        ),
      ],
    ];
  },
};

function validated(
  base: Base,
  houses: readonly AmesHouse[],
  subject: FitSubject,
): { losses: Losses[]; groups: Judged[] } {
  const { tested } = subject;
  const names = Object.keys(tested.classes);
  const fitting = houses.filter((h) => !h.held && (h.classes[tested.system] ?? null) !== null);
  const spread = spreadInIowa(base, tested.system);
  const forms = formsOf(tested.system);
  const folds = outOfFold(subject, houses, designOf(tested.system), { foldOf: (h) => h.fold, forms: FORMS });
  const judged = folds.map((fold, f) => {
    const others = fitting.filter((h) => h.fold !== f);
    const table = decadeForecast(others, tested.system, names);
    const byForm = decadeFormForecast(others, tested.system, names);
    const losses = lossesOf([fold]).map((l, i): Losses => {
      const name = fold[i]?.name ?? '';
      return {
        ...l,
        table: loss(table(l.built)[name]),
        tableByForm: loss(byForm(l.built, l.form)[name]),
        formKnown: forms.includes(l.form) ? l.knowing : l.ours,
      };
    });
    return {
      losses,
      groups: judgeGroups(fold, names, spread, decadePosterior(others, tested.system, names)),
    };
  });
  return { losses: judged.flatMap((f) => f.losses), groups: judged.flatMap((f) => f.groups) };
}

function lossesOf(folds: ReturnType<typeof outOfFold>): FormLosses[] {
  return folds.flat().map(({ built, form, name, chances, knowing }) => ({
    built,
    form,
    ours: loss(chances[name]),
    knowing: loss(knowing[name]),
  }));
}

function rowOf(title: string, years: string, losses: Losses[]): string {
  const n = losses.length;
  const mean = (of: (l: Losses) => number): number => losses.reduce((sum, l) => sum + of(l), 0) / n;
  const against = (of: (l: Losses) => number): string => {
    const difference = mean((l) => of(l) - l.table);
    const error = Math.sqrt(mean((l) => (of(l) - l.table - difference) ** 2) / n);
    return `${difference >= 0 ? '+' : '-'}${Math.abs(difference).toFixed(3)} (${error.toFixed(3)})`;
  };
  const cells = [
    mean((l) => l.table).toFixed(3),
    mean((l) => l.ours).toFixed(3),
    against((l) => l.ours),
    mean((l) => l.formKnown).toFixed(3),
    against((l) => l.formKnown),
    mean((l) => l.tableByForm).toFixed(3),
  ];
  return `| ${title} | ${years} | ${n} | ${cells.join(' | ')} |`;
}

function loss(chance: number | undefined): number {
  return -Math.log(Math.max(chance ?? 0, 1e-6));
}
