import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { refusal, UsageError } from './usage-error.ts';

/** Text of a file as it is read, or of standard input for `-`. A file that can't be read is told at once. */
export async function textOf(option: string, path: string): Promise<AsyncIterable<string>> {
  if (path === '-') {
    process.stdin.setEncoding('utf8');
    return process.stdin;
  }
  const found = await stat(path).catch((error: NodeJS.ErrnoException) => {
    const why = error.code === 'ENOENT' ? 'there is no such file' : `it can't be read (${error.code})`;
    throw new UsageError(`${refusal(option, path, 'the path of a file', null)}; ${why}`);
  });
  if (found.isDirectory())
    throw new UsageError(`${refusal(option, path, 'the path of a file', null)}; that is a folder`);
  return createReadStream(path, { encoding: 'utf8' });
}

/** Lines of a file, without their ends; a byte-order mark is dropped. */
export async function linesOf(option: string, path: string): Promise<AsyncIterable<string>> {
  const text = await textOf(option, path);
  return cut(text);
}

export async function* cut(text: AsyncIterable<string>): AsyncGenerator<string> {
  let rest = '';
  let first = true;
  for await (const piece of text) {
    rest += first && piece.startsWith('\uFEFF') ? piece.slice(1) : piece;
    first = false;
    const lines = rest.split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) yield line.replace(/\r$/, '');
  }
  if (rest !== '') yield rest.replace(/\r$/, '');
}
