import { join } from 'node:path';
import { type AgeRow, ageError, ageLoss, asTold, chanceError, fitCalled } from './age-link.ts';
import { nextScoring, scoredSentence } from './calibration-page.ts';
import { AGE_CLASSES, heatingAges, plantsOf } from './heating-ages.ts';
import type { Step } from './steps.ts';

/** Factors on the lives of machines that are tried beside the link. */
const LIVES = [0.9, 1, 1.1, 1.2, 1.3, 1.4];
interface Tried {
  lives: number;
  rows: AgeRow[];
}

/** Fewest households of a row that is shown. */
const FEWEST = 50;
const SHOWN = ['all', 'warm-air furnace', 'steam/hot water'];
const WHAT = 'Rows of the tested half';

/** Ages of heating plants: the link from age to answer is fitted to half of the vintages and tested on the others. */
export const agesStep: Step = {
  id: 'ages',
  sections({ folder, base, page }) {
    const table = join(folder, 'recs2001-heating-sf.csv');
    const rows = heatingAges(base, table);
    const fitted = plantsOf(rows).filter((row) => row.fitted);
    const called = fitCalled(fitted);
    const tried = LIVES.map((lives) => ({
      lives,
      rows: lives === 1 ? rows : heatingAges(base, table, lives),
    }));
    return [
      [
        '## Ages of heating plants',
        '',
        'The energy survey of 2001 (`recs-2001`) asked how old the main heating plant is. Vintages of houses from the oldest on, every other',
        'one, fit what lies between age and answer: before 1940, the 1950s, 1970s and 1990s; the 1940s, 1960s and 1980s are the',
        'test. Ours is what the planner says of houses of every year of the vintage at the middle of 2001. Log loss is the mean of an answer over all',
        'kinds of plant; distances are means over classes, in points, of rows of 50 households and more, and what they would be by chance alone.',
        `${scoredSentence(WHAT, nextScoring(page, WHAT))} All rows had been on this page before the link was thought of, and other forms of it`,
        'were compared on both halves: the figure is tested, its form was not chosen blind.',
        '',
        `People who came after the plant do not know its year. A part of ${percent(called)} of them calls it twenty years and more (fitted; that they have`,
        'been there for 12 years on average is practice). The answers alone can hardly tell plants that last from people who do not know, but the',
        `one figure explains more than longer lives of machines would, and leaves nothing to them: with it, published lives times ${best(tried, true).lives.toFixed(1)} fit best,`,
        `without it times ${best(tried, false).lives.toFixed(1)}. So lives stay as published.`,
        '',
        '| machine lives times | fitted half, as they are | fitted half, as told | tested half, as they are | tested half, as told |',
        '| --: | --: | --: | --: | --: |',
        ...tried.map(({ lives, rows: own }) => livesLine(lives, plantsOf(own))),
        '',
        '| half | plant | log loss as they are | as told | distance as they are | as told | by chance |',
        '| --- | --- | --: | --: | --: | --: | --: |',
        ...[true, false].flatMap((half) =>
          SHOWN.map((equipment) =>
            halfLine(
              half,
              equipment,
              rows.filter((row) => row.fitted === half && row.equipment === equipment && row.n >= FEWEST),
              called,
            ),
          ),
        ),
        '',
        'Observed / as told, percent:',
        '',
        `| plant | house built | half | households | ${AGE_CLASSES.join(' | ')} |`,
        `| --- | --- | --- | --: | ${AGE_CLASSES.map(() => '--:').join(' | ')} |`,
        ...SHOWN.flatMap((equipment) =>
          rows
            .filter((row) => row.equipment === equipment && row.n >= FEWEST)
            .map((row) => rowLine(row, called)),
        ),
      ],
    ];
  },
};

/** The factor on lives under which the fitted half is likeliest; where the link is used, it is fitted anew. */
function best(tried: Tried[], told: boolean): Tried {
  const loss = ({ rows }: Tried): number => {
    const fitted = plantsOf(rows).filter((row) => row.fitted);
    return ageLoss(fitted, told ? fitCalled(fitted) : 0);
  };
  return tried.reduce((a, b) => (loss(b) < loss(a) ? b : a));
}

function livesLine(lives: number, rows: AgeRow[]): string {
  const fitted = rows.filter((row) => row.fitted);
  const tested = rows.filter((row) => !row.fitted);
  const called = fitCalled(fitted);
  const losses = [fitted, tested].flatMap((half) => [ageLoss(half, 0), ageLoss(half, called)]);
  return `| ${lives.toFixed(1)} | ${losses.map((loss) => loss.toFixed(4)).join(' | ')} |`;
}

function halfLine(fitted: boolean, equipment: string, rows: AgeRow[], called: number): string {
  const losses = [0, called].map((part) => ageLoss(rows, part).toFixed(3));
  const errors = [ageError(rows, 0), ageError(rows, called), chanceError(rows)].map((e) =>
    (100 * e).toFixed(1),
  );
  return `| ${fitted ? 'fitted' : 'tested'} | ${equipment} | ${[...losses, ...errors].join(' | ')} |`;
}

function rowLine(row: AgeRow, called: number): string {
  const told = asTold(row.ages, called);
  const classes = row.observed.map((o, k) => `${Math.round(100 * o)} / ${Math.round(100 * (told[k] ?? 0))}`);
  return `| ${row.equipment} | ${row.vintage} | ${row.fitted ? 'fitted' : 'tested'} | ${row.n} | ${classes.join(' | ')} |`;
}

function percent(p: number): string {
  return `${Math.round(100 * p)}%`;
}
