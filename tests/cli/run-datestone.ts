import { spawnSync } from 'node:child_process';
import { join } from 'node:path';

export interface Ran {
  code: number | null;
  out: string;
  err: string;
}

const BIN = join(import.meta.dirname, '../../src/cli/bin.mjs');

/** Runs the command line as a person would, in a process of its own. */
export function datestone(args: string[], input?: string): Ran {
  const run = spawnSync(process.execPath, [BIN, ...args], {
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
    ...(input === undefined ? {} : { input }),
  });
  return { code: run.status, out: run.stdout, err: run.stderr };
}
