import type { Base } from '../../knowledge/schema/base.ts';
import { AMES_SYSTEMS, type AmesHouse, FOLDS, readAmes, type TestedSystem } from './ames.ts';
import { outOfFold } from './cross-validate.ts';
import { designOf } from './design.ts';
import { fitSubject } from './fit-process.ts';
import { rangesTable } from './ranges-section.ts';
import { decadeForecast, decadePosterior } from './rivals.ts';
import { type Judged, judgeGroups, rangesOf, spreadInIowa } from './score-ranges.ts';
import type { Step } from './steps.ts';

/** Log loss of one house, ours and the decade table's, both made without its fold. */
interface Losses {
  built: number;
  ours: number;
  table: number;
}

/** What the choice of design rests on: the cross-validation inside the fit rows. It looks at no row that is kept out. */
export const foldsStep: Step = {
  id: 'folds',
  sections({ folder, base, log }) {
    const { houses } = readAmes(folder);
    const judged: Parameters<typeof rangesOf>[0] = [];
    const rows = AMES_SYSTEMS.flatMap((tested) => {
      const { losses, groups } = validated(base, houses, tested);
      judged.push({ system: tested.system, title: tested.title, groups });
      log(`${tested.title}: ${losses.length} rows cross-validated`);
      return [
        { years: 'all', kept: losses },
        { years: 'before 1961', kept: losses.filter((l) => l.built < 1961) },
      ].map(({ years, kept }) => rowOf(tested.title, years, kept));
    });
    return [
      [
        '## Cross-validation in Ames',
        '',
        `Inside the fit rows: ${FOLDS} folds by a hash of the parcel id, each forecast from the other ${FOLDS - 1}. How free the fits`,
        'are was chosen on the sum of these losses, so they flatter ours a little; the kept-out rows above do not. After the',
        'difference stands its standard error over houses.',
        '',
        '| system | built | rows | decade table | Datestone | difference |',
        '| --- | --- | --: | --: | --: | --- |',
        ...rows,
        '',
        'Ranges of odds, as below, in groups within one fold; how many houses a fit is worth was found on the same groups.',
        '',
        ...rangesTable(rangesOf(judged)),
      ],
    ];
  },
};

function validated(
  base: Base,
  houses: readonly AmesHouse[],
  tested: TestedSystem,
): { losses: Losses[]; groups: Judged[] } {
  const names = Object.keys(tested.classes);
  const fitting = houses.filter((h) => !h.held && (h.classes[tested.system] ?? null) !== null);
  const spread = spreadInIowa(base, tested.system);
  const folds = outOfFold(fitSubject(base, tested), houses, designOf(tested.system)).map((fold, f) => {
    const others = fitting.filter((h) => h.fold !== f);
    const table = decadeForecast(others, tested.system, names);
    const losses = fold.map(({ built, name, chances }) => ({
      built,
      ours: loss(chances[name]),
      table: loss(table(built)[name]),
    }));
    const groups = judgeGroups(fold, names, spread, decadePosterior(others, tested.system, names));
    return { losses, groups };
  });
  return { losses: folds.flatMap((f) => f.losses), groups: folds.flatMap((f) => f.groups) };
}

function rowOf(title: string, years: string, losses: Losses[]): string {
  const n = losses.length;
  const mean = (of: (l: Losses) => number): number => losses.reduce((sum, l) => sum + of(l), 0) / n;
  const difference = mean((l) => l.ours - l.table);
  const error = Math.sqrt(mean((l) => (l.ours - l.table - difference) ** 2) / n);
  const sign = difference >= 0 ? '+' : '-';
  return `| ${title} | ${years} | ${n} | ${mean((l) => l.table).toFixed(3)} | ${mean((l) => l.ours).toFixed(3)} | ${sign}${Math.abs(difference).toFixed(3)} (${error.toFixed(3)}) |`;
}

function loss(chance: number | undefined): number {
  return -Math.log(Math.max(chance ?? 0, 1e-6));
}
