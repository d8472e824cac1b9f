import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
/** Collects what died young alone: a whole collection would throw compiled code away too. */
const collect: (how: { type: 'minor' }) => void = runInNewContext('gc');

/** The reference that every time is a multiple of: 10^7 multiply-adds on doubles, timed in the same run. */
export function kernel(): number {
  let a = 1.000001;
  let sum = 0;
  for (let i = 0; i < 10_000_000; i++) {
    sum = sum * 0.999999 + a;
    a += 1e-9;
  }
  return sum;
}

/** Milliseconds of processor time that this process has used: other work on the machine does not count, collecting garbage
 * and compiling do. */
export function processorTime(): number {
  return process.cpuUsage().user / 1000;
}

export interface Timing {
  name: string;
  /** Milliseconds: middle and 95th percentile of the runs. */
  p50: number;
  p95: number;
  runs: number;
}

/** Times what `prepare` gives for each of the runs; neither the preparing itself is counted nor the collecting of what
 * it leaves. */
export function time(
  name: string,
  runs: number,
  prepare: (run: number) => () => unknown,
  now: () => number = () => performance.now(),
): Timing {
  const times = Array.from({ length: runs }, (_, i) => {
    const run = prepare(i);
    collect({ type: 'minor' });
    const begun = now();
    run();
    return now() - begun;
  });
  times.sort((a, b) => a - b);
  const at = (q: number): number => times[Math.min(times.length - 1, Math.floor(q * times.length))] ?? 0;
  return { name, p50: at(0.5), p95: at(0.95), runs };
}
