import type { AmesHouse } from './ames.ts';
import { nextScoring, scoredSentence } from './calibration-page.ts';
import type { SystemScore } from './score.ts';

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
    '',
    'Log loss and Brier score (summed over classes): lower is better. The last column is ours less the decade table in log',
    'loss, with the 90% interval of a paired bootstrap over houses.',
    '',
    '| system | built | rows | forecast | log loss | Brier | ours less decade table |',
    '| --- | --- | --: | --- | --: | --: | --- |',
    ...scores.flatMap((s) =>
      s.scores.map((x) => {
        const last = x.forecast === 'Datestone' ? differenceText(s.againstDecade) : '';
        return `| ${s.title} | ${s.years} | ${x.rows} | ${x.forecast} | ${x.logLoss.toFixed(3)} | ${x.brier.toFixed(3)} | ${last} |`;
      }),
    ),
    '',
    "As parts of the decade table's log loss: the difference, and the upper end of its interval.",
    '',
    '| system | built | difference | upper end |',
    '| --- | --- | --: | --: |',
    ...scores.map((s) => {
      const table = s.scores.find((x) => x.forecast === 'decade table')?.logLoss ?? Number.NaN;
      const part = (x: number): string => `${x >= 0 ? '+' : '-'}${Math.abs((100 * x) / table).toFixed(1)}%`;
      return `| ${s.title} | ${s.years} | ${part(s.againstDecade.mean)} | ${part(s.againstDecade.high)} |`;
    }),
    '',
    ...['all', 'before 1961'].map((years) => {
      const own = scores.filter((s) => s.years === years);
      const mean = own.reduce((sum, s) => sum + s.againstDecade.mean, 0) / own.length;
      return `Mean difference over the five systems, built ${years}: ${signed(mean)}.`;
    }),
    '',
    ...worseLines(scores),
  ];
}

/** Where a simpler forecast did better, said plainly. */
function worseLines(scores: SystemScore[]): string[] {
  const worse = scores.flatMap((s) => {
    const ours = s.scores.find((x) => x.forecast === 'Datestone')?.logLoss ?? Number.NaN;
    const better = s.scores.filter((x) => x.logLoss < ours).map((x) => `*${x.forecast}*`);
    return better.length === 0 ? [] : [`- ${s.title}, built ${s.years}: ${better.join(' and ')}.`];
  });
  return worse.length === 0
    ? ['No simpler forecast did better anywhere.']
    : ['Where a simpler forecast did better:', '', ...worse];
}

function differenceText({ mean, low, high }: SystemScore['againstDecade']): string {
  return `${signed(mean)} (${signed(low)} to ${signed(high)})`;
}

function signed(x: number): string {
  return `${x >= 0 ? '+' : '-'}${Math.abs(x).toFixed(3)}`;
}
