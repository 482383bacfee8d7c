import { randomBytes } from 'node:crypto';
import { chmod, chown, mkdir, open, readFile, readdir, rename, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';

import { SystemAccount } from './built-in-account.js';
import { Binaries } from './built-in-binaries.js';
import { BuiltInServerError, errorCode } from './built-in-error.js';
import { isAlive, runProgram } from './built-in-program.js';
import { RolePasswords } from './built-in-roles.js';

/** One PostgreSQL cluster on disk. Everything lives in `directory`, which appears in one step, complete. */
export interface Cluster {
  directory: string;
  data: string;
  passwordFile: string;
  logFile: string;
}

export interface ClusterPasswords extends RolePasswords {
  superuser: string;
}

export const SUPERUSER = 'postgres';

/** Where the cluster is, or will be. A directory inside the data directory, so that that one may be a mount point. */
export function clusterIn(dataDirectory: string): Cluster {
  const directory = join(resolve(dataDirectory), 'server');
  return {
    directory,
    data: join(directory, 'data'),
    passwordFile: join(directory, 'passwords.json'),
    logFile: join(directory, 'server.log'),
  };
}

/**
 * Makes the cluster unless it is there already. It is built under a name of its own and renamed, so a
 * crash half-way leaves nothing that looks finished, and of two processes at once one wins.
 * Throws `other-major` for data of another major version, `did-not-start` when initdb fails, `not-writable`
 * where the directory is somebody else's.
 */
export async function ensureCluster(
  dataDirectory: string,
  binaries: Binaries,
  account: SystemAccount,
  log: (message: string) => void,
): Promise<Cluster> {
  try {
    return await makeUnlessThere(dataDirectory, binaries, account, log);
  } catch (error) {
    const code = errorCode(error);
    if (code !== 'EACCES' && code !== 'EPERM' && code !== 'EROFS') throw error;
    throw new BuiltInServerError(
      'not-writable',
      `This user may not use the data directory ${resolve(dataDirectory)} (${code}). Start as the user who owns it, or choose another.`,
    );
  }
}

async function makeUnlessThere(
  dataDirectory: string,
  binaries: Binaries,
  account: SystemAccount,
  log: (message: string) => void,
): Promise<Cluster> {
  const cluster = clusterIn(dataDirectory);
  await makeOpenDirectory(dataDirectory);
  await removeAbandoned(dataDirectory);
  if ((await dataMajor(cluster)) === undefined) {
    log(`Creating the built-in database in ${resolve(dataDirectory)}.`);
    const temporary = join(
      dataDirectory,
      `creating-${process.pid}-${randomBytes(4).toString('hex')}`,
    );
    try {
      await makeOpenDirectory(temporary);
      await initialise(join(temporary, 'server'), binaries, account);
      await renameUnlessThere(join(temporary, 'server'), cluster.directory);
    } finally {
      await rm(temporary, { recursive: true, force: true });
    }
    await syncDirectory(dataDirectory);
  }
  await checkMajor(cluster, binaries);
  return cluster;
}

/** The passwords made with the cluster. The file is for the owner's eyes alone (mode 0600). */
export async function readPasswords(cluster: Cluster): Promise<ClusterPasswords> {
  return JSON.parse(await readFile(cluster.passwordFile, 'utf8')) as ClusterPasswords;
}

/** Open to pass through, whatever the umask: PostgreSQL may run as another account. What is inside is closed. */
async function makeOpenDirectory(path: string): Promise<void> {
  const made = await mkdir(path, { recursive: true });
  if (made !== undefined) await chmod(path, 0o755);
}

async function initialise(
  directory: string,
  binaries: Binaries,
  account: SystemAccount,
): Promise<void> {
  const made = clusterIn(join(directory, '..'));
  await mkdir(directory, { mode: 0o700 });
  const passwords: ClusterPasswords = { superuser: secret(), owner: secret(), app: secret() };
  const superuserFile = join(directory, 'superuser');
  const files = [
    [made.passwordFile, JSON.stringify(passwords)],
    [superuserFile, passwords.superuser],
    [made.logFile, ''],
  ] as const;
  for (const [file, content] of files) await writeSecret(file, content);
  if (account.identity !== undefined) {
    const { uid, gid } = account.identity;
    for (const path of [directory, ...files.map(([file]) => file)]) await chown(path, uid, gid);
  }
  const { code, output } = await runProgram(account, binaries.initdb, [
    `--pgdata=${made.data}`,
    `--username=${SUPERUSER}`,
    `--pwfile=${superuserFile}`,
    '--auth=scram-sha-256',
    '--encoding=UTF8',
    '--locale=C',
    '--locale-provider=builtin',
    '--builtin-locale=C.UTF-8',
    '--no-instructions',
  ]);
  if (code !== 0) {
    throw new BuiltInServerError('did-not-start', `initdb failed (exit code ${code}): ${output}`);
  }
  await rm(superuserFile);
  await syncDirectory(directory);
}

async function checkMajor(cluster: Cluster, binaries: Binaries): Promise<void> {
  const found = await dataMajor(cluster);
  if (found === binaries.major) return;
  throw new BuiltInServerError(
    'other-major',
    `The data in ${cluster.directory} is of PostgreSQL ${found}, the built-in server is PostgreSQL ${binaries.major}. Start the version of Lastheard that made it and take a dump, or choose another data directory.`,
  );
}

async function dataMajor(cluster: Cluster): Promise<string | undefined> {
  try {
    return (await readFile(join(cluster.data, 'PG_VERSION'), 'utf8')).trim();
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

async function renameUnlessThere(from: string, to: string): Promise<void> {
  try {
    await rename(from, to);
  } catch (error) {
    const isThere = ['ENOTEMPTY', 'EEXIST', 'EPERM'].includes(errorCode(error) ?? '');
    if (!isThere || (await dataMajor(clusterIn(join(to, '..')))) === undefined) throw error;
  }
}

/** Removes what processes that are no more had begun to create. */
async function removeAbandoned(dataDirectory: string): Promise<void> {
  for (const name of await readdir(dataDirectory)) {
    const pid = /^creating-(\d+)-/.exec(name)?.[1];
    if (pid === undefined || isAlive(Number(pid))) continue;
    await rm(join(dataDirectory, name), { recursive: true, force: true });
  }
}

async function writeSecret(file: string, content: string): Promise<void> {
  const handle = await open(file, 'wx', 0o600);
  try {
    await handle.writeFile(content);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Makes names in a directory survive a power cut. Windows has no such call and needs none. */
async function syncDirectory(directory: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(directory, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

function secret(): string {
  return randomBytes(24).toString('base64url');
}
