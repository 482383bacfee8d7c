import { readFileSync } from 'node:fs';

const source = (name) => new URL(`../src/web/field/${name}`, import.meta.url);

/**
 * A Vite plugin: tells the service worker of /field what the page loads, and puts beside it what has an address of its own. The worker is
 * written by hand because it is sixty lines; workbox-build would bring a bundler of its own and some 250 packages.
 */
export function fieldFiles() {
  return {
    name: 'field-files',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const files = new Set();
        const add = (name) => {
          if (files.has(name)) return;
          files.add(name);
          const chunk = bundle[name];
          if (chunk?.type !== 'chunk') return;
          for (const other of [...chunk.imports, ...chunk.dynamicImports]) add(other);
          for (const other of chunk.viteMetadata?.importedCss ?? []) add(other);
          for (const other of chunk.viteMetadata?.importedAssets ?? []) add(other);
        };
        const isEntry = (one) => one.type === 'chunk' && one.facadeModuleId?.endsWith('field.html');
        for (const one of Object.values(bundle)) if (isEntry(one)) add(one.fileName);
        for (const name of Object.keys(bundle)) if (/plan-worker-.*\.js$/.test(name)) add(name);
        const list = [...files].sort().map((name) => `/${name}`);
        if (!list.some((name) => name.includes('plan-worker')))
          this.error('The planner of /field is not among what was built');
        const worker = bundle['field-worker.js'];
        worker.code = worker.code.replaceAll('FIELD_FILES', JSON.stringify(list));
        const emit = (fileName, from) =>
          this.emitFile({ type: 'asset', fileName, source: readFileSync(from) });
        emit('field.webmanifest', source('field.webmanifest'));
        emit('field-icon.svg', source('../parts/icon.svg'));
      },
    },
  };
}
