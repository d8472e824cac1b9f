import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readAmes } from './ames.ts';
import { fitRenewing } from './fit-renewing.ts';
import { scriptHash } from './script-hash.ts';
import type { Step } from './steps.ts';

/** The code that the spread of owners hangs on. */
const SCRIPTS = ['ames.ts', 'fit-renewing.ts', 'likelihood.ts'];

/** How much owners differ in renewing, from what old houses of Ames still have side by side. */
export const renewingStep: Step = {
  id: 'renewing',
  fit({ folder, knowledge, base, log }) {
    const ames = readAmes(folder);
    const made = { source: 'ames-housing-2011', rows: 0, data: ames.hash, script: scriptHash(SCRIPTS) };
    const renewing = fitRenewing(base, ames.houses, folder, made);
    writeFileSync(join(knowledge, 'renewing.json'), `${JSON.stringify(renewing, null, 1)}\n`);
    log(`owners differ: inside ${renewing.inside.best}, correlation ${renewing.correlation.best}`);
  },
};
