import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { type AhsCell, ITEMS, type Item, tabulateAhs } from './ahs-cells.ts';
import { nextScoring, scoredSentence } from './calibration-page.ts';
import { SurveyForecast } from './survey-forecast.ts';
import { CLUSTERING, type ScoredCell, scoreCells } from './survey-score.ts';
import { SURVEY_SYSTEMS } from './survey-systems.ts';
import { scoreWindows } from './survey-windows.ts';

/** System whose fit gives the spread between surveys for an item. */
const SYSTEM_OF: Record<Item, string> = {
  basement: 'foundation',
  slab: 'foundation',
  hydronic: 'heating-plant',
  'central-air': 'cooling',
};

const TITLE: Record<Item, string> = {
  basement: 'a basement under all or part',
  slab: 'a slab',
  hydronic: 'steam or hot water heat',
  'central-air': 'central air or a heat pump',
};

/** What lies behind the misses, as far as it is known. */
const WHY = [
  'Slabs before 1940: the energy survey counts any slab, an addition on one too, the housing survey the main foundation alone; and the',
  '2% of misreports that is practice is itself too high where nobody says slab.',
];

/** Standard deviation of the log-odds from one survey to another, as the fit to the energy surveys found it. */
export function surveySpread(base: Base, system: string): number {
  const fit = base.fits.find((f) => f.system === system && f.states === null && f.spread !== undefined);
  if (fit?.spread === undefined) throw new Error(`no national fit of ${system} with a spread`);
  return fit.spread.survey;
}

export function scoreSurvey(base: Base, cells: AhsCell[], forecastBase: Base = base): ScoredCell[] {
  const forecast = new SurveyForecast(forecastBase);
  return scoreCells(
    cells,
    (cell) => forecast.cell(cell),
    (item) => surveySpread(base, SYSTEM_OF[item]),
  );
}

/** The base as it would be without the fits to the energy surveys. */
export function authoredBase(base: Base): Base {
  return {
    ...base,
    fits: base.fits.filter((f) => f.spread === undefined),
    places: { ...base.places, foundations: { ...base.places.foundations, byDivision: {} } },
  };
}

/** Lines of docs/calibration.md on the national surveys. */
export function surveysSection(base: Base, folder: string, page: string): string[] {
  const { cells, hash } = tabulateAhs(folder);
  const scored = scoreSurvey(base, cells);
  const before = scoreSurvey(base, cells, authoredBase(base));
  const windows = scoreWindows(base, folder);
  const windowsBefore = scoreWindows(authoredBase(base), folder, surveySpread(base, 'windows'));
  const what = "The housing survey's cells";
  return [
    '## National surveys',
    '',
    'Fitted to: the energy survey of 2001 (`recs-2001`) and shares by state, climate zone and vintage derived from the',
    'inputs of ResStock 3.2.0 (`nrel-resstock-3-2`), which come from the energy surveys of 2009 and 2020. Only tested on:',
    'the American Housing Survey, 1997 to 2013 (`ahs-1997-2013`), one-unit houses, each house once; no number of it is in',
    'the likelihood of a fit. Two things of it were known before: how the houses built before 1940 divide over the',
    'decades of a region, and its tables of foundations, which lay beside the authored tables when these were written.',
    '',
    '| what | fitted to | tested on |',
    '| --- | --- | --- |',
    '| Foundation: basement, slab | energy survey 2001 by division; derived shares by zone | housing survey |',
    '| Heating: steam or hot water | energy survey 2001 by region; derived shares by state | housing survey |',
    '| Cooling: central air | energy survey 2001 by region; derived shares by state | housing survey |',
    '| Windows: single panes | derived shares, half of the climate zones | the other half of the zones; the same source |',
    '',
    'An answer is not the thing. A basement under part of the house counts as one, piers and posts as a crawl space. Of',
    'steam heat and central air, those who said yes and later no (4% and 3% of pairs of interviews) set the rate of misreport;',
    'the survey carries the answer on the foundation forward, so its 2% is practice.',
    '',
    `Ours is what the planner says of a house of which state and year are known, averaged over the years and states of the cell. The`,
    `95% interval is that of the share observed, given ours: sampling (weights as they are, clustering ${CLUSTERING}, practice) and the`,
    'spread of log-odds from one survey to another, which was estimated among the energy surveys alone:',
    `${spreads(base)}.`,
    `${scoredSentence(what, nextScoring(page, what))} The authored tables alone had been scored once before. Data hash ${hash}.`,
    '',
    '| what | cells | inside | inside, sampling alone | inside before the fit | mean error (points) | before |',
    '| --- | --: | --: | --: | --: | --: | --: |',
    ...ITEMS.map((item) => summary(TITLE[item], of(scored, item), of(before, item))),
    summary('**all**', scored, before),
    '',
    '| what | region | built | houses | observed | ours | 95% interval | |',
    '| --- | --- | --- | --: | --: | --: | --- | --- |',
    ...scored.map(
      (c) =>
        `| ${TITLE[c.of]} | ${c.place} | ${c.vintage} | ${c.n} | ${percent(c.observed)} | ${percent(c.ours)} | ${percent(c.low)} to ${percent(c.high)} | ${c.inside ? '' : '**outside**'} |`,
    ),
    '',
    `Misses: ${misses(scored)}`,
    ...WHY,
    '',
    ...windowLines(windows, windowsBefore),
  ];
}

