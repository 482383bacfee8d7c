import { chdir, cwd } from 'node:process';

import { describe, expect, it } from '@jest/globals';

import KeptEnvironment from './kept-environment.js';

/** As Jest makes one for each file. */
function begin(): KeptEnvironment {
  const environment = new KeptEnvironment({ projectConfig: {} as never });
  environment.setup();
  return environment;
}

describe('what a test file leaves behind', () => {
  it('is put back where it stood in for a global, and gone where it was a browser’s', () => {
    const file = begin();
    const { fetch, crypto } = globalThis;
    Object.assign(globalThis, { fetch: () => 'nobody', document: {} });
    Object.defineProperty(globalThis, 'crypto', { value: 'in clear', configurable: true });
    file.teardown();
    expect(globalThis.fetch).toBe(fetch);
    expect(globalThis.crypto).toBe(crypto);
    expect('document' in globalThis).toBe(false);
  });

  it.each([
    ['directory', () => chdir('/'), (before: string) => chdir(before)],
    ['LEFT_BEHIND', () => (process.env.LEFT_BEHIND = 'yes'), () => delete process.env.LEFT_BEHIND],
  ])('makes the file fail: %s', (name, leave, mend) => {
    const before = cwd();
    const file = begin();
    leave();
    expect(() => file.teardown()).toThrow(name);
    mend(before);
  });
});
