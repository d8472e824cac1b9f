import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cellsOfSurvey, readCells, writeCells } from './problem-cells.ts';
import { PROBLEM_ITEMS } from './problem-items.ts';
import { oddsOfCells } from './problem-odds.ts';
import { fitLinks } from './problem-score.ts';
import { problemsSection } from './problems.ts';
import { scriptHash } from './script-hash.ts';
import type { Step } from './steps.ts';

const SCRIPTS = [
  'problem-cells.ts',
  'problem-items.ts',
  'problem-link.ts',
  'problem-odds.ts',
  'problem-score.ts',
];

/** What occupants told the housing survey against what the planner believes: the shares that are reported are fitted on half
 * of the units. With the survey's rows in the folder its cells are added up anew, else those committed serve. */
export const problemsStep: Step = {
  id: 'problems',
  fit({ folder, knowledge, base, log }) {
    const surveys = join(knowledge, 'surveys');
    mkdirSync(surveys, { recursive: true });
    const rows = join(folder, 'ahs-sample-train.csv');
    const path = join(surveys, 'housing-problems.csv');
    if (existsSync(rows)) writeFileSync(path, writeCells(cellsOfSurvey(rows).cells));
    const cells = readCells(path);
    const links = fitLinks(PROBLEM_ITEMS, cells, oddsOfCells(base));
    const made = {
      source: 'ahs-1997-2013',
      base: base.hash,
      script: scriptHash(SCRIPTS),
    };
    writeFileSync(
      join(surveys, 'observation-link.json'),
      `${JSON.stringify({ made, links: links.map(rounded) }, null, 1)}\n`,
    );
    for (const link of links)
      log(`${link.item}: reported ${link.reported.toFixed(3)}, unprompted ${link.unprompted.toFixed(4)}`);
  },
  sections: ({ knowledge, base, page }) => [problemsSection(base, knowledge, page)],
};

function rounded<T extends object>(link: T): T {
  return JSON.parse(
    JSON.stringify(link, (_, v) => (typeof v === 'number' ? Number(v.toPrecision(5)) : v)),
  ) as T;
}
