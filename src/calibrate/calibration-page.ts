import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import type { Base } from '../../knowledge/schema/base.ts';
import type { AmesHouse } from './ames.ts';
import type { SystemScore } from './score.ts';

/** Writes docs/calibration.md. Each scoring of the kept-out rows is logged with a count: a split that is looked at
 * often becomes training data. */
export function writeCalibration(
  path: string,
  base: Base,
  ames: { houses: AmesHouse[]; hash: string },
  scores: SystemScore[],
): void {
  const before = existsSync(path) ? readFileSync(path, 'utf8') : '';
  const count = Number(/scored (\d+) times?/.exec(before)?.[1] ?? 0) + 1;
  const held = ames.houses.filter((h) => h.held).length;
  const lines = [
    '# Calibration',
    '',
    'Made by `npm run calibrate -- FOLDER`; do not edit by hand.',
    '',
    'What was tested: what a house of a known year in Ames, Iowa had when it was sold between 2006 and 2010, by the',
    "assessor's record, against what Datestone believes knowing only the year and the state. The records are those of",
    'De Cock (2011), source `ames-housing-2011`. They are the records of one prosperous city, of houses that still stand,',
    'and of what could be seen: **odds for hidden portions, for other places and for other systems are not validated by',
    "this page**. An assessor's word is not the thing itself.",
    '',
    `Rows: ${ames.houses.length} houses; ${held} of them (3 in 10 parcels, by a hash of the parcel id) were kept out of every`,
    `fit, and the figures below are on those alone. Data hash ${ames.hash}. The kept-out rows have been scored ${count} time${count === 1 ? '' : 's'}.`,
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
        const interval = `${signed(s.againstDecade.mean)} (${signed(s.againstDecade.low)} to ${signed(s.againstDecade.high)})`;
        const last = x.forecast === 'Datestone' ? interval : '';
        return `| ${s.title} | ${s.years} | ${x.rows} | ${x.forecast} | ${x.logLoss.toFixed(3)} | ${x.brier.toFixed(3)} | ${last} |`;
      }),
    ),
    '',
    '## What stands on what',
    '',
    '| system | holds in | rows fitted | data | script |',
    '| --- | --- | --: | --- | --- |',
    ...base.fits.map(
      (f) =>
        `| ${f.system} | ${f.states === null ? 'everywhere' : f.states.join(', ')} | ${f.made.rows} | ${f.made.data} | ${f.made.script} |`,
    ),
    '',
  ];
  writeFileSync(path, lines.join('\n'));
}

function signed(x: number): string {
  return `${x >= 0 ? '+' : '-'}${Math.abs(x).toFixed(3)}`;
}
