import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Pool } from 'pg';
import { DataSource } from 'typeorm';

import { withClient } from '#app/database/built-in-roles.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';
import { SentTogether } from '#app/database/sent-together.js';
import { PoolReader } from '#app/observability/pool-reader.js';

import { drawSite, row } from './support/draw-site.js';
import { expectAllGivenBack } from './support/given-back.js';
import { buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

/** Three times as often as there are connections in the pool. */
const OFTEN = 30;

describe('the connections to the database', () => {
  let test: TestApp;
  let transaction: FirmTransaction;

  beforeAll(async () => {
    test = await buildTestApp();
    transaction = test.app.get(FirmTransaction);
  });

  afterAll(() => test.close());

  const repeat = (act: () => Promise<unknown>) =>
    Promise.allSettled(Array.from({ length: OFTEN }, act));

  it('are given back when a sign-in or a reset has text that cannot be kept', async () => {
    for (const email of ['a\0@firm.example', 'a\ud800@firm.example', '\udc00']) {
      const signIn = { email, password: PASSWORD };
      const answers = await repeat(() => test.browser().post('/api/v1/session').send(signIn));
      for (const answer of answers) {
        expect(answer).toMatchObject({
          value: { status: 422, body: { errors: [{ field: '/email' }] } },
        });
      }
      await repeat(() => test.browser().post('/api/v1/password-resets').send({ email }));
    }
    await expectAllGivenBack(test.app);
    const { email } = test.owner;
    await test.browser().post('/api/v1/session').send({ email, password: PASSWORD }).expect(200);
  });

  it('are given back when the search for whose a row is fails', async () => {
    const find = () => transaction.runFinding('sign_in_email', 'a\0', () => oneRow());
    for (const { status } of await repeat(find)) expect(status).toBe('rejected');
    await expectAllGivenBack(test.app);
    const found = await transaction.runFinding('sign_in_email', 'nobody', () => oneRow());
    expect(found).toEqual([{ one: 1 }]);
  });

  it('are given back, and nothing is kept, when what was to be written with the commit fails', async () => {
    const name = 'written before';
    const work = async () => {
      await (await transaction.manager()).query('UPDATE firms SET name = $1', [name]);
      transaction.writeLater('UPDATE firms SET last_ticket_number = $1', ['not a number']);
    };
    for (const { status } of await repeat(() => transaction.run(FIRM_ID, 'write', work)))
      expect(status).toBe('rejected');
    const names = () =>
      transaction.run(FIRM_ID, 'read', async () =>
        (await transaction.manager()).query<{ name: string }[]>('SELECT name FROM firms'),
      );
    expect(await names()).not.toEqual([{ name }]);
    await expectAllGivenBack(test.app);
  });

  it('are given back, and nobody is told of a commit, when the work passed over what had failed', async () => {
    const work = async () => {
      const manager = await transaction.manager();
      await manager.query('SELECT 1/0').catch(() => undefined);
    };
    for (const one of await repeat(() => transaction.run(FIRM_ID, 'write', work)))
      expect(one).toMatchObject({ reason: { message: 'The transaction was not committed' } });
    await expectAllGivenBack(test.app);
  });

  it('are given back when the work, its settings or its end fails', async () => {
    const failing = [
      'SELECT 1/0',
      'SELECT no_such()',
      `SELECT pg_terminate_backend(pg_backend_pid())`,
    ];
    for (const mode of ['read', 'write'] as const) {
      for (const sql of failing) {
        const work = async () => (await transaction.manager()).query(sql);
        for (const { status } of await repeat(() => transaction.run(FIRM_ID, mode, work))) {
          expect(status).toBe('rejected');
        }
      }
      await expectAllGivenBack(test.app);
      expect(await transaction.run(FIRM_ID, mode, oneRow)).toEqual([{ one: 1 }]);
    }
  });

  it('may be lost while whoever took one listens for nothing', async () => {
    const { master: pool } = test.app.get(DataSource).driver as unknown as { master: Pool };
    for (let time = 0; time < OFTEN; time += 1) {
      const client = await pool.connect();
      try {
        const ended = new Promise((resolve) => client.once('end', resolve));
        const [{ pid }] = (await client.query('SELECT pg_backend_pid() AS pid')).rows;
        await pool.query('SELECT pg_terminate_backend($1)', [pid]);
        await ended;
      } finally {
        client.release(true);
      }
    }
    await expectAllGivenBack(test.app);
  });

  it('tell what went wrong first, not that it could not be taken back', async () => {
    const work = async () => {
      const manager = await transaction.manager();
      await manager.query(`SELECT pg_terminate_backend(pg_backend_pid())`).catch(() => undefined);
      throw new Error('the reason');
    };
    await expect(transaction.run(FIRM_ID, 'write', work)).rejects.toThrow('the reason');
  });

  it('are not taken by work that goes on when its transaction is over', async () => {
    let late: Promise<unknown> = Promise.resolve();
    let goOn = () => {};
    const over = new Promise<void>((resolve) => (goOn = resolve));
    const work = async () => {
      late = over.then(() => transaction.manager());
      await oneRow();
      throw new Error('quicker');
    };
    await expect(transaction.run(FIRM_ID, 'read', work)).rejects.toThrow('quicker');
    goOn();
    await expect(late).rejects.toThrow('after its transaction was over');
    await expectAllGivenBack(test.app);
  });

  describe('that many reads share', () => {
    const OTHER_FIRM = '01900000-0000-7000-8000-0000000000f7';
    const asked = (text: string, values: string[] = []) =>
      transaction.rows({ name: `asked ${text}`, text, values });

    beforeAll(() => test.addFirm(OTHER_FIRM));

    it('show each its own firm alone, and leave none behind', async () => {
      const firms = Array.from({ length: OFTEN }, (_, i) => (i % 2 === 0 ? FIRM_ID : OTHER_FIRM));
      const seen = await Promise.all(
        firms.map((firm) =>
          transaction.run(firm, 'read', () => asked('SELECT firm_id FROM firms')),
        ),
      );
      expect(seen).toEqual(firms.map((firm) => [[firm]]));
      // Of a connection that was opened just now there is no such setting at all: it has none left behind either.
      const text = `SELECT coalesce(current_setting('app.firm_id', true), '') AS firm`;
      for (let time = 0; time < OFTEN; time += 1) {
        const left = await test.app.get(SentTogether).query({ name: 'left', text });
        expect(left.rows).toEqual([{ firm: '' }]);
      }
    });

    it('write nothing', async () => {
      const write = () =>
        transaction.run(FIRM_ID, 'read', () => asked(`UPDATE firms SET name = 'x' RETURNING name`));
      await expect(write()).rejects.toMatchObject({ code: '25006' });
    });

    it('fail for the one that failed, and are given back', async () => {
      const divided = (by: string) =>
        transaction.run(FIRM_ID, 'read', () => asked('SELECT 6 / $1::int', [by]));
      for (let time = 0; time < 3; time += 1) {
        const found = await Promise.allSettled(['1', '0', '2', 'none', '3'].map(divided));
        expect(found.map((one) => (one.status === 'fulfilled' ? one.value : 'failed'))).toEqual([
          [[6]],
          'failed',
          [[3]],
          'failed',
          [[2]],
        ]);
      }
      await expectAllGivenBack(test.app);
    });

    it('go on when a newer process has added a column to what they read', async () => {
      const site = await drawSite(test, [row('A', 2)]);
      const read = () => test.http.get(`/api/v1/sites/${site}`).expect(200);
      const change = async () => {
        const { headers } = await read();
        const patch = test.http.patch(`/api/v1/sites/${site}`).set('if-match', headers['etag']!);
        await patch.send({ address: '3 Heron Lane' }).expect(200);
      };
      for (let time = 0; time < OFTEN; time += 1) await change();
      await withClient(test.ownerUrl, (client) =>
        client.query('ALTER TABLE sites ADD COLUMN added_later text'),
      );
      for (let time = 0; time < OFTEN; time += 1) await change();
    });
  });

  it('do not wait for ever, for anything', async () => {
    const settings = ['statement_timeout', 'lock_timeout', 'idle_in_transaction_session_timeout'];
    const shown = await transaction.run(FIRM_ID, 'read', async () => {
      const manager = await transaction.manager();
      const query = `SELECT name, setting::int AS setting FROM pg_settings WHERE name = ANY ($1)`;
      return manager.query<{ name: string; setting: number }[]>(query, [settings]);
    });
    expect(shown).toHaveLength(3);
    for (const { setting } of shown) expect(setting).toBeGreaterThan(0);
    expect(test.app.get(PoolReader).read().total).toBeGreaterThan(0);
  });

  async function oneRow(): Promise<unknown> {
    return (await transaction.manager()).query('SELECT 1 AS one');
  }
});
