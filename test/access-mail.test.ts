import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { text } from 'node:stream/consumers';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { TOTP } from 'otpauth';
import { SMTPServer } from 'smtp-server';

import { BackgroundService } from '#app/shared/background.service.js';
import { DEFAULT_PATIENCE_MS } from '#app/mail/mail.service.js';
import { JOB_KINDS } from '#app/jobs/job-kinds.js';
import { JobService } from '#app/jobs/job.service.js';
import { withClient } from '#app/database/built-in-roles.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';

import { type Agent, buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

const NEW_PASSWORD = 'an otter under the jetty';

describe('invitations, resets and the second step', () => {
  let test: TestApp;
  let owner: { http: Agent; csrf: string };

  beforeAll(async () => {
    test = await buildTestApp();
    owner = await signedIn(test.owner.email);
  });

  afterAll(() => test.close());

  const signIn = (http: Agent, email: string, password = PASSWORD, code?: string) =>
    http.post('/api/v1/session').send({ email, password, code });

  async function signedIn(email: string, password = PASSWORD) {
    const http = test.browser();
    const { body } = await signIn(http, email, password).expect(200);
    return { http, csrf: body.csrfToken as string };
  }

  const as = ({ http, csrf }: { http: Agent; csrf: string }, path: string, body: object) =>
    http.post(`/api/v1${path}`).set('X-CSRF-Token', csrf).send(body);

  /** The secret in the newest mail to somebody. */
  async function mailedSecret(recipient: string): Promise<string> {
    await test.app.get(BackgroundService).settle();
    const { body } = await owner.http.get('/api/v1/outbox').expect(200);
    const mail = body.items.find((one: { recipient: string }) => one.recipient === recipient);
    return /\/password#([\w-]{43})/.exec(mail.text as string)![1]!;
  }

  const choose = (link: string, password: string) =>
    test.browser().post('/api/v1/password-from-link').send({ link, password });

  it('invites somebody, who chooses a password once', async () => {
    const email = 'runa.feld@firm.example';
    const invited = { name: 'Runa Feld', email, role: 'dispatcher' };
    await as(owner, '/invitations', { ...invited, clientId: test.owner.id }).expect(422);
    await as(owner, '/invitations', { ...invited, role: 'client' }).expect(422);
    await as(owner, '/invitations', invited).expect(201);
    await as(owner, '/invitations', { ...invited, email: 'Runa.Feld@firm.example' }).expect(409);
    await signIn(test.browser(), email, '').expect(401);
    const link = await mailedSecret(email);
    await choose(link, 'password12345').expect(422);
    await choose(link, NEW_PASSWORD).expect(200);
    await choose(link, PASSWORD).expect(401);
    const { body } = await signIn(test.browser(), email, NEW_PASSWORD).expect(200);
    expect(body.person).toMatchObject({ name: 'Runa Feld', role: 'dispatcher' });
  });

  it('lets one of two uses of a link at once win', async () => {
    const email = 'two@firm.example';
    await as(owner, '/invitations', { name: 'Two', email, role: 'technician' }).expect(201);
    const link = await mailedSecret(email);
    const answers = await Promise.all([choose(link, NEW_PASSWORD), choose(link, PASSWORD)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 401]);
  });

  it('resets a password by a link of an hour, and ends all sessions', async () => {
    const { email } = await test.addPerson('technician');
    const before = await signedIn(email);
    const ask = (whose: string) =>
      test.browser().post('/api/v1/password-resets').send({ email: whose });
    const known = await ask(email.toUpperCase()).expect(202);
    const unknown = await ask('nobody@firm.example').expect(202);
    expect(unknown.text).toBe(known.text);
    const old = await mailedSecret(email);
    test.clock.tick(60);
    await choose(old, NEW_PASSWORD).expect(401);
    await ask(email).expect(202);
    const replaced = await mailedSecret(email);
    await ask(email).expect(202);
    const link = await mailedSecret(email);
    await choose(replaced, NEW_PASSWORD).expect(401);
    await choose(link, NEW_PASSWORD).expect(200);
    await before.http.get('/api/v1/session').expect(401);
    await signIn(test.browser(), email).expect(401);
    await signedIn(email, NEW_PASSWORD);
    const { body } = await owner.http.get('/api/v1/outbox?limit=200').expect(200);
    const recipients = body.items.map(({ recipient }: { recipient: string }) => recipient);
    expect(recipients).not.toContain('nobody@firm.example');
  });

  it('ends a link with any change of the password', async () => {
    const { email } = await test.addPerson('technician');
    const person = await signedIn(email);
    await test.browser().post('/api/v1/password-resets').send({ email }).expect(202);
    const link = await mailedSecret(email);
    await person.http
      .put('/api/v1/password')
      .set('X-CSRF-Token', person.csrf)
      .send({ currentPassword: PASSWORD, newPassword: NEW_PASSWORD })
      .expect(200);
    await choose(link, PASSWORD).expect(401);
  });

  it('leaves one link of many that are asked for at once, and mails five an hour', async () => {
    const { email, id } = await test.addPerson('technician');
    const ask = () => test.browser().post('/api/v1/password-resets').send({ email }).expect(202);
    await Promise.all(Array.from({ length: 20 }, ask));
    await test.app.get(BackgroundService).settle();
    const { body } = await owner.http.get('/api/v1/outbox?limit=200').expect(200);
    const mails = body.items.filter((one: { recipient: string }) => one.recipient === email);
    expect(mails).toHaveLength(5);
    const links = await test.app.get(FirmTransaction).run(FIRM_ID, 'read', async () => {
      const manager = await test.app.get(FirmTransaction).manager();
      return manager.query('SELECT id FROM mailed_links WHERE person_id = $1', [id]);
    });
    expect(links).toHaveLength(1);
    test.clock.tick(60);
    await ask();
    await mailedSecret(email);
  });

  it('does not void an invitation by a reset that anybody asks for, until a password is chosen', async () => {
    const email = 'patient@firm.example';
    await as(owner, '/invitations', { name: 'Patient', email, role: 'technician' }).expect(201);
    const invitation = await mailedSecret(email);
    await test.browser().post('/api/v1/password-resets').send({ email }).expect(202);
    const reset = await mailedSecret(email);
    expect(reset).not.toBe(invitation);
    await choose(invitation, NEW_PASSWORD).expect(200);
    await choose(reset, PASSWORD).expect(401);
  });

  describe('a second step', () => {
    let email: string;
    let recoveryCodes: string[];
    let totp: TOTP;

    const codeNow = () => totp.generate({ timestamp: test.clock.now().getTime() });

    /** Of seven digits that are all the same, one is the code of no step near now. */
    const wrongCode = () => {
      const near = [-2, -1, 0, 1, 2].map((steps) =>
        totp.generate({ timestamp: test.clock.now().getTime() + steps * 30_000 }),
      );
      return [...'0123456'].map((digit) => digit.repeat(6)).find((code) => !near.includes(code))!;
    };

    it('is turned on by a first code', async () => {
      ({ email } = await test.addPerson('dispatcher'));
      const person = await signedIn(email);
      await as(person, '/second-step', { password: 'wrong' }).expect(422);
      const { body } = await as(person, '/second-step', { password: PASSWORD }).expect(201);
      expect(body.uri).toContain(`otpauth://totp/Lastheard:${encodeURIComponent(email)}`);
      totp = new TOTP({ secret: body.secret });
      await as(person, '/second-step/confirm', { code: wrongCode() }).expect(422);
      const elsewhere = await signedIn(email);
      // Tapped twice: one set of codes.
      const taps = [codeNow(), codeNow()].map((code) =>
        as(person, '/second-step/confirm', { code }),
      );
      const answers = await Promise.all(taps);
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
      const on = answers.find(({ status }) => status === 200)!;
      await elsewhere.http.get('/api/v1/session').expect(401);
      await person.http.get('/api/v1/session').expect(200);
      recoveryCodes = on.body.recoveryCodes;
      expect(new Set(recoveryCodes).size).toBe(10);
    });

    it('slows down who guesses its first code, 60 at once and one after the other; the right one is taken in time', async () => {
      const guessed = await test.addPerson('dispatcher');
      const person = await signedIn(guessed.email);
      const confirm = (code: string) => as(person, '/second-step/confirm', { code });
      for (let time = 0; time < 12; time++) await confirm('000000').expect(409);
      const { body } = await as(person, '/second-step', { password: PASSWORD }).expect(201);
      const phone = new TOTP({ secret: body.secret });
      const right = () => phone.generate({ timestamp: test.clock.now().getTime() });
      const wrong = () => String((Number(right()) + 500_000) % 1_000_000).padStart(6, '0');
      const answers = await Promise.all(Array.from({ length: 60 }, () => confirm(wrong())));
      const count = (status: number) => answers.filter((one) => one.status === status).length;
      expect([count(422), count(429)]).toEqual([3, 57]);
      for (const { headers, body: told } of answers.filter(({ status }) => status === 429)) {
        expect(told.type).toBe('urn:lastheard:problem:too-many');
        expect(headers['retry-after']).toBe(String(told.retryAfterSeconds));
      }
      const waited: number[] = [];
      for (let guess = 0; guess < 5; guess++) {
        const refused = await confirm(right()).expect(429);
        waited.push(refused.body.retryAfterSeconds);
        test.clock.tick(refused.body.retryAfterSeconds / 60);
        await confirm(wrong()).expect(422);
      }
      expect(waited).toEqual([2, 4, 8, 16, 32]);
      await signedIn(guessed.email);
      test.clock.tick(64 / 60);
      await confirm(right()).expect(200);
      await confirm(right()).expect(409);
    });

    it('asks for a code after the right password, takes each once, and a recovery code once', async () => {
      test.clock.tick(1);
      const asked = await signIn(test.browser(), email).expect(401);
      expect(asked.body.type).toBe('urn:lastheard:problem:second-step-required');
      const wrong = await signIn(test.browser(), email, 'not the right one').expect(401);
      expect(wrong.body.type).toBe('urn:lastheard:problem:unauthenticated');
      const code = codeNow();
      await signIn(test.browser(), email, PASSWORD, code).expect(200);
      await signIn(test.browser(), email, PASSWORD, code).expect(401);
      await signIn(test.browser(), email, PASSWORD, recoveryCodes[0]).expect(200);
      await signIn(test.browser(), email, PASSWORD, recoveryCodes[0]).expect(401);
      test.clock.tick(5);
      await signIn(test.browser(), email, PASSWORD, code).expect(401);
    });

    it('is not gone round by a reset of the password', async () => {
      const password = 'a wren in the gutter pipe';
      await choose(await resetLink(), password).expect(200);
      const asked = await signIn(test.browser(), email, password).expect(401);
      expect(asked.body.type).toBe('urn:lastheard:problem:second-step-required');
      await choose(await resetLink(), PASSWORD).expect(200);
    });

    async function resetLink(): Promise<string> {
      await test.browser().post('/api/v1/password-resets').send({ email }).expect(202);
      return mailedSecret(email);
    }

    it('is turned off by password and code', async () => {
      test.clock.tick(5);
      const http = test.browser();
      const { body } = await signIn(http, email, PASSWORD, codeNow()).expect(200);
      const person = { http, csrf: body.csrfToken as string };
      const end = (code: string) => as(person, '/second-step/end', { password: PASSWORD, code });
      await end(wrongCode()).expect(422);
      const elsewhere = await signIn(test.browser(), email, PASSWORD, recoveryCodes[2]).expect(200);
      const cookie = elsewhere.headers['set-cookie']![0]!;
      await end(recoveryCodes[1]!).expect(204);
      await test.browser().get('/api/v1/session').set('cookie', cookie).expect(401);
      await signedIn(email);
    });

    it('is ended by an owner for somebody who lost it: signed out, told, and in the record', async () => {
      const lost = await test.addPerson('technician');
      const person = await signedIn(lost.email);
      const path = `/accounts/${lost.id}/second-step/end`;
      await as(owner, path, {}).expect(409);
      const { body } = await as(person, '/second-step', { password: PASSWORD }).expect(201);
      const code = new TOTP({ secret: body.secret }).generate({
        timestamp: test.clock.now().getTime(),
      });
      await as(person, '/second-step/confirm', { code }).expect(200);
      await as(person, path, {}).expect(403);
      await as(owner, `/accounts/${test.owner.id}/second-step/end`, {}).expect(409);
      await as(owner, '/accounts/01900000-0000-7000-8000-00000000dead/second-step/end', {}).expect(
        404,
      );
      await as(owner, path, {}).expect(204);
      await person.http.get('/api/v1/session').expect(401);
      await signedIn(lost.email);
      const { body: outbox } = await owner.http.get('/api/v1/outbox?limit=100').expect(200);
      const told = outbox.items.filter(
        (one: { recipient: string }) => one.recipient === lost.email,
      );
      expect(told.map(({ subject }: { subject: string }) => subject)).toEqual([
        'Your second step for Lastheard was ended',
      ]);
      const { body: record } = await test.http.get('/api/v1/audit?limit=100').expect(200);
      expect(record.items).toContainEqual(
        expect.objectContaining({
          action: 'POST /api/v1/accounts/:personId/second-step/end',
          actorId: test.owner.id,
          target: { personId: lost.id },
          outcome: 'done',
        }),
      );
    });

    it('is sealed in the database: its secret cannot be read there', async () => {
      const sealed = await test.addPerson('dispatcher');
      const person = await signedIn(sealed.email);
      const { body } = await as(person, '/second-step', { password: PASSWORD }).expect(201);
      const kept = await test.app.get(FirmTransaction).run(FIRM_ID, 'read', async () => {
        const manager = await test.app.get(FirmTransaction).manager();
        const [row] = await manager.query<{ account: string }[]>(
          'SELECT to_jsonb(accounts)::text AS account FROM accounts WHERE id = $1',
          [sealed.id],
        );
        return row!.account;
      });
      expect(kept).toMatch(/"totp_secret": "[\w-]{60,}"/);
      expect(kept).not.toContain(body.secret);
    });
  });

  it('slows down guessing, for known and unknown e-mails alike, and not for ever', async () => {
    const { email } = await test.addPerson('technician');
    const attempts = async (whose: string) => {
      const statuses: number[] = [];
      for (let attempt = 0; attempt < 4; attempt++) {
        statuses.push((await signIn(test.browser(), whose, 'not the right one')).status);
      }
      return statuses;
    };
    expect(await attempts(email)).toEqual([401, 401, 401, 429]);
    expect(await attempts('unknown@firm.example')).toEqual([401, 401, 401, 429]);
    const refused = await signIn(test.browser(), email).expect(429);
    expect(refused.headers['retry-after']).toBe('2');
    test.clock.tick(15);
    await signIn(test.browser(), email).expect(200);
    expect(await attempts(email)).toEqual([401, 401, 401, 429]);
  });

  it('sends by the configured server, and then keeps no link', async () => {
    const received: string[] = [];
    const server = new SMTPServer({
      authOptional: true,
      disabledCommands: ['STARTTLS'],
      onData: (stream, _session, done) => {
        void text(stream).then((mail) => {
          received.push(mail);
          done();
        });
      },
    });
    const listening = server.listen(0, '127.0.0.1');
    await once(listening, 'listening');
    const { port } = listening.address() as AddressInfo;
    const mail = { smtpUrl: `smtp://127.0.0.1:${port}`, from: 'service@firm.example' };
    const mailing = await buildTestApp({ mail });
    try {
      const { email } = mailing.owner;
      const reset = () => mailing.browser().post('/api/v1/password-resets').send({ email });
      await reset().expect(202);
      await mailing.app.get(BackgroundService).settle();
      await mailing.app.get(JobService).settle();
      expect(received).toHaveLength(1);
      expect(received[0]).toMatch(/To: owner-1@firm\.example[\s\S]+\/password#/);
      await new Promise<void>((done) => server.close(() => done()));
      await reset().expect(202);
      await mailing.app.get(BackgroundService).settle();
      await mailing.app.get(JobService).settle();
      const http = mailing.browser();
      await signIn(http, email).expect(200);
      const { body } = await http.get('/api/v1/outbox').expect(200);
      expect(body.items).toEqual([
        expect.objectContaining({ sentAt: null, failure: expect.stringMatching(/ECONNREFUSED/) }),
        expect.objectContaining({ sentAt: '2026-03-02T08:00:00.000Z', text: null }),
      ]);
      const givenUp = async () => {
        const { body: now } = await http.get('/api/v1/outbox').expect(200);
        return now.items.map((mail: { isGivenUp: boolean }) => mail.isGivenUp);
      };
      expect(await givenUp()).toEqual([false, false]);
      await withClient(mailing.ownerUrl, (client) =>
        client.query(
          `UPDATE jobs.job SET retry_count = retry_limit, start_after = now() WHERE state = 'retry'`,
        ),
      );
      await mailing.app.get(JobService).settle();
      expect(await givenUp()).toEqual([true, false]);
    } finally {
      await mailing.close();
    }
  });

  it('gives a mail server up that does not answer, before another would try the same mail', async () => {
    const server = new SMTPServer({
      authOptional: true,
      disabledCommands: ['STARTTLS'],
      // Takes the mail, and never says so.
      onData: (stream) => stream.resume(),
    });
    const listening = server.listen(0, '127.0.0.1');
    await once(listening, 'listening');
    const { port } = listening.address() as AddressInfo;
    const smtpUrl = `smtp://127.0.0.1:${port}`;
    const patienceMs = 300;
    expect(DEFAULT_PATIENCE_MS).toBeLessThan(JOB_KINDS.mail.expireInSeconds * 1000);
    const mailing = await buildTestApp({ mail: { smtpUrl, from: 'a@firm.example', patienceMs } });
    try {
      const { email } = mailing.owner;
      await mailing.browser().post('/api/v1/password-resets').send({ email }).expect(202);
      await mailing.app.get(BackgroundService).settle();
      await mailing.app.get(JobService).settle();
      const http = mailing.browser();
      await signIn(http, email).expect(200);
      const { body } = await http.get('/api/v1/outbox').expect(200);
      const failure = 'The mail server gave no answer within 0.3 s.';
      expect(body.items).toEqual([expect.objectContaining({ sentAt: null, failure })]);
    } finally {
      await mailing.close();
      await new Promise<void>((done) => server.close(() => done()));
    }
  });

  it('has a command that adds a firm and its first owner', async () => {
    const email = 'tove@other.example';
    const run = (...args: string[]) =>
      spawnSync(process.execPath, ['dist/add-firm.js', ...args], {
        env: { DATABASE_URL: test.appUrl, MIGRATION_DATABASE_URL: test.ownerUrl },
        encoding: 'utf8',
      });
    expect(run().stderr).toContain('Usage');
    const { stdout, status } = run('Holm & Daughter', 'Tove Holm', email);
    expect([status, stdout]).toEqual([0, expect.stringContaining('Added Holm & Daughter as ')]);
    // The command runs by the real clock, which is ahead of the test's: the link is good for it.
    const link = /#([\w-]{43})/.exec(stdout)![1]!;
    await choose(link, NEW_PASSWORD).expect(200);
    const { body } = await signIn(test.browser(), email, NEW_PASSWORD).expect(200);
    expect(body.person.role).toBe('owner');
  });
});
