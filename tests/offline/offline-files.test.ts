import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { offlineFiles } from '../../src/offline/offline-files.ts';

let root: string;
const PATHS = ['404.html', 'about/index.html', 'base.json', 'index.html', 'offline-size.json', 'sw.js'];
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'datestone-'));
  mkdirSync(join(root, 'about'));
  for (const path of PATHS) writeFileSync(join(root, path), path);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const made = (): { worker: string; size: { revision: string; files: number; bytes: number } } => {
  const [worker, size] = offlineFiles(root, PATHS);
  return { worker: worker?.text ?? '', size: JSON.parse(size?.text ?? '{}') };
};

describe('the offline worker’s list', () => {
  it('names pages by their folders, without itself, relative to wherever the site is put', () => {
    const { worker, size } = made();
    for (const path of ['"404.html"', '"about/"', '"base.json"', '""']) expect(worker).toContain(`[${path},`);
    expect(worker).not.toMatch(/\["(?:sw\.js|offline-size\.json|index\.html)"/);
    expect(size).toMatchObject({ files: 4, bytes: 'about/index.html404.htmlbase.jsonindex.html'.length });
  });

  it('is plain JavaScript that a browser takes as a classic script, with its revision in it', () => {
    const { worker, size } = made();
    expect(() => new Function(worker)).not.toThrow();
    expect(worker).toContain(JSON.stringify(size.revision));
    expect(worker).not.toContain('REVISION');
  });

  it('is another revision once any file has changed, and the same one otherwise', () => {
    const before = made().size.revision;
    expect(made().size.revision).toBe(before);
    writeFileSync(join(root, 'about/index.html'), 'changed');
    expect(made().size.revision).not.toBe(before);
  });
});
