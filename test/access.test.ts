import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { buildTestApp, type TestApp } from './support/test-app.js';

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
});
