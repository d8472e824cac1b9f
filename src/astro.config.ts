import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';
import { emitted } from './site/emitted.ts';

/** Where the site will live: `DATESTONE_BASE=/old-houses/` puts it under a folder of any host. */
const base = process.env.DATESTONE_BASE ?? '/';

export default defineConfig({
  base,
  srcDir: './src',
  publicDir: './src/public',
  outDir: './dist',
  trailingSlash: 'always',
  build: { format: 'directory', inlineStylesheets: 'never' },
  devToolbar: { enabled: false },
  integrations: [mdx(), emitted],
  vite: {
    build: {
      // Scripts and styles stay in files of their own, so that the content policy can refuse inline ones.
      assetsInlineLimit: 0,
      rolldownOptions: {
        onwarn(warning, warn) {
          if (warning.code !== 'MODULE_LEVEL_DIRECTIVE') warn(warning);
        },
      },
    },
    worker: { format: 'es' },
  },
});
