import { loadBase } from '../knowledge/load.ts';
import { houseFrom } from './house-options.ts';
import { textOf } from './lines.ts';
import { readNumber } from './options.ts';
import type { Output } from './output.ts';
import { planFor } from './plan.ts';
import { type BatchRow, rowsOf } from './records.ts';
import { UsageError } from './usage-error.ts';

/** One JSON line a house, in the order of the file, as each is read. A row that can't be planned becomes a
 * line with its number and what is wrong; the rest go on. */
export async function planBatch(path: string, asOf: string, output: Output): Promise<void> {
  const year = readNumber('--as-of', asOf, 'a whole number from 1900 to 2100');
  const text = await textOf('--batch', path);
  const { base } = await loadBase((line) => output.warn(line));
  let rows = 0;
  let bad = 0;
  for await (const read of rowsOf(text)) {
    rows += 1;
    const line = lineOf(read, () => {
      if ('error' in read) throw new UsageError(`row ${read.row} ${read.error}`);
      return planFor(base, houseFrom(read.words, { parts: [{}] }, year));
    });
    if (line.failed) bad += 1;
    await output.out(`${line.text}\n`);
  }
  if (bad > 0) output.warn(`${bad} of ${rows} rows could not be planned; their lines say why`);
}

/** What the person calls the house comes first, then the plan or what is wrong. */
function lineOf({ row, id }: BatchRow, make: () => object): { text: string; failed: boolean } {
  const name = id === undefined ? {} : { id };
  try {
    return { text: JSON.stringify({ ...name, ...make() }), failed: false };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return {
      text: JSON.stringify({ row, ...name, error: message.replace(/--(?=[a-z])/g, '') }),
      failed: true,
    };
  }
}
