/** What each task does, step by step. A step is a program with arguments; `node` is Node 22, `bin` is a
 * tool of node_modules. `report` is where a step leaves its count of tests. */
const script = (name, path, ...args) => ({
  name,
  node: ['--disable-warning=ExperimentalWarning', path, ...args],
});
const tool = (name, path, ...args) => ({ name, node: [`node_modules/${path}`, ...args] });

const SITE = ['--config', 'src/astro.config.ts'];
const astro = (name, ...args) => tool(name, 'astro/bin/astro.mjs', ...args, ...SITE);
const vitest = (name, project) => ({
  ...tool(
    name,
    'vitest/vitest.mjs',
    'run',
    '--config',
    'tests/vitest.config.ts',
    '--project',
    project,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=.cache/tests/${project}.json`,
  ),
  report: `.cache/tests/${project}.json`,
});

const knowledge = script('knowledge', 'src/knowledge/build.ts');
const site = { ...astro('site build', 'build'), hushed: true };

export const TASKS = {
  start: {
    steps: [knowledge, site, { ...script('serve', 'src/run/serve.mjs'), stays: true }],
  },
  build: { steps: [knowledge, site] },
  test: {
    all: true,
    steps: [
      knowledge,
      { ...astro('site types', 'sync'), hushed: true },
      tool('types of the planner alone', 'typescript/bin/tsc', '-p', 'planner'),
      tool('types', 'typescript/bin/tsc', '-p', '.'),
      astro('types of the pages', 'check'),
      tool('lint and format', '@biomejs/biome/bin/biome', 'check', '--error-on-warnings'),
      vitest('unit, reference and property tests', 'unit'),
      site,
      vitest('browser tests', 'site'),
    ],
  },
  bench: { steps: [script('bench', 'tests/bench/bench.ts')], quiet: true, takesArguments: true },
  base: { steps: [script('base', 'src/knowledge/check.ts')], quiet: true, takesArguments: true },
  calibrate: {
    steps: [script('places', 'src/places/make-places.ts'), script('fits', 'src/calibrate/calibrate.ts')],
    takesArguments: true,
  },
  example: { steps: [script('example', 'src/docs/write-example.ts')], quiet: true },
  coverage: { steps: [script('coverage', 'src/knowledge/coverage.ts')], quiet: true },
  schemas: { steps: [script('schemas', 'src/schemas/write-schemas.ts')], quiet: true },
  format: { steps: [tool('format', '@biomejs/biome/bin/biome', 'check', '--write')], quiet: true },
};
