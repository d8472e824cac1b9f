import { environment, findNode, installPackages, ROOT } from './runtime.mjs';
import { runSteps } from './steps.mjs';
import { TASKS } from './tasks.mjs';

/** `node src/run/run.mjs TASK [arguments]`: runs on any Node from 18, does the work on Node 22. */
const [name = '', ...args] = process.argv.slice(2);
const task = TASKS[name];
if (task === undefined) {
  console.error(`unknown task "${name}"; use one of: ${Object.keys(TASKS).join(', ')}`);
  process.exit(2);
}
try {
  const say = (line) => console.error(line);
  const node = findNode(say);
  installPackages(node, say);
  process.chdir(ROOT);
  process.exitCode = await runSteps(task, { node, args, env: environment(node) });
} catch (error) {
  console.error(`datestone: ${error.message}`);
  process.exitCode = 1;
}
