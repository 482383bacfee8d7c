import { randomBytes } from 'node:crypto';
import { basename } from 'node:path';

import { expect } from '@jest/globals';
import { escapeIdentifier } from 'pg';

import { createDatabase, databaseUrl, withClient } from '#app/database/built-in-roles.js';

export interface ClonedDatabase {
  ownerUrl: string;
  appUrl: string;
  drop(): Promise<void>;
}

/** A database of its own for one test file, copied from the template. Call in `beforeAll`, drop in `afterAll`. */
export async function cloneDatabase(): Promise<ClonedDatabase> {
  const superuserUrl = fromSetup('TEST_SUPERUSER_URL');
  const templateOwnerUrl = fromSetup('TEST_TEMPLATE_OWNER_URL');
  const template = escapeIdentifier(new URL(templateOwnerUrl).pathname.slice(1));
  const database = databaseName();
  await withClient(superuserUrl, (client) =>
    createDatabase(client, database, `template ${template}`),
  );
  return {
    ownerUrl: databaseUrl(templateOwnerUrl, { database }),
    appUrl: databaseUrl(fromSetup('TEST_TEMPLATE_APP_URL'), { database }),
    drop: () =>
      withClient(superuserUrl, async (client) => {
        await client.query(`drop database ${escapeIdentifier(database)} with (force)`);
      }),
  };
}

/** Tells in a list of databases which file and worker it is of; the end keeps apart several of one file. */
function databaseName(): string {
  const file = basename(expect.getState().testPath ?? 'test', '.test.js');
  const end = randomBytes(4).toString('hex');
  return `test_${file.replaceAll('-', '_').slice(0, 30)}_${process.env.JEST_WORKER_ID ?? 0}_${end}`;
}

function fromSetup(name: string): string {
  const value = process.env[name];
  if (value === undefined) throw new Error(`${name} is not set: start-test-server did not run`);
  return value;
}
