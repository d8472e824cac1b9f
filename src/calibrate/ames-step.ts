import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import { AMES_SYSTEMS, type AmesHouse, readAmes } from './ames.ts';
import { amesSection } from './ames-section.ts';
import { fitAmes } from './fit-ames.ts';
import { rangesSection } from './ranges-section.ts';
import { reliabilityOf } from './reliability.ts';
import { reliabilitySection, type SystemReliability } from './reliability-section.ts';
import { plannerForecast, scoreAmes } from './score.ts';
import { scoreRanges } from './score-ranges.ts';
import { scriptHash } from './script-hash.ts';
import type { Step } from './steps.ts';

/** The code that a fit to Ames hangs on. */
const SCRIPTS = [
  'ames.ts',
  'class-loss.ts',
  'class-pass.ts',
  'cross-validate.ts',
  'design.ts',
  'fit-ames.ts',
  'fit-form.ts',
  'fit-process.ts',
  'groups.ts',
  'likelihood.ts',
  'minimise.ts',
  'parameters.ts',
  'predictive.ts',
  'rounded-fit.ts',
  'worth.ts',
];

/** Five systems fitted to, and scored on, the assessor's records of Ames. */
export const amesStep: Step = {
  id: 'ames',
  fit({ folder, knowledge, base, log }) {
    const ames = readAmes(folder);
    const made = { source: 'ames-housing-2011', data: ames.hash, script: scriptHash(SCRIPTS) };
    mkdirSync(join(knowledge, 'fits'), { recursive: true });
    for (const fit of fitAmes(base, ames.houses, made, log))
      writeFileSync(join(knowledge, 'fits', `${fit.system}.json`), `${JSON.stringify(fit, null, 1)}\n`);
  },
  sections({ folder, docs, base, page, log }) {
    const { houses, hash } = readAmes(folder);
    const scores = scoreAmes(base, houses);
    for (const s of scores)
      log(
        `${s.title}, ${s.years}: ${s.scores.map((x) => `${x.forecast} ${x.logLoss.toFixed(3)}`).join(', ')}`,
      );
    const reliability = reliabilityInAmes(base, houses);
    const ranges = scoreRanges(base, houses);
    const fits = base.fits
      .filter((f) => f.made.data === hash)
      .map(({ system, made }) => ({ system, ...made }));
    const figures = { data: hash, fits, scores, reliability, ranges };
    writeFileSync(join(docs, 'calibration-ames.json'), `${JSON.stringify(figures, null, 1)}\n`);
    return [
      amesSection(page, { houses, hash }, scores),
      reliabilitySection(base, reliability),
      rangesSection(base, ranges),
    ];
  },
};

/** Reliability on the rows kept out of every fit. */
function reliabilityInAmes(base: Base, houses: readonly AmesHouse[]): SystemReliability[] {
  return AMES_SYSTEMS.map(({ system, title, classes }) => {
    const forecast = plannerForecast(base, system, classes);
    const rows = houses.flatMap((h) => {
      const name = h.classes[system] ?? null;
      return h.held && name !== null ? [{ name, chances: forecast(h) }] : [];
    });
    return { system, title, ...reliabilityOf(rows, Object.keys(classes)) };
  });
}
