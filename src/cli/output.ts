import { once } from 'node:events';

/** Where a verb's answer and its remarks go. Verbs write nothing before they know that they can answer. */
export interface Output {
  out(text: string): Promise<void>;
  /** A remark beside the answer; where there is no answer, it is dropped. */
  warn(line: string): void;
}

/** Standard output; remarks are held until the answer is out, so that an error stands alone. */
export class ProcessOutput implements Output {
  readonly #remarks: string[] = [];

  async out(text: string): Promise<void> {
    if (!process.stdout.write(text)) await once(process.stdout, 'drain');
  }

  warn(line: string): void {
    this.#remarks.push(line);
  }

  end(): void {
    for (const line of this.#remarks) complain(line);
  }
}

export function complain(line: string): void {
  process.stderr.write(`datestone: ${line}\n`);
}

export function endQuietlyOnClosedPipe(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
}
