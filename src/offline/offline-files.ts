import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { stripTypeScriptTypes } from 'node:module';
import { join } from 'node:path';

/** Files that the offline worker is made of. They are not kept by it. */
const OWN = ['sw.js', 'offline-size.json'];

/** The offline worker with its list, and how much it keeps. One revision is the whole site: a change in any
 * file makes a new one. */
export function offlineFiles(root: string, paths: string[]): { name: string; text: string }[] {
  const kept = paths.filter((path) => !OWN.includes(path));
  let bytes = 0;
  const files = kept.map((path): [string, string] => {
    const text = readFileSync(join(root, path));
    bytes += text.length;
    return [path.replace(/(^|\/)index\.html$/, '$1'), digest(text)];
  });
  const revision = digest(JSON.stringify(files));
  const source = readFileSync(join(process.cwd(), 'src/offline/sw.ts'), 'utf8');
  const worker = stripTypeScriptTypes(source)
    .replace("'REVISION'", JSON.stringify(revision))
    .replace('[] /* FILES */', JSON.stringify(files));
  return [
    { name: 'sw.js', text: worker },
    { name: 'offline-size.json', text: JSON.stringify({ revision, files: files.length, bytes }) },
  ];
}

const digest = (text: string | Buffer): string =>
  createHash('sha256').update(text).digest('hex').slice(0, 12);
