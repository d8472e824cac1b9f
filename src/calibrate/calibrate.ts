import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readKnowledge } from '../knowledge/read.ts';
import { readAmes } from './ames.ts';
import { writeCalibration } from './calibration-page.ts';
import { fitAmes } from './fit-ames.ts';
import { scoreAmes } from './score.ts';

/** `npm run calibrate -- FOLDER [--score-only]`: fits the renewal processes to the open data in FOLDER, writes
 * knowledge/fits/, scores them on rows the fits never saw and writes docs/calibration.md. Deterministic. */
const [folder, flag] = process.argv.slice(2);
if (folder === undefined || !existsSync(join(folder, 'ames-train.csv'))) {
  console.error(`calibrate: name a folder that holds ames-train.csv; ${folder ?? 'none'} was given`);
  process.exit(2);
}
const root = join(import.meta.dirname, '../..');
const knowledge = join(root, 'knowledge');
const ames = readAmes(folder);

if (flag !== '--score-only') {
  const { base } = readKnowledge(knowledge);
  const made = { source: 'ames-housing-2011', rows: 0, data: ames.hash, script: scriptHash() };
  mkdirSync(join(knowledge, 'fits'), { recursive: true });
  for (const fit of fitAmes(base, ames.houses, made, (line) => console.log(line)))
    writeFileSync(join(knowledge, 'fits', `${fit.system}.json`), `${JSON.stringify(fit, null, 1)}\n`);
}

const { base } = readKnowledge(knowledge);
const scores = scoreAmes(base, ames.houses);
writeCalibration(join(root, 'docs/calibration.md'), base, ames, scores);
for (const s of scores)
  console.log(
    `${s.title}, ${s.years}: ${s.scores.map((x) => `${x.forecast} ${x.logLoss.toFixed(3)}`).join(', ')}`,
  );

/** Hash of the fitting code, so that a fit names what made it. */
function scriptHash(): string {
  const hash = createHash('sha256');
  for (const file of readdirSync(import.meta.dirname).sort())
    hash.update(readFileSync(join(import.meta.dirname, file)));
  return hash.digest('hex').slice(0, 16);
}
