import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * Node loads what tests import (decision 0117), and to Node `@jest/globals` is a package that throws. It takes the nearest package of a
 * name, so one beside the built tests says what Jest would.
 */
export function placeJestGlobals() {
  for (const built of ['dist', 'dist-test']) {
    const directory = new URL(`../${built}/node_modules/@jest/globals/`, import.meta.url);
    mkdirSync(fileURLToPath(directory), { recursive: true });
    writeFileSync(new URL('package.json', directory), '{ "type": "module", "main": "index.js" }\n');
    writeFileSync(
      new URL('index.js', directory),
      "export * from '../../../../dist-test/runner/jest-globals.js';\n",
    );
  }
}
