import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Base } from '../../knowledge/schema/base.ts';
import type { Fit } from '../../knowledge/schema/fit.ts';
import { cellsAsCsv, changedAnswers, ITEMS, tabulateAhs } from './ahs-cells.ts';
import { fitSurveys, type SurveyFit } from './fit-surveys.ts';
import { roundedFit } from './rounded-fit.ts';
import { scriptHash } from './script-hash.ts';
import type { Step } from './steps.ts';
import { SURVEY_SYSTEMS, type SurveySystem } from './survey-systems.ts';
import { ahsTablePath, surveysSection } from './surveys.ts';

const SCRIPTS = [
  'fit-surveys.ts',
  'likelihood.ts',
  'linear.ts',
  'recs-2001-regions.csv',
  'rounded-fit.ts',
  'survey-answers.ts',
  'survey-curvature.ts',
  'survey-links.ts',
  'survey-parameters.ts',
  'survey-process.ts',
  'survey-rows.ts',
  'survey-spread.ts',
  'survey-systems.ts',
];
const DATA = [
  'recs2001-foundation-sf.csv',
  'recs2001-heating-sf.csv',
  'resstock-cooling-sfd.csv',
  'resstock-foundation.csv',
  'resstock-heating-sfd.csv',
  'resstock-state-map.csv',
  'resstock-windows-sfd.csv',
];

/** Four systems fitted to the energy surveys and scored on the housing survey. The fit begins at the authored tables,
 * never at an earlier fit. */
export const surveysStep: Step = {
  id: 'surveys',
  fit({ folder, knowledge, base, log }) {
    mkdirSync(join(knowledge, 'fits'), { recursive: true });
    for (const tested of SURVEY_SYSTEMS) {
      const rows = tested.rows(base, folder).filter((row) => !tested.held?.(row));
      const fit = asFit(base, tested, fitSurveys(base, tested, rows, log), hashOf(folder));
      writeFileSync(join(knowledge, 'fits', `${tested.system}-us.json`), `${JSON.stringify(fit, null, 1)}\n`);
    }
    // What the misreport rates of survey-links.ts were read from.
    for (const item of ITEMS)
      log(`answers that changed, ${item}: ${JSON.stringify(changedAnswers(folder, item))}`);
    writeFileSync(ahsTablePath(join(knowledge, '..')), cellsAsCsv(tabulateAhs(folder).cells));
  },
  sections: ({ folder, base, page }) => [surveysSection(base, folder, page)],
};

const SOURCES = ['recs-2001', 'nrel-resstock-3-2'];

function asFit(base: Base, { system, keepsKind, paced }: SurveySystem, fit: SurveyFit, data: string): Fit {
  const made = { source: 'nrel-resstock-3-2', rows: fit.rows, data, script: scriptHash(SCRIPTS) };
  const rounded = roundedFit(fit.process, { system, states: null, made });
  const sourced = (table: Fit['shares']['new']): Fit['shares']['new'] => ({ ...table, source: SOURCES });
  const round = (v: number): number => Math.round(v * 1000) / 1000;
  return {
    ...rounded,
    keepsKind,
    shares: { new: sourced(rounded.shares.new), renewal: sourced(rounded.shares.renewal) },
    regions: base.places.states.map(({ code }) => {
      const here = fit.places.get(code);
      const held = (v: number): number => Math.min(50, Math.max(0.001, round(v)));
      return {
        states: [code],
        factor: Object.fromEntries(Object.entries(here?.factor ?? {}).map(([id, v]) => [id, held(v)])),
        ...(paced ? { pace: round(here?.pace ?? 1) } : {}),
        grade: 'measured' as const,
        source: SOURCES,
      };
    }),
    spread: {
      state: round(fit.spread.state),
      division: round(fit.spread.division),
      survey: round(fit.spread.survey),
    },
  };
}

function hashOf(folder: string): string {
  const hash = createHash('sha256');
  for (const file of DATA) hash.update(readFileSync(join(folder, file)));
  return hash.digest('hex').slice(0, 16);
}
