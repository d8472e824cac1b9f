import { compileBase } from './compile.ts';
import { countLine, findingLines } from './report.ts';

/** Compiles the knowledge base into .cache/base.json, prints what it holds and what is wrong with it.
 * A faulty base is not fit to build a site from: the exit code is 1. */
const { base, findings } = await compileBase();
for (const finding of findings) console.log(findingLines(finding));
console.log(`${countLine(base)}; ${findings.length} faults; base ${base.hash}`);
process.exitCode = findings.length > 0 ? 1 : 0;
