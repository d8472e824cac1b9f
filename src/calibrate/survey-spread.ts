import type { SurveyRow } from './survey-rows.ts';

/** No two surveys are taken to agree better than this (practice). */
const LEAST = 0.1;
/** Fewest households, times p (1 - p), that tell of a misfit. */
const FEWEST = 4;

/** Standard deviation of log-odds from one survey to another: the misfit beyond sampling of the survey of 2001, since
 * the derived shares outweigh it in the fit and are smoothed, so that they hardly differ from it by chance; of all
 * rows where that survey has none. A fit of many parameters leaves less misfit than there is: squares are scaled up
 * by the degrees of freedom (`spent`) that it took. `fitted` gives the shares of a row. */
export function surveySpread(
  rows: readonly SurveyRow[],
  fitted: (row: number) => number[],
  spent: number,
): number {
  const two = rows.some((row) => row.source === 'recs-2001');
  const free = rows.reduce((sum, row) => sum + row.answers.length - 1, 0);
  const scale = Math.min(3, free / Math.max(1, free - spent));
  let excess = 0;
  let counted = 0;
  rows.forEach((row, r) => {
    if (row.states === null || (two && row.source !== 'recs-2001')) return;
    fitted(r).forEach((p, k) => {
      const information = row.n * p * (1 - p);
      if (information < FEWEST) return;
      const residual = ((row.answers[k]?.share ?? 0) - p) / (p * (1 - p));
      excess += scale * residual ** 2 - 1 / information;
      counted += 1;
    });
  });
  return Math.max(LEAST, Math.sqrt(Math.max(0, excess / Math.max(1, counted))));
}
