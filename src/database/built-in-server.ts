import { setTimeout as delay } from 'node:timers/promises';

import { chooseAccount } from './built-in-account.js';
import { locateBinaries } from './built-in-binaries.js';
import { clusterIn, ensureCluster, readPasswords } from './built-in-cluster.js';
import { BuiltInServerError } from './built-in-error.js';
import { keepRunning } from './built-in-keeper.js';
import { isServing } from './built-in-postmaster.js';
import { runProgram } from './built-in-program.js';
import { Reached, Start, reachServer } from './built-in-reach.js';
import {
  APP_ROLE,
  OWNER_ROLE,
  databaseUrl,
  ensureDatabase,
  ensureRoles,
  withClient,
} from './built-in-roles.js';

export interface BuiltInServerOptions {
  /** Made if it is not there; holds the data for good. */
  dataDirectory: string;
  /** Told in one line each what happens: created, started or found running, stopped or left running. */
  log: (message: string) => void;
  /** Given: a server that dies is started again at the same port; told when that is given up. */
  onLost?: (error: unknown) => void;
  /** Nothing survives a crash of the machine. Only for data that is thrown away. */
  forTests?: boolean;
}

export interface BuiltInServer {
  /** For the migrations: owns the database `lastheard`. */
  ownerUrl: string;
  /** For the service: neither superuser nor above row-level security. */
  appUrl: string;
  /** For making further databases (tests) and nothing else: above every rule. */
  superuserUrl: string;
  /**
   * Stops the server unless another process is using it, in which case the last of them stops it.
   * Resolves when the server's process is gone. Safe to call twice. Throws `did-not-stop`.
   */
  stop(): Promise<void>;
}

const DATABASE = 'lastheard';
const STOP_MS = 60_000;
const POLL_MS = 10;

/**
 * Starts the PostgreSQL server that comes with Lastheard, or attaches to the one already running on the data
 * directory: another process's, or one left behind by a process that was killed. Throws `BuiltInServerError`.
 */
export async function startBuiltInServer(options: BuiltInServerOptions): Promise<BuiltInServer> {
  const { dataDirectory, log, onLost, forTests = false } = options;
  const binaries = await locateBinaries();
  const account = chooseAccount(clusterIn(dataDirectory).directory, binaries.postgres);
  const cluster = await ensureCluster(dataDirectory, binaries, account, log);
  const { superuser: superuserPassword, ...passwords } = await readPasswords(cluster);
  const start: Start = { cluster, binaries, account, superuserPassword, forTests };

  const reached = await reachServer(start);
  const { superuserUrl, pid, startedHere } = reached;
  log(
    `${startedHere ? 'Started the' : 'Found a running'} built-in database server (process ${pid}).`,
  );
  const port = Number(new URL(superuserUrl).port);
  const reach = () => reachServer({ ...start, port });
  const keeper = onLost && keepRunning(reached, { reach, log, onLost });
  let stopping: Promise<void> | undefined;
  const stop = () => (stopping ??= stopLast());
  const stopLast = async () => stopServer(start, (await keeper?.letGo()) ?? reached, log);
  try {
    await withClient(superuserUrl, (client) => ensureRoles(client, passwords));
    await ensureDatabase(superuserUrl, DATABASE);
  } catch (error) {
    await stop();
    throw error;
  }
  const as = (user: string, password: string) =>
    databaseUrl(superuserUrl, { database: DATABASE, user, password });
  return {
    superuserUrl,
    ownerUrl: as(OWNER_ROLE, passwords.owner),
    appUrl: as(APP_ROLE, passwords.app),
    stop,
  };
}

async function stopServer(
  { account, binaries, cluster }: Start,
  { pid, lease }: Reached,
  log: (message: string) => void,
): Promise<void> {
  const isLast = await releaseOrUndefined(lease.release());
  if (isLast === false) {
    await lease.close();
    log('Left the built-in database server running: another process is using it.');
    return;
  }
  if (await isServing(pid, cluster)) {
    const { output } = await runProgram(account, binaries.pgCtl, [
      'stop',
      `--pgdata=${cluster.data}`,
      '--mode=fast',
      '--no-wait',
      '--silent',
    ]);
    for (
      const giveUpAt = Date.now() + STOP_MS;
      await isServing(pid, cluster);
      await delay(POLL_MS)
    ) {
      if (Date.now() < giveUpAt) continue;
      throw new BuiltInServerError(
        'did-not-stop',
        `The built-in database server (process ${pid}) did not stop: ${output}`,
      );
    }
    log('Stopped the built-in database server.');
  }
  await lease.close();
}

/** Undefined where the server no longer answers, so that nobody can say who else was using it. */
async function releaseOrUndefined(release: Promise<boolean>): Promise<boolean | undefined> {
  try {
    return await release;
  } catch {
    return undefined;
  }
}
