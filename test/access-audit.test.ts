import { once } from 'node:events';
import { type AddressInfo, connect } from 'node:net';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { TABLED_ROUTES } from '#app/access/route-roles.js';
import { SetUpService } from '#app/access/set-up.service.js';
import { BackgroundService } from '#app/shared/background.service.js';
import { withClient } from '#app/database/built-in-roles.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';
import { JobService } from '#app/jobs/job.service.js';
import { RetentionService } from '#app/jobs/retention.service.js';

import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

describe('the record', () => {
  let test: TestApp;
  let owner: { http: Agent; csrf: string };

  beforeAll(async () => {
    test = await buildTestApp();
    const http = test.browser();
    const body = { email: test.owner.email, password: PASSWORD };
    const answer = await http.post('/api/v1/session').send(body).expect(200);
    owner = { http, csrf: answer.body.csrfToken };
  });

  afterAll(() => test.close());

  async function entries(query = ''): Promise<Record<string, string>[]> {
    await test.app.get(BackgroundService).settle();
    const { body } = await test.http.get(`/api/v1/audit?limit=200${query}`).expect(200);
    return body.items;
  }

  it('says who did what to what, when, from where, in which request', async () => {
    const created = await test.http.post('/api/v1/clients').send({ name: 'Some' }).expect(201);
    const { id } = created.body;
    const requestId = created.headers['x-request-id'];
    expect(requestId).toMatch(/^[0-9a-f-]{36}$/);
    expect(await entries(`&target=${id}`)).toEqual([
      {
        id: expect.any(String),
        happenedAt: '2026-03-02T08:00:00.000Z',
        actorKind: 'token',
        actorId: test.owner.id,
        role: 'owner',
        action: 'POST /api/v1/clients',
        target: { id },
        outcome: 'done',
        address: '127.0.0.1',
        requestId,
      },
    ]);
  });

  it('knows from where, and keeps what was sent, when the connection is gone before the answer', async () => {
    await test.app.listen(0, '127.0.0.1');
    const { port } = test.app.getHttpServer().address() as AddressInfo;
    const token = await test.app.get(SetUpService).createToken(FIRM_ID, test.owner.id, 'Phone');
    const body = JSON.stringify({ name: 'Sent from a basement' });
    const head = [
      'POST /api/v1/clients HTTP/1.1',
      'Host: 127.0.0.1',
      `Authorization: Bearer ${token}`,
      'Content-Type: application/json',
      `Content-Length: ${body.length}`,
    ];
    const phone = connect(port, '127.0.0.1');
    phone.end(`${head.join('\r\n')}\r\n\r\n${body}`);
    await once(phone, 'close');
    // Nobody is told when the work is done; each look takes some milliseconds, so this ends.
    let kept: { id: string; name: string }[] = [];
    for (let look = 0; look < 200 && kept.length === 0; look++) {
      const { body: page } = await test.http.get('/api/v1/clients?limit=200').expect(200);
      kept = page.items.filter(({ name }: { name: string }) => name === 'Sent from a basement');
    }
    expect(kept).toHaveLength(1);
    expect(await entries(`&target=${kept[0]!.id}`)).toMatchObject([{ address: '127.0.0.1' }]);
  });

  it('has no entry of what failed or only read, and one of what was refused', async () => {
    const { http, id } = await test.addPerson('technician');
    await http.get('/api/v1/sites').expect(200);
    await http.post('/api/v1/tickets/nonsense/notes').send({}).expect(422);
    await http.post('/api/v1/clients').send({ name: 'X' }).expect(403);
    const found = await entries(`&actor=${id}`);
    expect(found.map(({ action, outcome }) => [action, outcome])).toEqual([
      ['POST /api/v1/clients', 'refused'],
    ]);
  });

  it('has words on the page of the firm for every route that does something, and for nothing else', async () => {
    const built = (file: string) => import(new URL(`web/desk/${file}`, import.meta.url).href);
    const { EN_AUDIT } = await built('words/en/audit.js');
    const { actInWords } = await built('firm/act-in-words.js');
    expect(TABLED_ROUTES.length).toBeGreaterThan(150);
    const told = TABLED_ROUTES.map((route) => [route, actInWords(route, EN_AUDIT)]);
    expect(told.filter(([, words]) => words === EN_AUDIT.other || /[/:]/.test(words))).toEqual([]);
    const known = TABLED_ROUTES.map((route) => route.replace(' /api/v1', ' '));
    expect(Object.keys(EN_AUDIT.acts).filter((act) => !known.includes(act))).toEqual([]);
    // Of a route that is no more the record has the old name.
    expect(actInWords('POST /api/v1/tickets/:ticketId/gone', EN_AUDIT)).toBe(EN_AUDIT.other);
  });

  it('has one entry of what was sent twice', async () => {
    const id = '01900000-0000-7000-8000-00000000c001';
    for (let time = 0; time < 2; time++) {
      await test.http.post('/api/v1/clients').send({ id, name: 'Twice' }).expect(201);
    }
    expect(await entries(`&target=${id}`)).toHaveLength(1);
  });

  it('has the attempts to sign in, by person, and what a pass did, by pass', async () => {
    const { email, id } = await test.addPerson('dispatcher');
    const signIn = (password: string) =>
      test.browser().post('/api/v1/session').send({ email, password });
    await signIn('not the right one').expect(401);
    await signIn(PASSWORD).expect(200);
    const found = await entries(`&actor=${id}`);
    expect(found.map(({ outcome }) => outcome).sort()).toEqual(['done', 'refused']);

    const siteId = await drawSite(test, [row('A', 2)]);
    const { body: pass } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const http = test.browser();
    const opened = await http
      .post('/api/v1/pass/session')
      .send({ pass: pass.link.split('#')[1] })
      .expect(200);
    await http
      .post('/api/v1/pass/reports')
      .set('X-CSRF-Token', opened.body.csrfToken)
      .send({
        name: 'Mara Quill',
        how: 'volunteered',
        observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    expect(await entries(`&actor=${pass.id}`)).toEqual([
      expect.objectContaining({ actorKind: 'pass', action: 'POST /api/v1/pass/reports' }),
    ]);
  });

  it('is filtered and exported', async () => {
    test.clock.tick(10);
    await test.http.post('/api/v1/clients').send({ name: 'Later' }).expect(201);
    expect(await entries('&from=2026-03-02T08:05:00Z')).toHaveLength(1);
    expect(await entries('&until=2026-03-02T07:00:00Z')).toHaveLength(0);
    const action = encodeURIComponent('POST /api/v1/clients');
    const done = await entries(`&action=${action}&outcome=done`);
    expect(done.every((entry) => entry.action === 'POST /api/v1/clients')).toBe(true);
    const { body: first } = await test.http.get('/api/v1/audit?limit=1');
    const { body: second } = await test.http.get(`/api/v1/audit?limit=1&after=${first.next}`);
    expect(second.items[0].id).not.toBe(first.items[0].id);
    const { text } = await test.http
      .get(`/api/v1/audit/sheet?action=${action}`)
      .expect(200)
      .expect('content-type', /text\/csv/);
    const lines = text.trim().split('\n');
    expect(lines[0]).toBe(
      'happenedAt,actorKind,actorId,role,action,target,outcome,address,requestId',
    );
    expect(lines.length).toBeGreaterThan(3);
  });

  it('is sent as it is read, more than is read at once', async () => {
    const more = 4500;
    await withClient(test.ownerUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      await client.query(
        `INSERT INTO record_entries
           (id, happened_at, actor_kind, action, target, outcome, address, request_id)
         SELECT gen_random_uuid(), $1, 'token', 'PUT /many', '{"id": "=many"}', 'done', '::1', n
         FROM generate_series(1, $2) AS n`,
        [test.clock.now(), more],
      );
    });
    const { text } = await test.http.get('/api/v1/audit/sheet?target=%3Dmany').expect(200);
    const rows = text.trim().split('\n').slice(1);
    expect(rows).toHaveLength(more);
    expect(new Set(rows.map((line) => line.split(',').at(-1))).size).toBe(more);
  });

  it('cannot be changed or deleted, neither by the app’s role nor by the owner of the tables', async () => {
    const statements = [
      `UPDATE record_entries SET address = 'x'`,
      'DELETE FROM record_entries',
      'TRUNCATE record_entries',
      `UPDATE record_targets SET target = 'x'`,
      'DELETE FROM record_targets',
      'TRUNCATE record_targets',
    ];
    for (const [url, reason] of [
      [test.appUrl, /permission denied/],
      [test.ownerUrl, /only grows/],
    ] as const) {
      await withClient(url, async (client) => {
        await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
        for (const sql of statements) await expect(client.query(sql)).rejects.toThrow(reason);
      });
    }
    expect((await entries()).length).toBeGreaterThan(5);
  });

  it('outlives the person: who they were goes, what they did stays', async () => {
    const siteId = await drawSite(test, [row('A', 3)]);
    const name = 'Ilvo Marsh';
    const person = await test.addPerson('technician', { name });
    const visit = { siteId, kind: 'planned', on: '2026-03-02', purpose: 'Look', upkeep: true };
    const { body: sent } = await test.http
      .post('/api/v1/visits')
      .send({ ...visit, technicianId: person.id })
      .expect(201);
    const works = { trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' };
    await person.http
      .post(`/api/v1/visits/${sent.id}/moves`)
      .send({ to: 'under-way', by: name })
      .expect(201);
    await person.http
      .post(`/api/v1/visits/${sent.id}/walk-tests`)
      .send({ testedBy: name, observations: [works] })
      .expect(201);
    const reported = await person.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        id: '01900000-0000-7000-8000-00000000c002',
        saidBy: { name, kind: 'technician' },
        how: 'volunteered',
        observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    const before = await entries(`&actor=${person.id}`);
    const path = `/api/v1/accounts/${person.id}/anonymise`;
    await person.http.post(path).expect(403);
    await owner.http.post(path).set('X-CSRF-Token', owner.csrf).expect(204);

    await person.http.get('/api/v1/sites').expect(401);
    const { email } = person;
    await test.browser().post('/api/v1/session').send({ email, password: PASSWORD }).expect(401);
    const former = `Former person ${person.id.slice(-8)}`;
    const { body: read } = await test.http.get(`/api/v1/people/${person.id}`).expect(200);
    expect(read).toMatchObject({ name: former, phone: null });
    const ticket = `/api/v1/tickets/${reported.body.tickets[0].id}`;
    expect((await test.http.get(ticket)).body.openedBy).toBe(former);
    const { body: log } = await test.http.get(`${ticket}/log`);
    expect(log.items.map(({ saidBy }: { saidBy: string }) => saidBy)).toEqual([former]);
    const { body: heard } = await test.http.get(`${ticket}/observations`);
    expect(heard.items[0]).toMatchObject({ saidBy: former, outcome: 'fails' });
    expect(await entries(`&actor=${person.id}`)).toEqual(
      expect.arrayContaining(before.map((entry) => expect.objectContaining({ id: entry.id }))),
    );
    await withClient(test.appUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const { rows } = await client.query<{ relname: string }>(
        `SELECT relname FROM pg_class WHERE relkind = 'r' AND relname <> 'migrations'
           AND relnamespace = 'public'::regnamespace`,
      );
      for (const { relname } of rows) {
        const sql = `SELECT count(*)::int AS n FROM ${relname} AS t
          WHERE position($1 IN t::text) > 0 OR position($2 IN t::text) > 0`;
        const answer = await client.query<{ n: number }>(sql, [name, email]);
        expect([relname, answer.rows[0]!.n]).toEqual([relname, 0]);
      }
    });
    // Once more, as after a lost answer: there is nothing left to forget.
    await owner.http.post(path).set('X-CSRF-Token', owner.csrf).expect(204);
    expect((await test.http.get(ticket)).body.openedBy).toBe(former);
  });

  it('forgets who was refused to read what, 90 days later, and nothing else', async () => {
    const technician = await test.addPerson('technician');
    await technician.http.get('/api/v1/audit').expect(403);
    test.clock.tick(2);
    await technician.http.post('/api/v1/clients').send({ name: 'None' }).expect(403);
    const refusals = async () =>
      (await entries(`&actor=${technician.id}&outcome=refused`)).map(({ action }) => action);
    const both = ['POST /api/v1/clients', 'GET /api/v1/audit'];
    const sweep = async () => {
      // The next day's is there already, by the database's clock.
      await withClient(test.ownerUrl, (client) => {
        return client.query(`DELETE FROM jobs.job WHERE name = 'retention'`);
      });
      await test.app.get(FirmTransaction).run(FIRM_ID, 'write', () => {
        return test.app.get(RetentionService).begin();
      });
      await test.app.get(JobService).settle();
    };
    test.clock.tick(89 * 24 * 60);
    await sweep();
    expect(await refusals()).toEqual(both);
    test.clock.tick(2 * 24 * 60);
    await sweep();
    expect(await refusals()).toEqual(both.slice(0, 1));
  });
});
