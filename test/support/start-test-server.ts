import { readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { randomBytes } from 'node:crypto';
import { setTimeout as delay } from 'node:timers/promises';

import { clusterIn } from '#app/database/built-in-cluster.js';
import { isAlive } from '#app/database/built-in-program.js';
import { isServing, readPostmasterFile } from '#app/database/built-in-postmaster.js';
import {
  APP_ROLE,
  OWNER_ROLE,
  databaseUrl,
  ensureDatabase,
  ensureRoles,
  withClient,
} from '#app/database/built-in-roles.js';
import { startBuiltInServer } from '#app/database/built-in-server.js';

import { migrateTemplate } from './migrate-template.js';

interface TestServer {
  superuserUrl: string;
  /** SQL for `create database` that gives the template the encoding and order of the built-in server. */
  databaseOptions: string;
  stop: () => Promise<void>;
}

const DIRECTORY = `lastheard-test-${process.getuid?.() ?? 0}-`;

let stopRunning: (() => Promise<void>) | undefined;

/** Jest's globalSetup: a server for the whole run, and on it the template that `cloneDatabase` copies. */
export default async function startTestServer(): Promise<void> {
  const ownServer = process.env.TEST_DATABASE_URL;
  const server = ownServer ? givenServer(ownServer) : await throwAwayServer();
  stopRunning = server.stop;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => void server.stop().finally(() => process.exit(1)));
  }
  try {
    await makeTemplate(server);
  } catch (error) {
    await server.stop();
    throw error;
  }
}

export async function stopTestServer(): Promise<void> {
  await stopRunning?.();
}

async function makeTemplate(server: TestServer): Promise<void> {
  const passwords = { owner: 'owner-of-tests', app: 'app-of-tests' };
  const database = `lastheard_template_${randomBytes(4).toString('hex')}`;
  await withClient(server.superuserUrl, (client) => ensureRoles(client, passwords));
  await ensureDatabase(server.superuserUrl, database, server.databaseOptions);
  const as = (user: string, password: string) =>
    databaseUrl(server.superuserUrl, { database, user, password });

  process.env.TEST_SUPERUSER_URL = server.superuserUrl;
  process.env.TEST_TEMPLATE_OWNER_URL = as(OWNER_ROLE, passwords.owner);
  process.env.TEST_TEMPLATE_APP_URL = as(APP_ROLE, passwords.app);
  await migrateTemplate(process.env.TEST_TEMPLATE_OWNER_URL, process.env.TEST_TEMPLATE_APP_URL);
}

/** TEST_DATABASE_URL: a superuser's url on a server that nothing but tests uses. */
function givenServer(superuserUrl: string): TestServer {
  return {
    superuserUrl,
    databaseOptions: "template template0 encoding 'UTF8' locale 'C.UTF-8'",
    stop: () => Promise.resolve(),
  };
}

async function throwAwayServer(): Promise<TestServer> {
  await removeAbandoned();
  const end = randomBytes(4).toString('hex');
  const dataDirectory = join(tmpdir(), `${DIRECTORY}${process.pid}-${end}`);
  const server = await startBuiltInServer({ dataDirectory, log: () => undefined, forTests: true });
  return {
    superuserUrl: server.superuserUrl,
    databaseOptions: '',
    async stop() {
      await server.stop();
      await rm(dataDirectory, { recursive: true, force: true });
    },
  };
}

/** Ends what earlier runs left behind because they were killed outright. */
async function removeAbandoned(): Promise<void> {
  for (const name of await readdir(tmpdir())) {
    const maker = name.startsWith(DIRECTORY) ? parseInt(name.slice(DIRECTORY.length)) : NaN;
    if (Number.isNaN(maker) || isAlive(maker)) continue;
    const dataDirectory = join(tmpdir(), name);
    const cluster = clusterIn(dataDirectory);
    const pid = (await readPostmasterFile(cluster))?.pid;
    if (pid !== undefined && (await isServing(pid, cluster))) {
      process.kill(pid, 'SIGQUIT');
      while (await isServing(pid, cluster)) await delay(10);
    }
    await rm(dataDirectory, { recursive: true, force: true });
  }
}
