import { type AmesHouse, FOLDS } from './ames.ts';
import { type FitSubject, FROM, fitProcess, SEEN } from './fit-process.ts';
import { classChances } from './likelihood.ts';
import type { Design, Process } from './parameters.ts';

/** A house with its recorded class and what was forecast for it. */
export interface Forecasted {
  built: number;
  /** Class recorded. */
  name: string;
  chances: Record<string, number>;
}

/** Forecasts for every fit row by a fit that saw the other folds alone, one list a fold. Rows kept out are left out here
 * too. Folds must be judged one by one: over all of them together every house has had its say, and the forecasts agree
 * with the records better than any can with houses not seen. */
export function outOfFold(subject: FitSubject, houses: readonly AmesHouse[], design: Design): Forecasted[][] {
  const rows = houses.flatMap(({ built, held, fold, classes }) => {
    const name = classes[subject.tested.system] ?? null;
    return held || name === null ? [] : [{ built, name, fold }];
  });
  return Array.from({ length: FOLDS }, (_, fold) => fold).map((fold) => {
    const process = fitProcess(
      subject,
      rows.filter((r) => r.fold !== fold),
      design,
    );
    const chances = chancesOf(subject, process);
    return rows
      .filter((r) => r.fold === fold)
      .map(({ built, name }) => ({ built, name, chances: chances(built) }));
  });
}

/** Chances of each class under a process by build year, seen in the fit's year. */
export function chancesOf(
  { tested, materials, nodes }: FitSubject,
  process: Process,
): (built: number) => Record<string, number> {
  const table = classChances(process, materials, tested.classes, FROM, SEEN, nodes);
  return (built) => {
    const at = Math.min(SEEN - FROM, Math.max(0, built - FROM));
    return Object.fromEntries(Object.entries(table).map(([name, row]) => [name, row[at] ?? 0]));
  };
}
