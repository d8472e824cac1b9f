import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { cutExample, EXAMPLE_ARGS, withExample } from '../../src/docs/example.ts';
import { datestone } from '../cli/run-datestone.ts';

const root = join(import.meta.dirname, '../..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');

describe('README', () => {
  it('shows what the command really prints; npm run -s example puts the present output in', () => {
    const example = cutExample(datestone(EXAMPLE_ARGS).out);
    expect(example.split('\n').length).toBeGreaterThan(30);
    expect(readme).toContain(`npm run -s datestone -- ${EXAMPLE_ARGS.slice(0, 7).join(' ')}`);
    expect(withExample(readme, example)).toBe(readme);
  });

  it('names files and commands that are there', () => {
    const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
      scripts: Record<string, string>;
    };
    for (const [, name] of readme.matchAll(/npm run (?:-s )?([a-z]+)/g))
      expect(Object.keys(scripts)).toContain(name);
    for (const [, path] of readme.matchAll(/\]\(([^)#:]+)\)/g))
      expect(() => readFileSync(join(root, path ?? ''), 'utf8')).not.toThrow();
  });
});
