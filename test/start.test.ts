import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from 'uuidv7';

import { SetUpService } from '#app/access/set-up.service.js';
import { readConfig } from '#app/config.js';
import { createJsonLog } from '#app/observability/json-log.js';
import { start } from '#app/start.js';

import { type ClonedDatabase, cloneDatabase } from './support/clone-database.js';
import { SEAL_KEY } from './support/test-app.js';

describe('the app as it is started', () => {
  let database: ClonedDatabase;

  beforeAll(async () => {
    database = await cloneDatabase();
  });

  afterAll(() => database.drop());

  /** The link that a new firm's owner gets from an app on a port that it picks. */
  async function linkOf(env: NodeJS.ProcessEnv): Promise<{ link: string; address: string }> {
    const { appUrl: DATABASE_URL, ownerUrl: MIGRATION_DATABASE_URL } = database;
    const sealKey = SEAL_KEY.toString('base64');
    const config = readConfig({
      PORT: '0',
      DATABASE_URL,
      MIGRATION_DATABASE_URL,
      SEAL_KEY: sealKey,
      ...env,
    });
    const { app, address, stop } = await start(config, () => undefined, createJsonLog('silent'));
    try {
      const owner = { name: 'Owner', email: 'owner@firm.example' };
      return { address, link: await app.get(SetUpService).addFirm(uuidv7(), 'Firm', owner) };
    } finally {
      await stop();
    }
  }

  it('names in its links the port that it really listens on', async () => {
    const { link, address } = await linkOf({});
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:[1-9]\d*$/);
    expect(link.split('#')[0]).toBe(`${address}/password`);
  });

  it('names the public address where it is told one', async () => {
    const { link } = await linkOf({ PUBLIC_URL: 'https://lastheard.example/' });
    expect(link.split('#')[0]).toBe('https://lastheard.example/password');
  });
});
