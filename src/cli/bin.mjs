#!/usr/bin/env node
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { environment, findNode, installPackages, isNewEnough } from '../run/runtime.mjs';

/** Starts the command line on a Node that can run it. Whatever has to be fetched first is told on
 * standard error; standard output is the command's alone. */
const cli = fileURLToPath(new URL('./datestone.ts', import.meta.url));
try {
  const say = (line) => console.error(line);
  const node = findNode(say);
  installPackages(node, say);
  if (isNewEnough(process.version)) {
    // Types are stripped by Node itself, which calls that experimental; nobody using the tool needs to know.
    process.removeAllListeners('warning');
    process.on('warning', (warning) => {
      if (warning.name !== 'ExperimentalWarning') console.error(`${warning.name}: ${warning.message}`);
    });
    const { main } = await import('./datestone.ts');
    process.exitCode = await main(process.argv.slice(2));
  } else {
    const args = ['--disable-warning=ExperimentalWarning', cli, ...process.argv.slice(2)];
    const run = spawnSync(node, args, { stdio: 'inherit', env: environment(node) });
    process.exitCode = run.status ?? 1;
  }
} catch (error) {
  console.error(`datestone: ${error.message}`);
  process.exitCode = 1;
}
