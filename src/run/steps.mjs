import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';

/** Runs a task's steps in order. `all` goes on after a failure and closes with one line over everything. */
export async function runSteps(task, { node, args, env }) {
  const total = { passed: 0, failed: 0 };
  const faults = [];
  for (const step of task.steps) {
    if (step.report !== undefined) rmSync(step.report, { force: true });
    if (task.quiet !== true && step.stays !== true) console.log(`== ${step.name}`);
    const begun = performance.now();
    const words = [...step.node, ...(task.takesArguments === true ? args : [])];
    const code = step.hushed === true ? await runHushed(node, words, env) : await run(node, words, env);
    const seconds = ((performance.now() - begun) / 1000).toFixed(1);
    if (task.quiet !== true && step.stays !== true)
      console.log(`   ${step.name}: ${code === 0 ? 'passed' : 'failed'} in ${seconds} s`);
    if (code !== 0 && task.all !== true) return code;
    const counted = count(step, code);
    total.passed += counted.passed;
    total.failed += counted.failed;
    if (counted.failed > 0) faults.push(step.name);
  }
  if (task.all !== true) return 0;
  if (faults.length > 0) console.log(`\nfailed: ${faults.join('; ')}`);
  console.log(`\n${total.passed} passed, ${total.failed} failed`);
  return total.failed > 0 ? 1 : 0;
}

function run(command, args, env) {
  return new Promise((done) => {
    const child = spawn(command, args, { stdio: 'inherit', env });
    // A signal meant for the task reaches the step too, so that nothing is left behind.
    const stop = (signal) => child.kill(signal);
    process.on('SIGINT', stop).on('SIGTERM', stop);
    child.on('error', (error) => {
      console.error(error.message);
      done(1);
    });
    child.on('exit', (code) => {
      process.off('SIGINT', stop).off('SIGTERM', stop);
      done(code ?? 1);
    });
  });
}

/** For steps that print a line a page: all of it is shown if the step fails, else only what it complains of
 * (the site builder logs some faults and goes on). */
function runHushed(command, args, env) {
  return new Promise((done) => {
    const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'pipe'], env });
    let said = '';
    const hear = (piece) => {
      said += piece;
    };
    child.stdout.setEncoding('utf8').on('data', hear);
    child.stderr.setEncoding('utf8').on('data', hear);
    child.on('error', (error) => {
      console.error(error.message);
      done(1);
    });
    child.on('close', (code) => {
      const complaints = said.split('\n').filter((line) => /\[(?:ERROR|WARN)\]/.test(line));
      if (code !== 0) console.log(said.trimEnd());
      else if (complaints.length > 0) console.log(complaints.join('\n'));
      done(code ?? 1);
    });
  });
}

/** A step with a report counts its tests; any other step counts as one. A run that failed without a failed
 * test (it crashed, or met an error outside a test) counts as one failure, so it can't pass unseen. */
function count(step, code) {
  const plain = { passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1 };
  if (step.report === undefined) return plain;
  if (!existsSync(step.report)) return { passed: 0, failed: 1 };
  const { numPassedTests, numFailedTests, numFailedTestSuites } = JSON.parse(
    readFileSync(step.report, 'utf8'),
  );
  const failed =
    code !== 0 ? Math.max(1, numFailedTests, numFailedTests === 0 ? numFailedTestSuites : 0) : numFailedTests;
  return { passed: numPassedTests, failed };
}
