import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { FirmTransaction } from '#app/database/firm-transaction.js';
import { SitePassRepository } from '#app/passes/site-pass.repository.js';

import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

describe('a site’s pass', () => {
  let test: TestApp;
  let siteId: string;
  let otherSite: string;

  beforeAll(async () => {
    test = await buildTestApp();
    siteId = await drawSite(test, [row('A', 6)]);
    otherSite = await drawSite(test, [row('A', 6)]);
  });

  afterAll(() => test.close());

  async function issue(site = siteId) {
    const { body } = await test.http.post(`/api/v1/sites/${site}/passes`).expect(201);
    return { ...body, secret: body.link.split('#')[1] as string };
  }

  async function open(secret: string): Promise<{ http: Agent; csrf: string }> {
    const http = test.browser();
    const answer = await http.post('/api/v1/pass/session').send({ pass: secret }).expect(200);
    expect(answer.headers['set-cookie']![0]).toMatch(
      /^lastheard-pass=.+; Max-Age=43200; Path=\/; HttpOnly; SameSite=Strict$/,
    );
    return { http, csrf: answer.body.csrfToken };
  }

  const heard = (node: string, outcome: string) => ({
    trunk: 'A',
    node,
    function: 'announcement',
    outcome,
  });

  const report = { name: 'Mara Quill', how: 'gone-through' };

  it('is a link whose secret no server ever sees in an address, and a QR code of it', async () => {
    const pass = await issue();
    expect(pass.link).toMatch(/^http:\/\/localhost\/pass#[\w-]{22}$/);
    expect(Buffer.from(pass.secret, 'base64url')).toHaveLength(16);
    expect(pass.qrSvg).toMatch(/^<svg /);
    const { body } = await test.http.get(`/api/v1/sites/${siteId}/passes`).expect(200);
    expect(JSON.stringify(body)).not.toContain(pass.secret);
  });

  it('is listed with the hundred newest of its site, the one that works first', async () => {
    const site = await drawSite(test, [row('A', 2)]);
    await test.app.get(FirmTransaction).run(FIRM_ID, 'write', async () => {
      const passes = test.app.get(SitePassRepository);
      for (let number = 0; number < 250; number++) {
        const at = new Date(Date.UTC(2026, 0, 1, 0, number));
        const ended = { id: randomUUID(), siteId: site, createdAt: at, endedAt: at };
        await passes.insert({ ...ended, secretHash: randomUUID() });
      }
    });
    const { id } = await issue(site);
    const { body } = await test.http.get(`/api/v1/sites/${site}/passes`).expect(200);
    expect(body.items).toHaveLength(100);
    expect(body.items[0]).toMatchObject({ id, endedAt: null });
    expect(body.items[99].createdAt).toBe('2026-01-01T02:31:00.000Z');
  });

  it('shows its site, takes a report, and says what is worth looking at', async () => {
    const { http, csrf } = await open((await issue()).secret);
    const { body: site } = await http.get('/api/v1/pass/site').expect(200);
    expect(site).toMatchObject({ name: 'Larkfield Lower School', tickets: [], nextVisit: null });
    expect(site.rooms).toHaveLength(6);
    const body = { ...report, observations: [heard('A3', 'works'), heard('A4', 'fails')] };
    await http.post('/api/v1/pass/reports').send(body).expect(403);
    const answer = await http
      .post('/api/v1/pass/reports')
      .set('X-CSRF-Token', csrf)
      .send(body)
      .expect(201);
    const [ticket] = answer.body.tickets;
    expect(ticket.officeChecks.length).toBeGreaterThan(0);
    expect(ticket.officeChecks.length).toBeLessThanOrEqual(3);
    expect(ticket.officeChecks[0]).toMatchObject({
      words: 'look whether the lamp in Room 4 is lit',
      trunk: 'A',
      node: 'A4',
      function: 'lamp',
      question: null,
    });
    expect(Object.keys(ticket).sort()).toEqual(
      [
        'askFirst',
        'contradictions',
        'officeChecks',
        'id',
        'number',
        'openedAt',
        'saidToWork',
        'state',
        'stillToProve',
      ].sort(),
    );
    const path = `/api/v1/pass/tickets/${ticket.id}`;
    const given = { name: 'Mara Quill', question: 'head-end-on', answer: 'yes' };
    const answered = await http
      .post(`${path}/answers`)
      .set('X-CSRF-Token', csrf)
      .send(given)
      .expect(201);
    expect(answered.body.askFirst[0]).toMatchObject({ question: 'head-end-on', answer: 'yes' });
    await http
      .post(`${path}/reports`)
      .set('X-CSRF-Token', csrf)
      .send({ ...report, observations: [heard('A5', 'fails')] })
      .expect(201);
    const opposed = await http
      .post(`${path}/reports`)
      .set('X-CSRF-Token', csrf)
      .send({ ...report, name: 'Tem Sorrel', observations: [heard('A4', 'works')] })
      .expect(201);
    const { contradictions } = opposed.body;
    expect(contradictions).toEqual([
      {
        trunk: 'A',
        node: 'A4',
        room: 'Room 4',
        function: 'announcement',
        words: expect.stringContaining('one said it works, another said it does not'),
      },
    ]);
    expect(JSON.stringify(opposed.body)).not.toMatch(/Quill|Sorrel/);
    const { body: log } = await test.http.get(`/api/v1/tickets/${ticket.id}/log`).expect(200);
    expect(log.items.map(({ saidByKind }: { saidByKind: string }) => saidByKind)).toEqual([
      'office',
      'office',
      'office',
      'office',
    ]);
    const close = { saidBy: { name: 'I', kind: 'technician' }, to: 'closed', reason: 'A test' };
    await test.http.post(`/api/v1/tickets/${ticket.id}/moves`).send(close).expect(201);
    await http.get(path).expect(404);
  });

  it('opens no other site, and nothing but its own routes', async () => {
    const { http, csrf } = await open((await issue()).secret);
    const other = await open((await issue(otherSite)).secret);
    const { body } = await other.http
      .post('/api/v1/pass/reports')
      .set('X-CSRF-Token', other.csrf)
      .send({ ...report, observations: [heard('A2', 'fails')] })
      .expect(201);
    const path = `/api/v1/pass/tickets/${body.tickets[0].id}`;
    await http.get(path).expect(404);
    const answer = { name: 'X', question: 'head-end-on', answer: 'no' };
    await http.post(`${path}/answers`).set('X-CSRF-Token', csrf).send(answer).expect(404);
    for (const closed of ['/sites', '/tickets', '/people', `/sites/${siteId}`, '/session']) {
      await http.get(`/api/v1${closed}`).expect(401);
    }
  });

  it('says when somebody comes, and is signed with', async () => {
    const { http, csrf } = await open((await issue()).secret);
    const technician = await test.addPerson('technician');
    const plan = async (on: string) => {
      const visit = { siteId, kind: 'planned', on, purpose: 'Upkeep', upkeep: true };
      const sent = { ...visit, technicianId: technician.id };
      return (await test.http.post('/api/v1/visits').send(sent).expect(201)).body.id as string;
    };
    const done = await plan('2026-03-02');
    await plan('2026-03-09');
    const sign = (id: string) =>
      http
        .post(`/api/v1/pass/visits/${id}/signatures`)
        .set('X-CSRF-Token', csrf)
        .send({ name: 'Mara Quill', remark: 'Hall is loud again' });
    await sign(done).expect(409);
    const move = (body: object) => technician.http.post(`/api/v1/visits/${done}/moves`).send(body);
    await move({ to: 'under-way', by: 'Ilvo Marsh' }).expect(201);
    // Whoever comes next week is not who is there now.
    expect((await http.get('/api/v1/pass/site')).body.nextVisit).toMatchObject({
      on: '2026-03-02',
      isUnderWay: true,
    });
    const confirmed = ['not-all-heard'];
    await move({ to: 'done', by: 'Ilvo Marsh', workDone: 'Walked through', confirmed }).expect(201);
    const { body: site } = await http.get('/api/v1/pass/site').expect(200);
    expect(site.nextVisit).toEqual({
      on: '2026-03-09',
      fromTime: null,
      kind: 'planned',
      isUnderWay: false,
    });
    expect(site.toSign).toEqual([{ id: done, on: '2026-03-02', workDone: 'Walked through' }]);
    await sign(done).expect(201);
    expect((await http.get('/api/v1/pass/site')).body.toSign).toEqual([]);
    const { body } = await test.http.get(`/api/v1/visits/${done}/signatures`).expect(200);
    expect(body.items).toEqual([expect.objectContaining({ name: 'Mara Quill', visitVersion: 3 })]);
  });

  it('does not say for ever that somebody is there, where a visit was not ended', async () => {
    const { secret } = await issue();
    const technician = await test.addPerson('technician');
    const on = test.clock.now().toISOString().slice(0, 10);
    const visit = { siteId, kind: 'planned', on, purpose: 'Upkeep', upkeep: true };
    const { body: made } = await test.http
      .post('/api/v1/visits')
      .send({ ...visit, technicianId: technician.id })
      .expect(201);
    const begun = { to: 'under-way', by: 'Ilvo Marsh' };
    await technician.http.post(`/api/v1/visits/${made.id}/moves`).send(begun).expect(201);
    const isThere = async () => {
      const { http } = await open(secret);
      const { body: site } = await http.get('/api/v1/pass/site').expect(200);
      return site.nextVisit?.isUnderWay === true;
    };
    expect(await isThere()).toBe(true);
    // Over midnight they may still be.
    test.clock.tick(24 * 60);
    expect(await isThere()).toBe(true);
    test.clock.tick(24 * 60);
    expect(await isThere()).toBe(false);
  });

  it('says politely that it was ended or replaced, also to whoever is in it', async () => {
    const first = await issue();
    const { http } = await open(first.secret);
    const second = await issue();
    const ended = await test.browser().post('/api/v1/pass/session').send({ pass: first.secret });
    expect(ended.status).toBe(410);
    expect(ended.body.detail).toContain('newer poster');
    await http.get('/api/v1/pass/site').expect(410);
    await test.http.post(`/api/v1/passes/${second.id}/end`).expect(204);
    await test.browser().post('/api/v1/pass/session').send({ pass: second.secret }).expect(410);
    await test
      .browser()
      .post('/api/v1/pass/session')
      .send({ pass: 'A'.repeat(22) })
      .expect(401);
  });

  it('may be guessed at or asked only so often', async () => {
    const strict = await buildTestApp({ limits: { openPerMinute: 5, passPerMinute: 40 } });
    try {
      const site = await drawSite(strict, [row('A', 2)]);
      const { body } = await strict.http.post(`/api/v1/sites/${site}/passes`).expect(201);
      const http = strict.browser();
      const show = (pass: string) => http.post('/api/v1/pass/session').send({ pass });
      await show(body.link.split('#')[1]).expect(200);
      for (let guess = 0; guess < 4; guess++) await show('B'.repeat(22)).expect(401);
      const refused = await show('B'.repeat(22)).expect(429);
      expect(refused.headers['retry-after']).toBe('60');
      const statuses: number[] = [];
      for (let read = 0; read < 60; read++) {
        statuses.push((await http.get('/api/v1/pass/site')).status);
      }
      expect(statuses).toEqual([...Array<number>(40).fill(200), ...Array<number>(20).fill(429)]);
      strict.clock.tick(1);
      await http.get('/api/v1/pass/site').expect(200);
    } finally {
      await strict.close();
    }
  });
});
