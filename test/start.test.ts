import { once } from 'node:events';
import { type AddressInfo, createServer } from 'node:net';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import supertest from 'supertest';
import { uuidv7 } from 'uuidv7';

import { SetUpService } from '#app/access/set-up.service.js';
import { readConfig } from '#app/config.js';
import { createJsonLog } from '#app/observability/json-log.js';
import { start } from '#app/start.js';

import { type ClonedDatabase, cloneDatabase } from './support/clone-database.js';
import { drawSite, row } from './support/draw-site.js';
import { MainProcess } from './support/run-main.js';
import { PASSWORD, SEAL_KEY } from './support/test-app.js';

const LISTENERS = {
  say: () => undefined,
  log: createJsonLog('silent'),
  onLost: () => undefined,
};

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
    const { app, address, stop } = await start(config, LISTENERS);
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

  describe('in vain', () => {
    const processes: MainProcess[] = [];
    let port: number;
    const taken = createServer();

    beforeAll(async () => {
      taken.listen(0, '127.0.0.1');
      await once(taken, 'listening');
      ({ port } = taken.address() as AddressInfo);
    });

    afterAll(async () => {
      for (const each of processes) each.kill('SIGKILL');
      await Promise.all(processes.map((each) => each.ended()));
      taken.close();
    });

    const OWNER = {
      OWNER_EMAIL: 'first@firm.example',
      OWNER_PASSWORD: 'a heron on the weathercock',
    };

    it.each([
      [
        'its port is taken',
        () => ({ PORT: `${port}`, METRICS_PORT: '0' }),
        /^PORT: another program listens on \d+/,
      ],
      [
        'the port of the metrics is taken',
        () => ({ METRICS_PORT: `${port}` }),
        /^METRICS_PORT: another program/,
      ],
      [
        'its host is elsewhere',
        () => ({ HOST: '192.0.2.1' }),
        /^HOST: 192\.0\.2\.1 is no address of this machine/,
      ],
      [
        'the owner’s password is weak',
        () => ({ ...OWNER, OWNER_PASSWORD: 'short' }),
        /^OWNER_PASSWORD: must have at least 12 characters/,
      ],
      [
        'the owner’s e-mail is none',
        () => ({ ...OWNER, OWNER_EMAIL: 'first' }),
        /^OWNER_EMAIL: "first" is no e-mail/,
      ],
      ['the key is none', () => ({ SEAL_KEY: 'abc' }), /^SEAL_KEY: must be 32 bytes/],
      [
        'no database listens',
        () => ({ DATABASE_URL: 'postgres://app@127.0.0.1:1/x' }),
        /^DATABASE_URL: nothing listens at 127\.0\.0\.1:1/,
      ],
      [
        'the database is not there',
        () => ({ DATABASE_URL: database.appUrl.replace(/[^/]+$/, 'nowhere') }),
        /^DATABASE_URL: /,
      ],
      [
        'the owner’s role is refused',
        () => ({ MIGRATION_DATABASE_URL: database.ownerUrl.replace(/:[^:@]+@/, ':secret@') }),
        /^MIGRATION_DATABASE_URL: the server at \S+ refuses the password of lastheard_owner/,
      ],
    ])('says why: %s', async (_, env, reason) => {
      const failed = (async () => start(readConfig({ ...base(), ...env() }), LISTENERS))();
      const { message } = await failed.then(({ stop }) => stop().then(() => new Error()), asError);
      expect(message).toMatch(reason);
      expect(message.split('\n')).toHaveLength(1);
      expect(message).not.toContain('secret');
    });

    it.each(['PORT', 'METRICS_PORT'])('ends, with a code: %s is taken', async (name) => {
      const main = new MainProcess({ ...base(), METRICS_PORT: '0', [name]: `${port}` });
      processes.push(main);
      expect({ code: await main.ended(), err: main.err }).toEqual({
        code: 1,
        err: expect.stringMatching(`^${name}: another program listens on ${port} of 127.0.0.1`),
      });
    });

    const asError = (error: unknown) => error as Error;

    const base = () => ({
      PORT: '0',
      DATABASE_URL: database.appUrl,
      MIGRATION_DATABASE_URL: database.ownerUrl,
      SEAL_KEY: SEAL_KEY.toString('base64'),
    });
  });

  it('says what is wrong with its links where nobody told it its address', async () => {
    const { appUrl: DATABASE_URL, ownerUrl: MIGRATION_DATABASE_URL } = database;
    const base = { PORT: '0', DATABASE_URL, MIGRATION_DATABASE_URL };
    const sealKey = { SEAL_KEY: SEAL_KEY.toString('base64') };
    const cases = [
      [{ HOST: '0.0.0.0' }, expect.stringContaining('PUBLIC_URL is not set')],
      [{ HOST: '0.0.0.0', PUBLIC_URL: 'http://lastheard.example' }, null],
      [{}, null],
    ] as const;
    for (const [env, linkWarning] of cases) {
      const lines: string[] = [];
      const log = createJsonLog('warn', { write: (line) => lines.push(line) });
      const config = readConfig({ ...base, ...sealKey, ...env });
      const { app, stop } = await start(config, { ...LISTENERS, log });
      try {
        const setUp = app.get(SetUpService);
        const firmId = config.firm.id;
        const email = `owner-${uuidv7()}@firm.example`;
        const owner = { name: 'Owner', email, role: 'owner', password: PASSWORD } as const;
        await setUp.addAccount(firmId, owner);
        const http = supertest.agent(app.getHttpServer());
        const signIn = { email, password: PASSWORD };
        const { body: session } = await http.post('/api/v1/session').send(signIn).expect(200);
        void http.set('X-CSRF-Token', session.csrfToken);
        const siteId = await drawSite({ http }, [row('A', 3)]);
        const { body: pass } = await http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
        expect(pass.linkWarning).toEqual(linkWarning);
        const invited = {
          name: 'Runa Feld',
          email: `${uuidv7()}@firm.example`,
          role: 'technician',
        };
        const { body } = await http.post('/api/v1/invitations').send(invited).expect(201);
        expect(body.linkWarning).toEqual(linkWarning);
        const { body: outbox } = await http.get('/api/v1/outbox').expect(200);
        expect(outbox.items[0].text.includes('PUBLIC_URL')).toBe(linkWarning !== null);
        expect(lines.some((line) => line.includes('PUBLIC_URL'))).toBe(linkWarning !== null);
      } finally {
        await stop();
      }
    }
  });
});
