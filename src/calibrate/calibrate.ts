import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readKnowledge } from '../knowledge/read.ts';
import { agesStep } from './ages-step.ts';
import { amesStep } from './ames-step.ts';
import { withSections } from './calibration-page.ts';
import { datingStep } from './dating.ts';
import { divisionsStep } from './divisions-step.ts';
import { fitsSection } from './fits-section.ts';
import { foldsStep } from './folds-step.ts';
import { problemsStep } from './problems-step.ts';
import { renewingStep } from './renewing-step.ts';
import type { Step } from './steps.ts';
import { surveysStep } from './surveys-step.ts';

/** `npm run calibrate -- FOLDER [--only STEP,STEP] [--fit-only | --score-only]`: fits the renewal processes to the open
 * data in FOLDER, writes knowledge/fits/ and knowledge/renewing.json, scores on rows the fits never saw and writes docs/calibration.md. A step that
 * is not named keeps its section. Deterministic. */
const STEPS: Step[] = [
  renewingStep,
  amesStep,
  foldsStep,
  surveysStep,
  agesStep,
  divisionsStep,
  problemsStep,
  datingStep,
  { id: 'fits', sections: ({ base }) => [fitsSection(base)] },
];

const [folder, ...flags] = process.argv.slice(2);
if (folder === undefined || !existsSync(join(folder, 'ames-train.csv'))) {
  console.error(`calibrate: name a folder that holds ames-train.csv; ${folder ?? 'none'} was given`);
  process.exit(2);
}
const only = flags.includes('--only') ? (flags[flags.indexOf('--only') + 1] ?? '').split(',') : null;
const unknown = only?.filter((id) => !STEPS.some((step) => step.id === id)) ?? [];
if (unknown.length > 0) {
  console.error(`calibrate: no step ${unknown.join(', ')}; steps are ${STEPS.map((s) => s.id).join(', ')}`);
  process.exit(2);
}

const root = join(import.meta.dirname, '../..');
const knowledge = join(root, 'knowledge');
const docs = join(root, 'docs');
const path = join(docs, 'calibration.md');
const page = existsSync(path) ? readFileSync(path, 'utf8') : '';
const steps = STEPS.filter((step) => only === null || only.includes(step.id));
const context = () => ({ folder, knowledge, docs, base: readKnowledge(knowledge).base, page, log });

if (!flags.includes('--score-only')) for (const step of steps) step.fit?.(context());
if (!flags.includes('--fit-only')) {
  const now = context();
  const sections = steps.flatMap((step) => step.sections?.(now) ?? []);
  writeFileSync(path, withSections(page, sections));
}

function log(line: string): void {
  console.log(line);
}