function of(cells: ScoredCell[], item: Item): ScoredCell[] {
  return cells.filter((c) => c.of === item);
}

function summary(title: string, cells: ScoredCell[], before: ScoredCell[]): string {
  const inside = cells.filter((c) => c.inside).length;
  const plain = cells.filter((c) => c.insideSampling).length;
  const was = before.filter((c) => c.inside).length;
  return `| ${title} | ${cells.length} | ${inside} (${percent(inside / cells.length)}) | ${plain} | ${was} | ${points(cells)} | ${points(before)} |`;
}

function points(cells: ScoredCell[]): string {
  const mean = cells.reduce((sum, c) => sum + Math.abs(c.observed - c.ours), 0) / cells.length;
  return (100 * mean).toFixed(1);
}

function spreads(base: Base): string {
  return SURVEY_SYSTEMS.map(({ system, title }) => {
    const fit = base.fits.find((f) => f.system === system && f.spread !== undefined);
    return `${title.toLowerCase()} ${fit?.spread?.survey.toFixed(2) ?? '?'}`;
  }).join(', ');
}

function misses(cells: ScoredCell[]): string {
  const out = cells.filter((c) => !c.inside);
  if (out.length === 0) return 'none.';
  return `${out
    .map((c) => {
      const by = Math.round(100 * (c.ours - c.observed));
      return `${TITLE[c.of]}, ${c.place}, ${c.vintage}, ours ${Math.abs(by)} points too ${by > 0 ? 'high' : 'low'}`;
    })
    .join('; ')}.`;
}

function windowLines(cells: ScoredCell<string>[], before: ScoredCell<string>[]): string[] {
  const inside = cells.filter((c) => c.inside).length;
  const error = (of: ScoredCell<string>[]): string =>
    ((100 * of.reduce((sum, c) => sum + Math.abs(c.observed - c.ours), 0)) / of.length).toFixed(1);
  return [
    'Single-pane windows, climate zones kept out of the fit (2020, cells of 50 households and more):',
    `${inside} of ${cells.length} inside (${percent(inside / cells.length)}); mean error ${error(cells)} points, ${error(before)} with the authored tables. The intervals are`,
    'wide: zones differ much within a division. The derived tables give new houses of most zones no single panes at all, since they',
    'join vintages and regions where they are thin; those are most of the misses.',
    '',
    '| zone | built | households | derived share | ours | 95% interval | |',
    '| --- | --- | --: | --: | --: | --- | --- |',
    ...cells.map(
      (c) =>
        `| ${c.place} | ${c.vintage} | ${c.n} | ${percent(c.observed)} | ${percent(c.ours)} | ${percent(c.low)} to ${percent(c.high)} | ${c.inside ? '' : '**outside**'} |`,
    ),
  ];
}

function percent(p: number): string {
  return `${Math.round(100 * p)}%`;
}

export function ahsTablePath(root: string): string {
  return join(root, 'tests/tables/ahs-cells.csv');
}
