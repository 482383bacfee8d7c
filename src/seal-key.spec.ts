import { randomBytes } from 'node:crypto';
import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';

import { readSealKey } from './seal-key.js';

describe('the key that seals', () => {
  let directory: string;

  beforeEach(async () => {
    directory = await mkdtemp(join(tmpdir(), 'lastheard-key-'));
  });

  afterEach(() => rm(directory, { recursive: true }));

  it('is the setting where there is one', async () => {
    const key = randomBytes(32);
    expect(await readSealKey(key.toString('base64'), directory)).toEqual(key);
    expect(await readdir(directory)).toEqual([]);
  });

  it('is refused when it is no 32 bytes in base 64', async () => {
    for (const wrong of ['short', randomBytes(16).toString('base64'), '~'.repeat(44)]) {
      await expect(readSealKey(wrong, directory)).rejects.toThrow('SEAL_KEY: must be 32 bytes');
    }
  });

  it('is else made once, whoever starts at the same time, for the owner of the file alone', async () => {
    const parent = join(directory, 'data');
    const keys = await Promise.all([1, 2, 3].map(() => readSealKey(undefined, parent)));
    expect(keys[0]).toHaveLength(32);
    expect(keys[1]).toEqual(keys[0]);
    expect(keys[2]).toEqual(keys[0]);
    expect(await readSealKey(undefined, parent)).toEqual(keys[0]);
    expect(await readdir(parent)).toEqual(['seal-key']);
    expect((await stat(join(parent, 'seal-key'))).mode & 0o777).toBe(0o600);
  });
});
