import { join } from 'node:path';
import { checkBase } from '../../knowledge/rules/check-base.ts';
import { readKnowledge } from './read.ts';
import { countLine, findingLines } from './report.ts';

/** Prints the faults of the knowledge base: `node src/knowledge/check.ts [word in file name]`. */
const { base, findings } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
const filter = process.argv[2] ?? '';
const all = [...findings, ...checkBase(base)].filter((f) => `${f.file} ${f.problem}`.includes(filter));
for (const finding of all) console.log(findingLines(finding));
console.log(`${countLine(base)}; ${all.length} faults`);
process.exitCode = all.length > 0 ? 1 : 0;
