import { rm, statfs } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { randomBytes } from 'node:crypto';

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
import { removeAbandoned, throwAwayDirectory } from './throw-away-directory.js';

interface TestServer {
  superuserUrl: string;
  /** SQL for `create database` that gives the template the encoding and order of the built-in server. */
  databaseOptions: string;
  stop: () => Promise<void>;
}

const MEMORY_DIRECTORY = '/dev/shm';
const MEMORY_WANTED_BYTES = 2 * 1024 ** 3;
const TEMPLATE = `lastheard_template_${randomBytes(4).toString('hex')}`;

let stopRunning: (() => Promise<void>) | undefined;

/** Jest's globalSetup: a server for the whole run, and on it the template that `cloneDatabase` copies. */
export default async function startTestServer(): Promise<void> {
  for (const parent of [tmpdir(), MEMORY_DIRECTORY]) await removeAbandoned(parent);
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
  await withClient(server.superuserUrl, (client) => ensureRoles(client, passwords));
  await ensureDatabase(server.superuserUrl, TEMPLATE, server.databaseOptions);
  const as = (user: string, password: string) =>
    databaseUrl(server.superuserUrl, { database: TEMPLATE, user, password });

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
    stop: () =>
      withClient(superuserUrl, async (client) => {
        await client.query(`drop database if exists ${TEMPLATE} with (force)`);
      }),
  };
}

async function throwAwayServer(): Promise<TestServer> {
  const dataDirectory = throwAwayDirectory(await fastestDirectory());
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

/** Memory where there is plenty, because making a database makes some 300 files: 12 ms there, 200 ms on a disk. */
async function fastestDirectory(): Promise<string> {
  try {
    const { bavail, bsize } = await statfs(MEMORY_DIRECTORY);
    return bavail * bsize >= MEMORY_WANTED_BYTES ? MEMORY_DIRECTORY : tmpdir();
  } catch {
    return tmpdir();
  }
}
