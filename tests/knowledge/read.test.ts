import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readKnowledge } from '../../src/knowledge/read.ts';

/** A small folder of knowledge with the files given. */
function folderWith(files: Record<string, string>): string {
  const root = mkdtempSync(join(tmpdir(), 'datestone-'));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, name)), { recursive: true });
    writeFileSync(join(root, name), text);
  }
  return root;
}

const SOURCE =
  '- { id: a-source, title: Some survey, publisher: Some agency, year: "1950", url: null, kind: survey }\n';

describe('reading knowledge', () => {
  it('reads entries of a list', () => {
    const { base } = readKnowledge(folderWith({ 'sources/a.yaml': SOURCE }));
    expect(base.sources.map((s) => s.id)).toEqual(['a-source']);
  });

  it.each([
    {
      name: 'a file without front matter',
      file: 'systems/x.mdx',
      text: 'Just prose.',
      rule: 'front-matter',
      field: '',
    },
    { name: 'broken YAML', file: 'sources/a.yaml', text: '- { id: [', rule: 'yaml', field: '' },
    { name: 'a list file that is no list', file: 'sources/a.yaml', text: 'id: a', rule: 'list', field: '' },
    {
      name: 'a field that does not exist',
      file: 'sources/a.yaml',
      text: SOURCE.replace('kind: survey', 'kind: survey, colour: red'),
      rule: 'form',
      field: 'a-source',
    },
    {
      name: 'a value that is not among those accepted',
      file: 'sources/a.yaml',
      text: SOURCE.replace('kind: survey', 'kind: rumour'),
      rule: 'form',
      field: 'a-source.kind',
    },
  ])('tells $name by file and field, and leaves the entry out', ({ file, text, rule, field }) => {
    const { base, findings } = readKnowledge(folderWith({ [file]: text }));
    const found = findings.find((f) => f.file === `knowledge/${file}`);
    expect(found).toMatchObject({ rule, field });
    expect(found?.fix).not.toBe('');
    expect([...base.sources, ...base.systems]).toEqual([]);
  });

  it('says how to make the places if they are missing', () => {
    const { findings } = readKnowledge(folderWith({}));
    expect(findings).toContainEqual(
      expect.objectContaining({ rule: 'places', fix: expect.stringContaining('calibrate') }),
    );
  });

  it('names a version of the knowledge by its content', () => {
    const one = readKnowledge(folderWith({ 'sources/a.yaml': SOURCE })).base.hash;
    const same = readKnowledge(folderWith({ 'sources/b.yaml': SOURCE })).base.hash;
    const other = readKnowledge(folderWith({ 'sources/a.yaml': SOURCE.replace('1950', '1951') })).base.hash;
    expect(same).toBe(one);
    expect(other).not.toBe(one);
  });
});
