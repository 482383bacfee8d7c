import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { type Agent, buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

const OTHER_FIRM = '01900000-0000-7000-8000-0000000000f2';
const HOUR = 60;

describe('signing in', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp();
  });

  afterAll(() => test.close());

  async function signIn(email: string, http: Agent = test.browser(), password = PASSWORD) {
    const answer = await http.post('/api/v1/session').send({ email, password }).expect(200);
    const cookie = /^lastheard=[\w-]+/.exec(answer.headers['set-cookie']![0]!)![0];
    return { http, csrf: answer.body.csrfToken as string, cookie };
  }

  it('gives a session that scripts and other sites cannot use', async () => {
    const { email, id } = await test.addPerson('dispatcher');
    const http = test.browser();
    const answer = await http
      .post('/api/v1/session')
      .send({ email: email.toUpperCase(), password: PASSWORD })
      .expect(200);
    expect(answer.headers['set-cookie']).toEqual([
      expect.stringMatching(
        /^lastheard=[\w-]{43}; Max-Age=1209600; Path=\/; HttpOnly; SameSite=Strict$/,
      ),
      expect.stringMatching(/^lastheard-device-[0-9a-f]{16}=.+; HttpOnly; SameSite=Strict$/),
    ]);
    expect(answer.body).toEqual({
      firmId: FIRM_ID,
      person: { id, name: 'Some dispatcher', role: 'dispatcher', clientId: null, language: null },
      csrfToken: expect.stringMatching(/^[\w-]{43}$/),
      endsAt: '2026-03-16T08:00:00.000Z',
    });
    await http.get('/api/v1/sites').expect(200);
    expect((await http.get('/api/v1/session').expect(200)).body).toEqual(answer.body);
  });

  it('keeps by person in which language pages are shown', async () => {
    const credentials = { password: PASSWORD };
    const [one, other] = [await test.addPerson('dispatcher'), await test.addPerson('technician')];
    const http = test.browser();
    const { body } = await http
      .post('/api/v1/session')
      .send({ ...credentials, email: one.email })
      .expect(200);
    const choose = (language: string) =>
      http.put('/api/v1/session/language').set('X-CSRF-Token', body.csrfToken).send({ language });
    const refused = await choose('tlh').expect(422);
    expect(refused.body.errors[0].field).toBe('/language');
    await choose('hi').expect(204);
    const signIn = async (email: string) =>
      (
        await test
          .browser()
          .post('/api/v1/session')
          .send({ ...credentials, email })
          .expect(200)
      ).body.person.language;
    expect(await signIn(one.email)).toBe('hi');
    expect(await signIn(other.email)).toBeNull();
  });

  it('marks the cookie Secure behind TLS', async () => {
    const secure = await buildTestApp({ publicUrl: 'https://lastheard.example' });
    try {
      const { email } = secure.owner;
      const answer = await secure
        .browser()
        .post('/api/v1/session')
        .send({ email, password: PASSWORD })
        .expect(200);
      expect(answer.headers['set-cookie']).toEqual([
        expect.stringMatching(/^__Host-lastheard=.+; HttpOnly; Secure; SameSite=Strict$/),
        expect.stringMatching(/^__Host-lastheard-device-.+; HttpOnly; Secure; SameSite=Strict$/),
      ]);
    } finally {
      await secure.close();
    }
  });

  it('says the same of a wrong password, an unknown e-mail and an ended account', async () => {
    const { email, id } = await test.addPerson('technician');
    const tryWith = async (body: object) => {
      const answer = await test.browser().post('/api/v1/session').send(body).expect(401);
      expect(answer.headers['set-cookie']).toBeUndefined();
      return answer.body as unknown;
    };
    const wrong = await tryWith({ email, password: 'not the right one' });
    expect(await tryWith({ email: 'nobody@firm.example', password: PASSWORD })).toEqual(wrong);
    const owner = await signIn(test.owner.email);
    await owner.http.post(`/api/v1/accounts/${id}/end`).set('X-CSRF-Token', owner.csrf).expect(204);
    expect(await tryWith({ email, password: PASSWORD })).toEqual(wrong);
  });

  it('asks for the token that only the page knows before anything is changed', async () => {
    const { http, csrf } = await signIn(test.owner.email);
    const client = { name: 'Orrin Vale schools' };
    await http.post('/api/v1/clients').send(client).expect(403);
    const other = await signIn(test.owner.email);
    await http.post('/api/v1/clients').set('X-CSRF-Token', other.csrf).send(client).expect(403);
    await http.post('/api/v1/clients').set('X-CSRF-Token', csrf).send(client).expect(201);
    await http
      .post('/api/v1/clients')
      .set({ 'X-CSRF-Token': csrf, 'Sec-Fetch-Site': 'cross-site' })
      .send(client)
      .expect(403);
  });

  it('ends a session at sign-out, when unused, and at its absolute end', async () => {
    const { http, csrf, cookie } = await signIn(test.owner.email);
    await http.delete('/api/v1/session').set('X-CSRF-Token', csrf).expect(204);
    await test.browser().get('/api/v1/session').set('Cookie', cookie).expect(401);

    const idle = await signIn(test.owner.email);
    test.clock.tick(11 * HOUR);
    await idle.http.get('/api/v1/session').expect(200);
    test.clock.tick(11 * HOUR);
    await idle.http.get('/api/v1/session').expect(200);
    test.clock.tick(12 * HOUR);
    await idle.http.get('/api/v1/session').expect(401);

    const busy = await signIn(test.owner.email);
    for (let hours = 0; hours < 14 * 24; hours += 11) {
      await busy.http.get('/api/v1/session').expect(200);
      test.clock.tick(11 * HOUR);
    }
    await busy.http.get('/api/v1/session').expect(401);
  });

  it('ends the session that somebody brings along when signing in anew', async () => {
    const http = test.browser();
    const { cookie } = await signIn(test.owner.email, http);
    await signIn(test.owner.email, http);
    await test.browser().get('/api/v1/session').set('Cookie', cookie).expect(401);
  });

  it('lists my sessions and ends one, or all others', async () => {
    const { email } = await test.addPerson('dispatcher');
    const one = await signIn(email);
    const two = await signIn(email);
    const three = await signIn(email);
    const sessions = async () => (await one.http.get('/api/v1/sessions').expect(200)).body.items;
    expect(await sessions()).toHaveLength(3);
    const others = (await sessions()).filter(({ current }: { current: boolean }) => !current);
    const end = (path: string) => one.http.delete(path).set('X-CSRF-Token', one.csrf);
    await end(`/api/v1/sessions/${others[0].id}`).expect(204);
    await end(`/api/v1/sessions/${others[0].id}`).expect(404);
    await end('/api/v1/sessions').expect(204);
    expect(await sessions()).toEqual([expect.objectContaining({ current: true })]);
    await two.http.get('/api/v1/session').expect(401);
    await three.http.get('/api/v1/session').expect(401);
    const foreign = await signIn(test.owner.email);
    const { body } = await foreign.http.get('/api/v1/sessions');
    await end(`/api/v1/sessions/${body.items[0].id}`).expect(404);
  });

  it('changes a password, refuses a bad one, and ends the other sessions', async () => {
    const { email } = await test.addPerson('technician');
    const one = await signIn(email);
    const two = await signIn(email);
    const change = (currentPassword: string, newPassword: string) =>
      one.http
        .put('/api/v1/password')
        .set('X-CSRF-Token', one.csrf)
        .send({ currentPassword, newPassword });
    await change('wrong', 'an otter under the jetty').expect(422);
    for (const bad of ['short one', 'password12345', 'SomeTechnician']) {
      const { body } = await change(PASSWORD, bad).expect(422);
      expect(body.errors[0].field).toBe('/newPassword');
    }
    await change(PASSWORD, 'an otter under the jetty').expect(200);
    await one.http.get('/api/v1/session').expect(200);
    await two.http.get('/api/v1/session').expect(401);
    await signIn(email, test.browser(), 'an otter under the jetty');
  });

  it('lets one e-mail sign in to several firms, each apart', async () => {
    await test.addFirm(OTHER_FIRM);
    const { SetUpService } = await import('#app/access/set-up.service.js');
    const setUp = test.app.get(SetUpService);
    const account = { name: 'Runa Feld', email: 'runa@both.example', password: PASSWORD };
    await setUp.addAccount(FIRM_ID, { ...account, role: 'dispatcher' });
    await setUp.addAccount(OTHER_FIRM, { ...account, role: 'owner' });
    const http = test.browser();
    const { email } = account;
    const { body } = await http
      .post('/api/v1/session')
      .send({ email, password: PASSWORD })
      .expect(409);
    expect(body.firmIds.sort()).toEqual([FIRM_ID, OTHER_FIRM]);
    await http.post('/api/v1/session').send({ email, password: 'not the right one' }).expect(401);
    const chosen = await http
      .post('/api/v1/session')
      .send({ email, password: PASSWORD, firmId: OTHER_FIRM })
      .expect(200);
    expect(chosen.body.person.role).toBe('owner');
  });

  it('makes tokens that are shown once, limited by scopes, and revocable', async () => {
    const { http, csrf } = await signIn(test.owner.email);
    const make = (body: object) => http.post('/api/v1/tokens').set('X-CSRF-Token', csrf).send(body);
    await make({ name: 'Nothing', scopes: [] }).expect(422);
    await make({ name: 'Unknown', scopes: ['moon:read'] }).expect(422);
    const made = await make({ name: 'Export', scopes: ['sites:read'] }).expect(201);
    const bearer = `Bearer ${made.body.token}`;
    const as = (method: 'get' | 'post', path: string) =>
      test.browser()[method](path).set('Authorization', bearer);
    await as('get', '/api/v1/sites').expect(200);
    await as('post', '/api/v1/sites').send({}).expect(403);
    await as('get', '/api/v1/tickets').expect(403);
    await as('get', '/api/v1/tokens').expect(403);
    const { body: list } = await http.get('/api/v1/tokens').expect(200);
    const listed = list.items.find(({ id }: { id: string }) => id === made.body.id);
    expect(listed).toMatchObject({ name: 'Export', scopes: ['sites:read'] });
    expect(listed.lastUsedAt).not.toBeNull();
    expect(JSON.stringify(list)).not.toContain(made.body.token);
    await http.delete(`/api/v1/tokens/${made.body.id}`).set('X-CSRF-Token', csrf).expect(204);
    await as('get', '/api/v1/sites').expect(401);
  });

  it('ends a token at its end', async () => {
    const { http, csrf } = await signIn(test.owner.email);
    const endsAt = new Date(test.clock.now().getTime() + 60 * 60_000);
    const body = { name: 'For an hour', scopes: ['sites:read'], endsAt };
    const made = await http.post('/api/v1/tokens').set('X-CSRF-Token', csrf).send(body).expect(201);
    const bearer = `Bearer ${made.body.token}`;
    await test.browser().get('/api/v1/sites').set('Authorization', bearer).expect(200);
    test.clock.tick(60);
    await test.browser().get('/api/v1/sites').set('Authorization', bearer).expect(401);
  });

  it('answers nobody without a credential, or with a wrong one', async () => {
    for (const authorization of ['Bearer nonsense', `Bearer ${'A'.repeat(43)}`, 'Basic eDp5']) {
      const { body } = await test
        .browser()
        .get('/api/v1/sites')
        .set('Authorization', authorization)
        .expect(401);
      expect(body.type).toBe('urn:lastheard:problem:unauthenticated');
    }
    await test.browser().get('/api/v1/sites').set('Cookie', 'lastheard=;x').expect(401);
    await test.browser().post('/api/v1/locate').send({}).expect(401);
    await test.browser().get('/health/ready').expect(200);
    await test.browser().get('/api/openapi.json').expect(200);
  });

  it('keeps the last owner who can sign in', async () => {
    const alone = '01900000-0000-7000-8000-0000000000f3';
    await test.addFirm(alone);
    const owner = await test.addPerson('owner', { firmId: alone });
    const { http, csrf } = await signIn(owner.email);
    await http.post(`/api/v1/accounts/${owner.id}/end`).set('X-CSRF-Token', csrf).expect(409);
    const demote = () =>
      http
        .patch(`/api/v1/people/${owner.id}`)
        .set({ 'If-Match': '"1"', 'X-CSRF-Token': csrf })
        .send({ work: 'technician' });
    await demote().expect(409);
    await test.addPerson('owner', { firmId: alone });
    await demote().expect(200);
    await owner.http.get('/api/v1/people').expect(403);
  });
});
