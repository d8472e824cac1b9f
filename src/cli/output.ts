import { once } from 'node:events';

/** Where a verb's answer and its remarks go. Verbs write nothing before they know that they can answer. */
export interface Output {
  out(text: string): Promise<void>;
  warn(line: string): void;
}

/** Standard output and standard error. A reader that has seen enough (`| head`) ends the run quietly. */
export const processOutput: Output = {
  async out(text) {
    if (!process.stdout.write(text)) await once(process.stdout, 'drain');
  },
  warn(line) {
    process.stderr.write(`datestone: ${line}\n`);
  },
};

export function endQuietlyOnClosedPipe(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
}
