import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isNewEnough, ROOT } from '../../src/run/runtime.mjs';

const read = (path: string) => JSON.parse(readFileSync(join(ROOT, path), 'utf8'));

describe('choosing a Node', () => {
  it.each([
    ['v18.20.0', false],
    ['v20.20.2', false],
    ['v22.12.0', false],
    ['v22.18.0', true],
    ['v22.23.3', true],
    ['v23.11.0', false],
    ['v24.0.0', true],
    ['v26.10.0', true],
  ])('%s: %s', (version, enough) => {
    expect(isNewEnough(version)).toBe(enough);
  });

  it('pins one Node 22 for each kind of machine, and nothing that runs scripts at install', () => {
    const { optionalDependencies } = read('src/run/runtime/package.json');
    for (const version of Object.values(optionalDependencies)) expect(version).toMatch(/^22\.\d+\.\d+$/);
    const { packages } = read('src/run/runtime/package-lock.json');
    for (const name of Object.keys(optionalDependencies)) {
      expect(packages[`node_modules/${name}`].version).toBe(optionalDependencies[name]);
      expect(packages[`node_modules/${name}`].hasInstallScript).toBeUndefined();
    }
  });
});

describe('package.json', () => {
  it('pins every dependency to an exact version', () => {
    const { dependencies, devDependencies } = read('package.json');
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies }))
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
  });
});
