import type { Base } from '../../knowledge/schema/base.ts';
import { LEAST_HOUSES } from './groups.ts';
import type { RangeScore, SystemRanges } from './score-ranges.ts';

/** How the ranges of odds held on the rows kept out. */
export function rangesSection(base: Base, ranges: readonly SystemRanges[]): string[] {
  return [
    '## Ranges of odds in Ames',
    '',
    `How many houses of a class were among a decade's kept-out rows, in groups of ${LEAST_HOUSES} houses or more, against ranges that`,
    'should hold it eight times in ten: our odds with their spread and the noise of the group, and the decade table with',
    'its Beta posterior and the same noise. Counts come whole, so a range of whole counts holds more than its share,',
    'most of all where hardly any house is expected; *cut* lets the edges of the range cut a count, and should come to 80%.',
    '*Open* groups expect at least one house of the class and one of the others. Of two classes one is counted. The',
    'interval score (Gneiting and Raftery 2007) is of shares: width, and ten times any distance outside; lower is better.',
    '',
    ...rangesTable(ranges),
    '',
    "The spread is that of a share counted on so many houses, found by cross-validation inside the fit's rows:",
    '',
    '| system | as sure as a count of |',
    '| --- | --: |',
    ...base.fits.flatMap((f) =>
      f.odds === undefined ? [] : [`| ${f.system}, ${f.odds.state} | ${f.odds.worth} |`],
    ),
    '',
    'Ranges of other systems, of other places and of hidden portions rest on the grade of their figures (practice) and',
    'are not tested here.',
  ];
}

/** Coverage and interval scores by system. */
export function rangesTable(ranges: readonly SystemRanges[]): string[] {
  const row = (title: string, which: string, ours: RangeScore, table: RangeScore): string =>
    `| ${title} | ${which} | ${ours.groups} | ${scoreCells(ours)} | ${scoreCells(table)} |`;
  return [
    '| system | groups | number | ours inside | ours, cut | ours, score | table inside | table, cut | table, score |',
    '| --- | --- | --: | --: | --: | --: | --: | --: | --: |',
    ...ranges.flatMap((s) => [
      ...(s.open.ours.groups > 0 ? [row(s.title, 'open', s.open.ours, s.open.table)] : []),
      row(s.title, 'all', s.all.ours, s.all.table),
    ]),
  ];
}

function scoreCells({ inside, partInside, score }: RangeScore): string {
  return `${percent(inside)} | ${percent(partInside)} | ${score.toFixed(3)}`;
}

function percent(x: number): string {
  return `${Math.round(100 * x)}%`;
}
