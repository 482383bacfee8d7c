import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';

import { FirstStartService } from '#app/access/first-start.service.js';
import { PasswordService } from '#app/access/password.service.js';
import { SetUpService } from '#app/access/set-up.service.js';
import { withClient } from '#app/database/built-in-roles.js';

import { buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

const NEW_FIRM = '01900000-0000-7000-8000-0000000000f7';
const OWNER = { name: 'Bea Orne', email: 'bea.orne@firm.example', password: PASSWORD };

describe('the first start', () => {
  let test: TestApp;
  let firstStart: FirstStartService;

  beforeEach(async () => {
    test = await buildTestApp({ limits: { openPerMinute: 12 } });
    await test.addFirm(NEW_FIRM);
    firstStart = test.app.get(FirstStartService);
  });

  afterEach(() => test.close());

  const asOwner = (sql: string): Promise<unknown[]> =>
    withClient(test.ownerUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [NEW_FIRM]);
      return (await client.query(sql)).rows;
    });

  const isOpen = async () => (await test.browser().get('/api/v1/first-start').expect(200)).body;
  const use = (code: string, owner: object = OWNER) =>
    test
      .browser()
      .post('/api/v1/first-start')
      .send({ code, ...owner });

  it('has no code where somebody can sign in', async () => {
    expect(await firstStart.begin(FIRM_ID)).toBeUndefined();
    expect(await isOpen()).toEqual({ isOpen: false });
    await use('').expect(422);
    await use('guessed').expect(401);
  });

  it('makes one owner by its code, once, of two at once too', async () => {
    const code = (await firstStart.begin(NEW_FIRM))!;
    expect(await isOpen()).toEqual({ isOpen: true });
    await use(`${code}x`).expect(401);
    const weak = await use(code, { ...OWNER, password: 'short' }).expect(422);
    expect(weak.body.errors).toMatchObject([{ field: '/password' }]);
    const both = await Promise.all([
      use(code),
      use(code, { ...OWNER, email: 'other@firm.example' }),
    ]);
    expect(both.map(({ status }) => status).sort()).toEqual([204, 401]);
    expect(await isOpen()).toEqual({ isOpen: false });
    await use(code).expect(401);
    const browser = test.browser();
    const email = both[0].status === 204 ? OWNER.email : 'other@firm.example';
    const { body } = await browser.post('/api/v1/session').send({ email, password: PASSWORD });
    expect(body.person.role).toBe('owner');
    const { body: accounts } = await browser.get('/api/v1/accounts').expect(200);
    expect(accounts.items).toHaveLength(1);
    const { body: record } = await browser.get('/api/v1/audit?limit=10').expect(200);
    expect(record.items).toContainEqual(
      expect.objectContaining({ action: 'POST /api/v1/first-start', outcome: 'done' }),
    );
    expect(JSON.stringify(record)).not.toContain(code);
  });

  it('is over once somebody can sign in by another way', async () => {
    const code = (await firstStart.begin(NEW_FIRM))!;
    const setUp = test.app.get(SetUpService);
    const made = await Promise.all([
      setUp.ensureOwner(NEW_FIRM, OWNER),
      setUp.ensureOwner(NEW_FIRM, { ...OWNER, email: 'other@firm.example' }),
    ]);
    expect(made.filter((id) => id !== undefined)).toHaveLength(1);
    expect(await isOpen()).toEqual({ isOpen: false });
    await use(code).expect(401);
  });

  it('lets the firm go on while the first owner’s password is hashed', async () => {
    const passwords = test.app.get(PasswordService);
    const choose = passwords.choose.bind(passwords);
    const free: unknown[] = [];
    jest.spyOn(passwords, 'choose').mockImplementation(async (...chosen) => {
      free.push(...(await asOwner('SELECT firm_id AS id FROM firms FOR UPDATE SKIP LOCKED')));
      return choose(...chosen);
    });
    const setUp = test.app.get(SetUpService);
    expect(await setUp.ensureOwner(NEW_FIRM, OWNER)).toBeDefined();
    expect(free).toEqual([{ id: NEW_FIRM }]);
    expect(await setUp.ensureOwner(NEW_FIRM, { ...OWNER, password: 'short' })).toBeUndefined();
    expect(free).toHaveLength(1);
  });

  it('is not guessed through', async () => {
    await firstStart.begin(NEW_FIRM);
    const statuses = [];
    for (let guess = 0; guess < 40; guess += 1) statuses.push((await use(`g${guess}`)).status);
    expect(statuses.filter((status) => status === 401)).toHaveLength(12);
    expect(statuses.filter((status) => status === 429)).toHaveLength(28);
  });
});
