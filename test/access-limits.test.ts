import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';

import { BackgroundService } from '#app/shared/background.service.js';
import { createAdapter, createApp } from '#app/create-app.js';

import { type Agent, buildTestApp, PASSWORD, SEAL_KEY, type TestApp } from './support/test-app.js';

const LIMITS = {
  openPerMinute: 30,
  wrongCredentialsPerMinute: 5,
  passPerMinute: 120,
  accountPerMinute: 50,
};

const count = (statuses: number[], status: number) =>
  statuses.filter((one) => one === status).length;

describe('limits', () => {
  let test: TestApp;

  beforeAll(async () => {
    const adapter = createAdapter({ trustProxy: 'loopback' });
    test = await buildTestApp({ limits: LIMITS, adapter });
  });

  afterAll(() => test.close());

  const signIn = (http: Agent, email: string, password: string, from: string) =>
    http.post('/api/v1/session').set('X-Forwarded-For', from).send({ email, password });

  /** Asks for a new password; answers with the secret of the link that is mailed. */
  async function mailedLink(email: string): Promise<string> {
    await test.browser().post('/api/v1/password-resets').send({ email }).expect(202);
    await test.app.get(BackgroundService).settle();
    const owner = test.browser();
    await signIn(owner, test.owner.email, PASSWORD, '203.0.113.4').expect(200);
    const { body } = await owner.get('/api/v1/outbox').expect(200);
    expect(body.items[0].recipient).toBe(email);
    return /\/password#([\w-]{43})/.exec(body.items[0].text)![1]!;
  }

  it('refuse each request beyond, to one token at two processes, and tell the limit', async () => {
    test.clock.tick(1);
    const { appUrl, clock } = test;
    const { http } = await test.addPerson('dispatcher');
    const settings = { appUrl, publicUrl: 'http://x', sealKey: SEAL_KEY, limits: LIMITS, clock };
    const second = await createApp(settings);
    await second.init();
    await second.getHttpAdapter().getInstance().ready();
    try {
      const request = http.get('/api/v1/sites');
      const authorization = (request as unknown as { header: Record<string, string> }).header[
        'Authorization'
      ]!;
      const ask = async (index: number) => {
        const app = index % 2 === 0 ? test.app : second;
        const url = '/api/v1/sites';
        return app.inject({ method: 'GET', url, headers: { authorization } });
      };
      const first = await ask(0);
      expect(first.headers['ratelimit-policy']).toBe('"account";q=50;w=60');
      expect(first.headers['ratelimit']).toBe('"account";r=49;t=60');
      const answers = await Promise.all(Array.from({ length: 300 }, (_, index) => ask(index)));
      const statuses = answers.map(({ statusCode }) => statusCode);
      expect(count(statuses, 200)).toBe(49);
      expect(count(statuses, 429)).toBe(251);
      const refused = await ask(1);
      expect(refused.statusCode).toBe(429);
      expect(refused.headers).toMatchObject({
        'content-type': expect.stringContaining('application/problem+json'),
        'retry-after': '60',
        'ratelimit-policy': '"account";q=50;w=60',
        ratelimit: '"account";r=0;t=60',
      });
      expect(refused.json()).toMatchObject({
        type: 'urn:lastheard:problem:too-many',
        retryAfterSeconds: 60,
        limit: 50,
        windowSeconds: 60,
      });
      test.clock.tick(1);
      expect((await ask(0)).statusCode).toBe(200);
    } finally {
      await second.close();
    }
  });

  it('count an IPv6 network as one address', async () => {
    test.clock.tick(1);
    const show = (from: string) =>
      test
        .browser()
        .get('/api/v1/sites')
        .set('X-Forwarded-For', from)
        .auth('A'.repeat(43), { type: 'bearer' });
    const statuses: number[] = [];
    for (let host = 1; host <= 20; host++) {
      statuses.push((await show(`2001:db8:7:1:${host}::${host}`)).status);
    }
    expect(statuses).toEqual([...Array<number>(5).fill(401), ...Array<number>(15).fill(429)]);
    await show('2001:db8:7:2::1').expect(401);
  });

  it('count wrong passwords that are tried at once', async () => {
    test.clock.tick(1);
    const { email } = await test.addPerson('technician');
    const tries = Array.from({ length: 60 }, async (_, index) => {
      const { status } = await signIn(test.browser(), email, `wrong ${index}`, '192.0.2.7');
      return status;
    });
    const statuses = await Promise.all(tries);
    expect(count(statuses, 401)).toBe(3);
    expect(count(statuses, 429)).toBe(57);
  });

  describe('of somebody who sits at another’s session', () => {
    let email: string;
    let csrf: string;
    let thief: Agent;
    let owner: Agent;

    beforeEach(async () => {
      test.clock.tick(60);
      ({ email } = await test.addPerson('owner'));
      owner = test.browser();
      thief = test.browser();
      await signIn(owner, email, PASSWORD, '203.0.113.30').expect(200);
      csrf = (await signIn(thief, email, PASSWORD, '203.0.113.31').expect(200)).body.csrfToken;
      test.clock.tick(1);
    });

    const ask = (method: 'put' | 'post', path: string, body: object) =>
      thief[method](`/api/v1${path}`).set('X-CSRF-Token', csrf).send(body);
    const change = (currentPassword: string, newPassword = 'a wren in the gutter pipe') =>
      ask('put', '/password', { currentPassword, newPassword });
    const guessBeginning = (password: string) => ask('post', '/second-step', { password });
    const guessEnding = (password: string) =>
      ask('post', '/second-step/end', { password, code: '000000' });

    it('count wrong guesses of the password that are made at once, wherever they are', async () => {
      const guesses = Array.from({ length: 36 }, (_, index) =>
        [change, guessBeginning, guessEnding][index % 3]!(`wrong ${index}`),
      );
      const answers = await Promise.all(guesses);
      const statuses = answers.map(({ status }) => status);
      expect(count(statuses, 422)).toBe(3);
      expect(count(statuses, 429)).toBe(33);
      for (const { headers, body } of answers.filter(({ status }) => status === 429)) {
        expect(headers['retry-after']).toBe(String(body.retryAfterSeconds));
        expect(body.type).toBe('urn:lastheard:problem:too-many');
      }
      await change(PASSWORD).expect(429);
    });

    it('make who goes on wait ever longer, and keep nobody from signing in', async () => {
      const got: number[] = [];
      for (let second = 0; second < 600; second += 2) {
        test.clock.tick(1 / 30);
        got.push((await change(`wrong ${second}`)).status);
      }
      // Three, and then after 2, 4, 8, … 256 s.
      expect(count(got, 422)).toBe(3 + 8);
      expect(count(got, 429)).toBe(got.length - 11);
      await signIn(test.browser(), email, PASSWORD, '203.0.113.32').expect(200);
    });

    it('begin anew with the right one, also where the new one will not do', async () => {
      for (let time = 0; time < 4; time++) {
        for (let guess = 0; guess < 2; guess++) await change('wrong').expect(422);
        await change(PASSWORD, 'short').expect(422);
      }
      await change(PASSWORD).expect(200);
    });

    it('change it once of twice at once', async () => {
      const chosen = ['a wren in the gutter pipe', 'two herons at low tide'];
      const answers = await Promise.all(chosen.map((one) => change(PASSWORD, one)));
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 422]);
      const kept = chosen[answers.findIndex(({ status }) => status === 200)]!;
      await change(kept, PASSWORD).expect(200);
    });

    it('take a conflict for no guess', async () => {
      for (let time = 0; time < 12; time++) await guessEnding(PASSWORD).expect(409);
      await change(PASSWORD).expect(200);
    });
  });

  describe('under a siege from many addresses', () => {
    let email: string;
    let known: Agent;

    const besiege = async (whose: string, from: number, to: number) => {
      for (let host = from; host < to; host++) {
        await signIn(test.browser(), whose, 'not the right one', `198.51.100.${host}`);
      }
    };

    beforeAll(async () => {
      test.clock.tick(60);
      ({ email } = await test.addPerson('owner'));
      known = test.browser();
      const answer = await signIn(known, email, PASSWORD, '203.0.113.5').expect(200);
      expect(answer.headers['set-cookie']).toContainEqual(
        expect.stringMatching(
          /^lastheard-device-[0-9a-f]{16}=[\w-]{22}\.[\w-]{43}; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Strict$/,
        ),
      );
      test.clock.tick(60);
      await besiege(email, 1, 100);
    });

    it('let in who has signed in from this device before, and nobody else', async () => {
      await signIn(test.browser(), email, PASSWORD, '203.0.113.6').expect(429);
      for (let time = 0; time < 5; time++) {
        await signIn(known, email, PASSWORD, '203.0.113.5').expect(200);
        await besiege(email, 100, 130);
      }
    });

    it('let them in also where the siege comes from their own address', async () => {
      for (let time = 0; time < 40; time++) {
        await signIn(test.browser(), `somebody-${time}@x.example`, 'wrong', '203.0.113.5');
      }
      await signIn(test.browser(), 'somebody@x.example', 'wrong', '203.0.113.5').expect(429);
      await signIn(known, email, PASSWORD, '203.0.113.5').expect(200);
    });

    it('let in whoever chose a password by a mailed link, from the device where they did', async () => {
      const besieged = await test.addPerson('owner');
      test.clock.tick(60);
      await besiege(besieged.email, 1, 100);
      const elsewhere = test.browser();
      await signIn(elsewhere, besieged.email, PASSWORD, '203.0.113.20').expect(429);
      const link = await mailedLink(besieged.email);
      const chosen = { link, password: 'an otter under the jetty' };
      await elsewhere.post('/api/v1/password-from-link').send(chosen).expect(200);
      await besiege(besieged.email, 100, 130);
      await signIn(elsewhere, besieged.email, chosen.password, '203.0.113.20').expect(200);
      await signIn(test.browser(), besieged.email, chosen.password, '203.0.113.21').expect(429);
    });

    it('let in whoever had forgotten it and tried too often, once they have chosen another', async () => {
      test.clock.tick(60);
      const forgetful = await test.addPerson('technician');
      const device = test.browser();
      await signIn(device, forgetful.email, PASSWORD, '203.0.113.22').expect(200);
      const tries = Array.from({ length: 4 }, () =>
        signIn(device, forgetful.email, 'wrong', '203.0.113.22'),
      );
      expect((await Promise.all(tries)).map(({ status }) => status).sort()).toEqual([
        401, 401, 401, 429,
      ]);
      const chosen = {
        link: await mailedLink(forgetful.email),
        password: 'two herons at low tide',
      };
      await device.post('/api/v1/password-from-link').send(chosen).expect(200);
      await signIn(device, forgetful.email, chosen.password, '203.0.113.22').expect(200);
    });

    it('keep the device’s own lane narrow', async () => {
      test.clock.tick(60);
      const statuses: number[] = [];
      for (let time = 0; time < 12; time++) {
        statuses.push((await signIn(known, email, 'wrong', `203.0.113.${100 + time}`)).status);
      }
      expect(statuses).toEqual([401, 401, 401, ...Array<number>(9).fill(429)]);
    });

    it('give no lane to a device of somebody else, nor to one that was made up', async () => {
      const other = await test.addPerson('technician');
      const theirs = test.browser();
      test.clock.tick(60);
      const { headers } = await signIn(theirs, other.email, PASSWORD, '203.0.113.8').expect(200);
      await besiege(email, 130, 230);
      await signIn(theirs, email, PASSWORD, '203.0.113.8').expect(429);
      const [name] = (await signIn(known, email, PASSWORD, '203.0.113.9').expect(200)).headers[
        'set-cookie'
      ]!.toString().match(/lastheard-device-[0-9a-f]{16}/)!;
      await besiege(email, 130, 230);
      const value = /lastheard-device-[0-9a-f]{16}=([\w.-]+)/.exec(
        headers['set-cookie']!.toString(),
      )!;
      for (const made of [value[1]!, `${'A'.repeat(22)}.${'B'.repeat(43)}`, 'nonsense']) {
        await signIn(test.browser(), email, PASSWORD, '203.0.113.10')
          .set('Cookie', `${name}=${made}`)
          .expect(429);
      }
    });
  });

  it('note what was refused once a minute for each who asks', async () => {
    const technician = await test.addPerson('technician');
    const colleague = await test.addPerson('technician');
    test.clock.tick(1);
    const refusals = async (actor: string) => {
      const { http } = await test.addPerson('owner');
      const { body } = await http.get(`/api/v1/audit?limit=200&outcome=refused&actor=${actor}`);
      return body.items.length as number;
    };
    const ask = () => technician.http.post('/api/v1/clients').send({ name: 'x' });
    const tries = Array.from({ length: 45 }, async () => (await ask()).status);
    expect(new Set(await Promise.all(tries))).toEqual(new Set([403]));
    await colleague.http.post('/api/v1/clients').send({ name: 'x' }).expect(403);
    expect(await refusals(technician.id)).toBe(1);
    expect(await refusals(colleague.id)).toBe(1);
    test.clock.tick(1);
    await ask().expect(403);
    expect(await refusals(technician.id)).toBe(2);
  });
});
