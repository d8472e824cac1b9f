import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  countByGrade,
  gradedIn,
  MOST_UNSOURCED,
  settleFirstFigures,
  unsourcedPart,
} from '../../knowledge/rules/settle-first.ts';
import type { Base } from '../../knowledge/schema/base.ts';
import type { Grade } from '../../knowledge/schema/common.ts';
import { gapsOf } from './coverage-gaps.ts';
import { readKnowledge } from './read.ts';

/** The kinds whose figures are counted by grade. */
const GRADED = [
  'systems',
  'materials',
  'failures',
  'checks',
  'clues',
  'questions',
  'papers',
  'chains',
  'rulesThen',
] as const;

const WORDS: Record<(typeof GRADED)[number], string> = {
  systems: 'systems (shares, waves, regions)',
  materials: 'materials (years, lives)',
  failures: 'failure modes (odds, costs, statements)',
  checks: 'checks (how well each finds)',
  clues: 'clues',
  questions: 'questions',
  papers: 'papers',
  chains: 'diagnosis chains',
  rulesThen: 'rules and customs then',
};

/** What the base covers and what it lacks, as the page docs/coverage.md. */
export function coverageText(base: Base): string {
  return [
    '# What the knowledge base covers',
    '',
    'Written by `node src/knowledge/coverage.ts`; a test fails if it lags behind the entries.',
    '',
    ...counts(base),
    ...bySystem(base),
    ...byGrade(base),
    ...settleFirst(base),
    ...gaps(base),
  ].join('\n');
}

function counts(base: Base): string[] {
  const row = (what: string, count: number, note = ''): string => `| ${what} | ${count} | ${note} |`;
  const first = base.failures.filter((f) => f.soon === 'settle-first').length;
  const life = base.failures.filter((f) => f.lifeSafety).length;
  const linked = base.sources.filter((s) => s.url !== null).length;
  return [
    '## Counts',
    '',
    '| kind | entries | |',
    '| --- | ---: | --- |',
    row('systems', base.systems.length),
    row('materials and assemblies', base.materials.length),
    row('failure modes', base.failures.length, `${first} to settle first, ${life} guard life`),
    row('checks', base.checks.length),
    row('clues', base.clues.length),
    row('questions', base.questions.length),
    row('papers', base.papers.length),
    row('periods', base.eras.length),
    row('diagnosis chains', base.chains.length),
    row('rules and customs then', base.rulesThen.length),
    row('sources', base.sources.length, `${linked} with a link`),
    '',
  ];
}

function bySystem(base: Base): string[] {
  const failuresOf = (system: string) => base.failures.filter((f) => f.system === system);
  const lines = base.systems.map((s) => {
    const own = new Set(failuresOf(s.id).map((f) => f.id));
    const first = failuresOf(s.id).filter((f) => f.soon === 'settle-first').length;
    const cells = [
      base.materials.filter((m) => m.system === s.id).length,
      own.size,
      first,
      base.checks.filter((c) => c.finds.some((f) => own.has(f.failure))).length,
      base.clues.filter((c) => c.system === s.id).length,
      base.questions.filter((q) => q.systems.includes(s.id)).length,
      base.chains.filter((c) => c.suspect.some((x) => own.has(x.failure))).length,
      base.rulesThen.filter((r) => r.systems.includes(s.id)).length,
    ];
    return `| ${s.id} | ${cells.join(' | ')} |`;
  });
  return [
    '## By system',
    '',
    '| system | materials | failure modes | settle first | checks | clues | questions | chains | rules then |',
    '| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |',
    ...lines,
    '',
  ];
}

function gradeRow(what: string, figures: { grade: Grade }[]): string {
  const { measured, published, practice, memory } = countByGrade(figures);
  return `| ${what} | ${figures.length} | ${measured} | ${published} | ${practice} | ${memory} | ${percent(unsourcedPart(figures))} |`;
}

const GRADE_HEAD = [
  '| | figures | measured | published | practice | memory | without a source |',
  '| --- | ---: | ---: | ---: | ---: | ---: | ---: |',
];

function byGrade(base: Base): string[] {
  const all = GRADED.flatMap((kind) => gradedIn(base[kind], kind));
  return [
    '## Grades by kind',
    '',
    'Everything that carries a grade is a figure here.',
    '',
    ...GRADE_HEAD,
    ...GRADED.map((kind) => gradeRow(WORDS[kind], gradedIn(base[kind], kind))),
    gradeRow('**all**', all),
    '',
  ];
}

function settleFirst(base: Base): string[] {
  const figures = settleFirstFigures(base);
  const named = (at: RegExp): typeof figures => figures.filter((f) => at.test(f.field));
  const looks = named(/^finds\./);
  const odds = figures.filter((f) => !f.field.startsWith('finds.'));
  const least = looks.length / figures.length;
  return [
    '## Figures behind what is to be settled first',
    '',
    `The aim is that at most ${percent(MOST_UNSOURCED)} of them rest on practice or memory. They stand at ` +
      `**${percent(unsourcedPart(figures))}**, or ${percent(unsourcedPart(odds))} if how well looks find them is left out.`,
    '',
    ...GRADE_HEAD,
    gradeRow('odds: share or base', named(/\.(share|base)$/)),
    gradeRow('odds: age by which half have it', named(/\.half$/)),
    gradeRow('cost of a cure', named(/^cost$/)),
    gradeRow('the entry as a whole', named(/^$/)),
    gradeRow('how well a check finds it', looks),
    gradeRow('**all**', figures),
    '',
    `The aim can't be met by honest sourcing: no published study was found that says how often a look brings a house's fault to light, ` +
      `and those figures alone are ${percent(least)} of all. What a source would move most is named below.`,
    '',
  ];
}

function gaps(base: Base): string[] {
  return [
    '## Gaps',
    '',
    ...gapsOf(base).flatMap(({ what, entries }) => [
      `- **${what}** (${entries.length}): ${entries.map((id) => `\`${id}\``).join(', ')}`,
    ]),
    '',
  ];
}

function percent(part: number): string {
  return `${Math.round(part * 100)}%`;
}

if (process.argv[1] === import.meta.filename) {
  const root = join(import.meta.dirname, '../..');
  writeFileSync(join(root, 'docs/coverage.md'), coverageText(readKnowledge(join(root, 'knowledge')).base));
  console.log('docs/coverage.md');
}
