import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';
import { offlineFiles } from '../offline/offline-files.ts';
import { sealed } from './policy.ts';

/** What is done to the site once it is written: every page gets its content policy, then the offline worker
 * gets the list of all files, so that its revision covers the pages as they are served. */
export const emitted: AstroIntegration = {
  name: 'datestone-emitted',
  hooks: {
    'astro:build:done': ({ dir }) => {
      const root = fileURLToPath(dir);
      for (const path of filesBelow(root).filter((p) => p.endsWith('.html'))) {
        const file = join(root, path);
        writeFileSync(file, sealed(readFileSync(file, 'utf8'), path));
      }
      for (const { name, text } of offlineFiles(root, filesBelow(root)))
        writeFileSync(join(root, name), text);
    },
  },
};

/** Paths of all files, below the folder, with forward slashes and in one order everywhere. */
function filesBelow(root: string): string[] {
  return readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(root.length).replaceAll('\\', '/'))
    .map((path) => path.replace(/^\/+/, ''))
    .sort();
}
