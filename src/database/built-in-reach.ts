import { readFile, stat } from 'node:fs/promises';
import { createServer } from 'node:net';
import { setTimeout as delay } from 'node:timers/promises';

import { SystemAccount } from './built-in-account.js';
import { Binaries } from './built-in-binaries.js';
import { Cluster, SUPERUSER } from './built-in-cluster.js';
import { BuiltInServerError, errorCode } from './built-in-error.js';
import { Lease, takeLease } from './built-in-lease.js';
import {
  ServerProcess,
  isServing,
  readPostmasterFile,
  spawnServer,
} from './built-in-postmaster.js';
import { databaseUrl } from './built-in-roles.js';

/** A running server and this process's claim on it. */
export interface Reached {
  pid: number;
  superuserUrl: string;
  lease: Lease;
  /** False where the server was running already. */
  startedHere: boolean;
}

export interface Start {
  cluster: Cluster;
  binaries: Binaries;
  account: SystemAccount;
  superuserPassword: string;
  forTests: boolean;
  /** Where it must serve; left out: where it did before, or any free one. */
  port?: number;
}

const POLL_MS = 10;
const RETRY_MS = 200;
/** Recovery after a crash may take a while; a server that is not running after this long is not coming. */
const GIVE_UP_MS = 120_000;
/** A port taken between finding and using it, or a start lost to another process: rare, and never often in a row. */
const MAX_FAILED_STARTS = 5;
/** SQLSTATE class 28: the server is there and does not know the password. */
const INVALID_AUTHORIZATION = '28';

/**
 * Attaches to the cluster's server, or starts it when none is running. PostgreSQL itself sees to it that of
 * several processes at once only one starts: the others find it running at their next look. Throws `did-not-start`.
 */
export async function reachServer(start: Start): Promise<Reached> {
  const giveUpAt = Date.now() + GIVE_UP_MS;
  let server: ServerProcess | undefined;
  let logStart = 0;
  let failedStarts = 0;

  while (Date.now() < giveUpAt) {
    const file = await readPostmasterFile(start.cluster);
    if (file !== undefined && (await isServing(file.pid, start.cluster))) {
      const claim = await tryClaim(start, file.port);
      if (claim !== undefined) {
        return { ...claim, pid: file.pid, startedHere: file.pid === server?.pid };
      }
    } else if (server === undefined) {
      logStart = await size(start.cluster.logFile);
      // Others that used it before it died look for it where it was.
      const before = failedStarts === 0 ? file?.port : undefined;
      const port = start.port ?? before ?? (await freePort());
      const settings = { port, forTests: start.forTests };
      server = spawnServer(start.cluster, start.binaries, start.account, settings, file?.pid);
    } else if (server.hasExited()) {
      const output = await textFrom(start.cluster.logFile, logStart);
      // Processes of a crashed server finish what they are at before they notice; PostgreSQL waits for them.
      if (!output.includes('is still in use')) failedStarts += 1;
      if (failedStarts === MAX_FAILED_STARTS) throw startFailure(start.cluster, output);
      server = undefined;
      await delay(RETRY_MS);
    }
    await delay(POLL_MS);
  }
  throw startFailure(start.cluster, await textFrom(start.cluster.logFile, logStart));
}

async function tryClaim(
  { superuserPassword }: Start,
  port: number | undefined,
): Promise<{ superuserUrl: string; lease: Lease } | undefined> {
  if (port === undefined) return undefined;
  const superuserUrl = databaseUrl(`postgresql://127.0.0.1:${port}/postgres`, {
    user: SUPERUSER,
    password: superuserPassword,
  });
  try {
    return { superuserUrl, lease: await takeLease(superuserUrl) };
  } catch (error) {
    const isRefused = errorCode(error)?.startsWith(INVALID_AUTHORIZATION) === true;
    if (!isRefused) return undefined;
    throw new BuiltInServerError(
      'did-not-start',
      'The built-in server does not take the password in its passwords.json: the file is not the one it was created with.',
    );
  }
}

function startFailure(cluster: Cluster, output: string): BuiltInServerError {
  return new BuiltInServerError(
    'did-not-start',
    `The built-in database server did not start. See ${cluster.logFile}, which ends:\n${output.slice(-2000).trim()}`,
  );
}

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve, reject) => {
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', resolve);
  });
  const address = probe.address();
  await new Promise((resolve) => probe.close(resolve));
  if (address === null || typeof address === 'string')
    throw new Error('a TCP address was expected');
  return address.port;
}

async function size(path: string): Promise<number> {
  return (await stat(path)).size;
}

async function textFrom(path: string, start: number): Promise<string> {
  const bytes = await readFile(path);
  return bytes.subarray(start).toString('utf8');
}
