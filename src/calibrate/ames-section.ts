import { AMES_SYSTEMS, type AmesHouse } from './ames.ts';
import { nextScoring, scoredSentence } from './calibration-page.ts';
import { type Difference, OURS, OURS_FORM_KNOWN, type SystemScore, TABLE_FORM_KNOWN } from './score.ts';

const KEPT_OUT = 'The kept-out rows';

/** What is said of the scores on the assessor's records of Ames. */
export function amesSection(
  page: string,
  ames: { houses: AmesHouse[]; hash: string },
  scores: SystemScore[],
): string[] {
  const held = ames.houses.filter((h) => h.held).length;
  return [
    '## Materials in Ames',
    '',
    'What was tested: what a house of a known year in Ames, Iowa had when it was sold between 2006 and 2010, by the',
    "assessor's record, against what Datestone believes knowing only the year and the state. The records are those of",
    'De Cock (2011), source `ames-housing-2011`. They are the records of one prosperous city, of houses that still stand,',
    'and of what could be seen: **odds for hidden portions, for other places and for other systems are not validated by',
    "these figures**. An assessor's word is not the thing itself.",
    '',
    `Rows: ${ames.houses.length} houses; ${held} of them (3 in 10 parcels, by a hash of the parcel id) were kept out of every`,
    `fit, and the figures below are on those alone. Data hash ${ames.hash}.`,
    scoredSentence(KEPT_OUT, nextScoring(page, KEPT_OUT)),
    'How free the fits are was chosen by cross-validation inside the other rows, though not blind to the earlier scorings.',
    'The authored tables that are the centre of the priors had been compared by hand with the marginal shares of all rows',
    'of the open part (kept-out rows among them), so a small leak through those margins is possible.',
    '',
    '- *in use between years*: every class sold in the build year equally likely, softened by 5%.',
    '- *one average*: shares over the fitting rows of the same span of years.',
    '- *decade table*: shares by decade of building, shrunk to the average by five houses.',
    `- *${OURS}*: told the year and the state.`,
    `- *${OURS_FORM_KNOWN}*: told besides whether the house is detached, a row house or of two to four dwellings. Its difference`,
    '  is to the plain decade table, which is not told, so it holds what the form is worth.',
    `- *${TABLE_FORM_KNOWN}*: shares by decade and form, shrunk to those of the decade by five houses.`,
    '',
    'Log loss and Brier score (summed over classes): lower is better. The last column is ours less the decade table in log',
    'loss, with the 90% interval of a paired bootstrap over houses.',
    '',
    '| system | built | rows | forecast | log loss | Brier | ours less decade table |',
    '| --- | --- | --: | --- | --: | --: | --- |',
    ...scores.flatMap((s) =>
      s.scores.map((x) => {
        const difference = differenceOf(s, x.forecast);
        const last = difference === null ? '' : differenceText(difference);
        return `| ${s.title} | ${s.years} | ${x.rows} | ${x.forecast} | ${x.logLoss.toFixed(3)} | ${x.brier.toFixed(3)} | ${last} |`;
      }),
    ),
    '',
    "As parts of the decade table's log loss: the difference, and the upper end of its interval.",
    '',
    '| system | built | difference | upper end | form known | upper end |',
    '| --- | --- | --: | --: | --: | --: |',
    ...scores.map((s) => {
      const table = s.scores.find((x) => x.forecast === 'decade table')?.logLoss ?? Number.NaN;
      const part = (x: number): string => `${x >= 0 ? '+' : '-'}${Math.abs((100 * x) / table).toFixed(1)}%`;
      const cells = [s.againstDecade, s.formAgainstDecade].flatMap((d) => [part(d.mean), part(d.high)]);
      return `| ${s.title} | ${s.years} | ${cells.join(' | ')} |`;
    }),
    '',
    ...['all', 'before 1961'].map((years) => {
      const own = scores.filter((s) => s.years === years);
      const mean = (of: (s: SystemScore) => Difference): string =>
        signed(own.reduce((sum, s) => sum + of(s).mean, 0) / own.length);
      return `Mean difference over the five systems, built ${years}: ${mean((s) => s.againstDecade)}; with the form known ${mean((s) => s.formAgainstDecade)}.`;
    }),
    '',
    ...worseLines(scores),
    '',
    ...linkLines(),
  ];
}

/** How words of the record are read, so that the scores can be made again from outside. */
function linkLines(): string[] {
  return [
    'To make the figures again: one row a house for `plan --batch`, with the columns `built`, `place` (IA), `as-of` (the year of',
    'sale) and, for the form, `form`; of each system the chance of a class is the sum of `reachable` over these materials.',
    '',
    '| system | column of the record | class | materials |',
    '| --- | --- | --- | --- |',
    ...AMES_SYSTEMS.flatMap(({ title, column, classes }) =>
      Object.entries(classes).map(
        ([name, ids]) => `| ${title} | ${column} | ${name} | ${ids.map((id) => `\`${id}\``).join(', ')} |`,
      ),
    ),
  ];
}

function differenceOf(s: SystemScore, forecast: string): Difference | null {
  if (forecast === OURS) return s.againstDecade;
  return forecast === OURS_FORM_KNOWN ? s.formAgainstDecade : null;
}

/** Where a simpler forecast that is told as much as ours did better, said plainly. */
function worseLines(scores: SystemScore[]): string[] {
  const worse = scores.flatMap((s) => {
    const lossOf = (name: string): number => s.scores.find((x) => x.forecast === name)?.logLoss ?? Number.NaN;
    const better = s.scores
      .filter((x) => x.logLoss < lossOf(x.forecast === TABLE_FORM_KNOWN ? OURS_FORM_KNOWN : OURS))
      .filter((x) => x.forecast !== OURS_FORM_KNOWN)
      .map((x) => `*${x.forecast}*`);
    return better.length === 0 ? [] : [`- ${s.title}, built ${s.years}: ${better.join(' and ')}.`];
  });
  return worse.length === 0
    ? ['No simpler forecast did better anywhere.']
    : ['Where a simpler forecast did better:', '', ...worse];
}

function differenceText({ mean, low, high }: Difference): string {
  return `${signed(mean)} (${signed(low)} to ${signed(high)})`;
}

function signed(x: number): string {
  return `${x >= 0 ? '+' : '-'}${Math.abs(x).toFixed(3)}`;
}
