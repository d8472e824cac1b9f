import { defineConfig } from 'vitest/config';

/** Two projects: `unit` needs nothing but the code, `site` needs a built site and a browser. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          root: new URL('..', import.meta.url).pathname,
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/site/**'],
          testTimeout: 30_000,
        },
      },
      {
        test: {
          name: 'site',
          root: new URL('..', import.meta.url).pathname,
          include: ['tests/site/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          // One browser at a time: the machine that runs them may be small.
          fileParallelism: false,
        },
      },
    ],
  },
});
