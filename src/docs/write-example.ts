import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cutExample, EXAMPLE_ARGS, withExample } from './example.ts';

/** `npm run -s example`: puts what the command prints now into the README. */
const root = join(import.meta.dirname, '../..');
const text = execFileSync(process.execPath, [join(root, 'src/cli/bin.mjs'), ...EXAMPLE_ARGS], {
  encoding: 'utf8',
});
const path = join(root, 'README.md');
writeFileSync(path, withExample(readFileSync(path, 'utf8'), cutExample(text)));
