import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Hash of the named files of this folder, so that a fit names what made it. */
export function scriptHash(files: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of files) hash.update(readFileSync(join(import.meta.dirname, file)));
  return hash.digest('hex').slice(0, 16);
}
