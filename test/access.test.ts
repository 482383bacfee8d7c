import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { Client } from 'pg';
import { JobService } from '#app/jobs/job.service.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';

import { type Agent, buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const ID = '01900000-0000-7000-8000-00000000a001';
const BODY = { id: ID, name: 'Ilvo Marsh', work: 'technician' };

describe('people', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp();
  });

  afterAll(() => test.close());

  it('adds a person, and answers a repeat of the same as the first time', async () => {
    const first = await test.http.post('/api/v1/people').send(BODY).expect(201);
    test.clock.tick(5);
    const again = await test.http
      .post('/api/v1/people')
      .send({ work: BODY.work, name: BODY.name, id: ID })
      .expect(201);
    expect(first.body).toEqual({
      ...BODY,
      phone: null,
      version: 1,
      createdAt: '2026-03-02T08:00:00.000Z',
    });
    expect(again.body).toEqual(first.body);
    expect(again.headers['etag']).toBe('"1"');
  });

  it('refuses the same id with other content', async () => {
    const { body } = await test.http
      .post('/api/v1/people')
      .send({ ...BODY, name: 'Another' })
      .expect(409)
      .expect('content-type', /application\/problem\+json/);
    expect(body).toMatchObject({ type: 'urn:lastheard:problem:conflict', status: 409, id: ID });
  });

  it.each(['[]', 'null', '"x"', '5'])('refuses the body %s, which has no fields', async (json) => {
    const site = `/api/v1/sites/${ID}`;
    const sent = [
      test.http.post('/api/v1/people'),
      test.http.put(`${site}/as-built`),
      test.http.patch(site),
    ];
    for (const request of sent) {
      const { body } = await request
        .set('If-Match', '"1"')
        .set('Content-Type', 'application/json')
        .send(json)
        .expect(422);
      expect(body.errors).toEqual([{ field: '', reason: 'must be a JSON object' }]);
    }
  });

  it('names every field that is wrong', async () => {
    const { body } = await test.http
      .post('/api/v1/people')
      .send({ work: 'juggler', shoe: 44 })
      .expect(422);
    expect(body.errors).toEqual([
      { field: '/shoe', reason: 'is not a field here' },
      { field: '/name', reason: 'is missing' },
      {
        field: '/work',
        reason:
          'must be one of the following values: owner, dispatcher, contract-manager, technician',
      },
    ]);
  });

  it('changes a person by a merge patch with the version that was read', async () => {
    const path = `/api/v1/people/${ID}`;
    await test.http.patch(path).send({ phone: '1' }).expect(428);
    const changed = await test.http
      .patch(path)
      .set('If-Match', '"1"')
      .send({ phone: '0555 1' })
      .expect(200);
    expect(changed.body).toMatchObject({ name: 'Ilvo Marsh', phone: '0555 1', version: 2 });
    const stale = await test.http
      .patch(path)
      .set('If-Match', '"1"')
      .send({ phone: '2' })
      .expect(412);
    expect(stale.body.currentVersion).toBe(2);
    await test.http.patch(path).set('If-Match', '"2"').send({ name: null }).expect(422);
    const { body } = await test.http.patch(path).set('If-Match', '"2"').send({ phone: null });
    expect(body).toMatchObject({ phone: null, version: 3 });
  });

  it('lets exactly one of two changes of the same version win', async () => {
    const { body } = await test.http.get(`/api/v1/people/${ID}`).expect(200);
    const change = (phone: string) =>
      test.http.patch(`/api/v1/people/${ID}`).set('If-Match', `"${body.version}"`).send({ phone });
    const answers = await Promise.all([change('1'), change('2'), change('3')]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412]);
  });

  it('pages through a list by cursor', async () => {
    for (const name of ['Bea Orne', 'Cato Lind']) {
      await test.http.post('/api/v1/people').send({ name, work: 'dispatcher' }).expect(201);
    }
    const names: string[] = [];
    for (let after: string | null = ''; after !== null;) {
      const query: string = after === '' ? '' : `&after=${after}`;
      const { body } = await test.http.get(`/api/v1/people?limit=1${query}`).expect(200);
      names.push(...body.items.map((item: { name: string }) => item.name));
      after = body.next as string | null;
    }
    expect(names).toEqual(['Bea Orne', 'Cato Lind', 'Ilvo Marsh', 'Some owner']);
    await test.http.get('/api/v1/people?after=nonsense').expect(422);
    const forged = Buffer.from('["Bea","not an id"]').toString('base64url');
    await test.http.get(`/api/v1/people?after=${forged}`).expect(422);
  });

  it('answers what it does not know, and what it cannot read, as a problem', async () => {
    const unknown = await test.http.get('/api/v1/people/01900000-0000-7000-8000-00000000dead');
    expect(unknown.status).toBe(404);
    expect(unknown.body.type).toBe('urn:lastheard:problem:not-found');
    await test.http.get('/api/v1/people/not-a-uuid').expect(422);
    const nul = await test.http.post('/api/v1/people').send({ name: 'a\0b', work: 'owner' });
    expect(nul.status).toBe(422);
    expect(nul.body.errors).toEqual([
      { field: '/name', reason: 'holds the character NUL, which cannot be kept' },
    ]);
    const { body } = await test.http
      .post('/api/v1/people')
      .set('content-type', 'application/json')
      .send('{"name":')
      .expect(400);
    expect(body.type).toBe('urn:lastheard:problem:request');
  });

  it('keeps an answer for its repeat for 30 days, and no other firm’s is touched', async () => {
    const dayMinutes = 24 * 60;
    const otherFirm = '01900000-0000-7000-8000-0000000000f2';
    await test.addFirm(otherFirm);
    const other = await test.addPerson('owner', { firmId: otherFirm });
    const keptIds = (firmId: string) =>
      test.app.get(FirmTransaction).run(firmId, 'read', async () => {
        const manager = await test.app.get(FirmTransaction).manager();
        const rows = await manager.query<{ id: string }[]>('SELECT id FROM received_requests');
        return rows.map(({ id }) => id);
      });
    const add = (http: Agent, last: number, name = 'Ina Hollow') => {
      const id = `01900000-0000-7000-8000-00000000b00${last}`;
      return http.post('/api/v1/people').send({ id, name, work: 'technician' });
    };
    const first = await add(test.http, 1).expect(201);
    await add(other.http, 1).expect(201);
    test.clock.tick(30 * dayMinutes);
    await add(test.http, 2).expect(201);
    expect((await add(test.http, 1).expect(201)).body).toEqual(first.body);
    test.clock.tick(1);
    await add(test.http, 3).expect(201);
    const owner = new Client({ connectionString: test.ownerUrl });
    await owner.connect();
    await owner.query(
      `UPDATE jobs.job SET start_after = now() WHERE name = 'retention' AND data ->> 'firmId' = $1`,
      [FIRM_ID],
    );
    await owner.end();
    await test.app.get(JobService).settle();
    expect((await keptIds(FIRM_ID)).filter((id) => id.endsWith('b001'))).toEqual([]);
    expect(await keptIds(otherFirm)).toEqual([first.body.id]);
    const late = await add(test.http, 1).expect(409);
    expect(late.body.detail).toBe('Something with this id or name is there already.');
    expect((await add(test.http, 2).expect(201)).body.id).toMatch(/b002$/);
  });
});
