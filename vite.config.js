import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { compressedAssets } from './scripts/compressed-assets.mjs';
import { fieldFiles } from './scripts/field-files.mjs';

const path = (name) => fileURLToPath(new URL(name, import.meta.url));

// The pages, built to dist/web; the app serves them (src/serve-pages.ts).
export default defineConfig({
  root: path('src/web'),
  publicDir: false,
  plugins: [fieldFiles(), compressedAssets()],
  build: {
    outDir: path('dist/web'),
    emptyOutDir: true,
    // Phones that are some years old.
    target: ['chrome107', 'firefox104', 'safari16'],
    modulePreload: { polyfill: false },
    // What is in the bundle comes with its licences.
    license: { fileName: 'licences.md' },
    rolldownOptions: {
      // How long parts of a build took is nothing to whoever starts the demo on a busy machine.
      checks: { pluginTimings: false },
      input: [
        ...[
          'desk/desk',
          'field/field',
          'office/pass',
          'plain/broken',
          'plain/missing',
          'sign-in/account',
          'sign-in/first-start',
          'sign-in/password',
          'sign-in/sign-in',
          'sign-in/way-out',
        ].map((page) => path(`src/web/${page}.html`)),
        path('src/web/field/field-worker.ts'),
      ],
      output: {
        // A service worker is asked for by one name always.
        entryFileNames: ({ name }) =>
          name === 'field-worker' ? 'field-worker.js' : 'assets/[name]-[hash].js',
      },
    },
  },
});
