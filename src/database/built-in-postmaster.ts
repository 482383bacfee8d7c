import { spawn, spawnSync } from 'node:child_process';
import { closeSync, openSync } from 'node:fs';
import { readFile, readlink, realpath, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

import { SystemAccount } from './built-in-account.js';
import { Binaries } from './built-in-binaries.js';
import { Cluster } from './built-in-cluster.js';
import { errorCode } from './built-in-error.js';
import { isAlive, serverEnvironment } from './built-in-program.js';

/** What a running (or crashed) server says of itself in its data directory. */
export interface PostmasterFile {
  pid: number;
  /** Absent for the blink between the file's creation and its first complete writing. */
  port: number | undefined;
}

/** The first lines of postmaster.pid: process id, data directory, start time, port. Undefined if it is not one. */
export function parsePostmasterFile(text: string): PostmasterFile | undefined {
  const lines = text.split('\n');
  const pid = Number(lines[0]);
  if (!Number.isInteger(pid) || pid <= 0) return undefined;
  const port = Number(lines[3]);
  return { pid, port: Number.isInteger(port) && port > 0 ? port : undefined };
}

const BROKEN_FILE_AGE_MS = 5_000;

/** Reads postmaster.pid; undefined where there is none. Removes one that a power cut left empty or garbled. */
export async function readPostmasterFile(cluster: Cluster): Promise<PostmasterFile | undefined> {
  const path = join(cluster.data, 'postmaster.pid');
  try {
    const parsed = parsePostmasterFile(await readFile(path, 'utf8'));
    if (parsed === undefined && Date.now() - (await stat(path)).mtimeMs > BROKEN_FILE_AGE_MS) {
      await rm(path, { force: true });
    }
    return parsed;
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

/**
 * Whether `pid` is a living server of this cluster: not a zombie, and not another program that got the
 * same number after a restart of the machine.
 */
export async function isServing(pid: number, cluster: Cluster): Promise<boolean> {
  if (process.platform === 'linux') return isServingOnLinux(pid, cluster);
  if (process.platform === 'win32') return isAlive(pid);
  const { stdout } = spawnSync('ps', ['-o', 'stat=,command=', '-p', String(pid)], {
    encoding: 'utf8',
  });
  return !/^\s*Z/.test(stdout) && stdout.includes(cluster.data);
}

async function isServingOnLinux(pid: number, cluster: Cluster): Promise<boolean> {
  try {
    return (await readlink(`/proc/${pid}/cwd`)) === (await realpath(cluster.data));
  } catch {
    // No such process; a zombie, which has no working directory; or another account's process, whereas a
    // server of this cluster runs as the cluster's owner.
    return false;
  }
}

export interface PostmasterSettings {
  port: number;
  /** Trades durability for speed: only for a server whose data is thrown away. */
  forTests: boolean;
}

/** A server process that was started here; `pid` is undefined where it could not even be begun. */
export interface ServerProcess {
  pid: number | undefined;
  hasExited(): boolean;
}

/**
 * Starts PostgreSQL in a session of its own, so that Ctrl-C in the terminal reaches the app alone.
 *
 * PostgreSQL refuses to start while the process of an old postmaster.pid exists, even as a zombie or as
 * another program. It makes an exception for the process named in PG_GRANDPARENT_PID, and then still checks
 * by its shared memory that no process of the old server is left. So a `stalePid` that was found not to be
 * serving goes there: nothing is deleted behind PostgreSQL's back, and a file that another process writes
 * meanwhile is respected.
 */
export function spawnServer(
  cluster: Cluster,
  binaries: Binaries,
  account: SystemAccount,
  settings: PostmasterSettings,
  stalePid: number | undefined,
): ServerProcess {
  const [command, args] = account.command(binaries.postgres, [
    '-D',
    cluster.data,
    ...serverOptions(settings),
  ]);
  const logFile = openSync(cluster.logFile, 'a', 0o600);
  const env = serverEnvironment();
  if (stalePid !== undefined) env.PG_GRANDPARENT_PID = String(stalePid);
  const child = spawn(command, args, {
    ...account.identity,
    env,
    cwd: '/',
    detached: true,
    windowsHide: true,
    stdio: ['ignore', logFile, logFile],
  });
  closeSync(logFile);
  child.unref();
  // Reported by `hasExited`: such a child has no pid.
  child.on('error', () => undefined);
  return {
    pid: child.pid,
    hasExited: () =>
      child.pid === undefined || child.exitCode !== null || child.signalCode !== null,
  };
}

function serverOptions({ port, forTests }: PostmasterSettings): string[] {
  const settings: Record<string, string | number> = {
    listen_addresses: '127.0.0.1',
    port,
    unix_socket_directories: '',
    timezone: 'UTC',
    log_timezone: 'UTC',
    log_checkpoints: 'off',
    fsync: forTests ? 'off' : 'on',
    synchronous_commit: forTests ? 'off' : 'on',
    full_page_writes: forTests ? 'off' : 'on',
  };
  return Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`]);
}
