import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { ILVO, OFFICE, ReadingsDesk, spanTo, SUPPLY, UNKNOWN } from './support/readings-desk.js';
import { FIRM_ID, type TestPerson } from './support/test-app.js';

const PAINTERS = {
  ...OFFICE,
  rooms: [{ trunk: 'A', node: 'A3' }],
  on: '2026-02-20',
  byWhom: 'painters',
};

describe('work done near by others', () => {
  const desk = new ReadingsDesk();
  const { drawnSite, locationOf, open } = desk;
  let client: TestPerson;
  let siteId: string;

  beforeAll(async () => {
    await desk.start();
    siteId = await drawnSite(SUPPLY);
    const { body: site } = await desk.test.http.get(`/api/v1/sites/${siteId}`).expect(200);
    client = await desk.test.addPerson('client', { clientId: site.clientId, name: 'Tessa Vole' });
  });
  afterAll(desk.close);

  const tell = (site: string, more: object = {}, by: Pick<TestPerson, 'http'> = desk.test) =>
    by.http.post(`/api/v1/sites/${site}/works-nearby`).send({ ...PAINTERS, ...more });
  const list = async (site: string) =>
    (await desk.technician.http.get(`/api/v1/sites/${site}/works-nearby`).expect(200)).body.items;
  const withdraw = (site: string, id: string, by: Pick<TestPerson, 'http'> = desk.technician) =>
    by.http
      .post(`/api/v1/sites/${site}/works-nearby/${id}/withdraw`)
      .send({ saidBy: ILVO, reason: 'It was the other wing' });

  it('makes what is near likelier at once, and no more once it is withdrawn', async () => {
    const site = await drawnSite(SUPPLY);
    const id = await open(site);
    const before = await locationOf(id);
    expect(spanTo(before, 'A3')).toBeCloseTo(spanTo(before, 'A5'), 1);
    const { body: told } = await tell(site).expect(201);
    expect(told).toMatchObject({
      ...PAINTERS,
      saidBy: 'Mara Quill',
      saidByKind: 'office',
      withdrawnAt: null,
    });
    const after = await locationOf(id);
    expect(after.worksNearby).toEqual([told.id]);
    // Both sides of its terminals: the span that feeds it, and the one that it feeds.
    for (const near of ['A3', 'A4'])
      expect(spanTo(after, near)).toBeGreaterThan(spanTo(before, near) * 1.01);
    expect(spanTo(after, 'A3')).toBeGreaterThan(spanTo(before, 'A3') * 1.08);
    expect(spanTo(after, 'A5')).toBeLessThan(spanTo(before, 'A5'));
    expect(await list(site)).toEqual([told]);
    const { body: withdrawn } = await withdraw(site, told.id).expect(201);
    expect(withdrawn).toEqual({
      ...told,
      withdrawnBy: 'Ilvo Marsh',
      withdrawnAt: desk.test.clock.now().toISOString(),
      withdrawnBecause: 'It was the other wing',
    });
    expect(await list(site)).toEqual([withdrawn]);
    expect(await locationOf(id)).toEqual(before);
  });

  it('is refused by field, and nothing is kept', async () => {
    const fields = async (more: object) =>
      (await tell(siteId, more).expect(422)).body.errors.map(
        ({ field }: { field: string }) => field,
      );
    const rooms = [PAINTERS.rooms[0], { trunk: 'A', node: 'A9' }, { trunk: 'C', node: 'C1' }];
    expect(await fields({ rooms })).toEqual(['/rooms/1/node', '/rooms/2/trunk']);
    expect(await fields({ rooms: [] })).toEqual(['/rooms']);
    const many = Array.from({ length: 450 }, () => PAINTERS.rooms[0]);
    expect(await fields({ rooms: many })).toEqual(['/rooms']);
    expect(await fields({ on: '2026-03-04' })).toEqual(['/on']);
    expect(await fields({ on: '2026-02-30' })).toEqual(['/on']);
    expect(await fields({ byWhom: '' })).toEqual(['/byWhom']);
    expect(await fields({ colour: 'red' })).toEqual(['/colour']);
    await tell(UNKNOWN).expect(404);
    expect(await list(siteId)).toEqual([]);
  });

  it('is told by everybody of the firm and of the site, by its pass too, and taken back by the firm', async () => {
    const own = { id: '01900000-0000-7000-8000-00000000c200' };
    const both = await Promise.all([tell(siteId, own, client), tell(siteId, own, client)]);
    expect(both.map(({ status }) => status)).toEqual([201, 201]);
    expect(both[0].body).toEqual(both[1].body);
    expect(both[0].body).toMatchObject({ saidBy: 'Mara Quill', saidByKind: 'office' });
    await tell(siteId, { ...own, byWhom: 'roofers' }, client).expect(409);
    const elsewhere = await drawnSite(SUPPLY);
    await tell(elsewhere, {}, client).expect(404);
    await tell(siteId, {}, await desk.test.addStranger()).expect(404);
    const { body: pass } = await desk.test.http
      .post(`/api/v1/sites/${siteId}/passes`)
      .send({})
      .expect(201);
    const browser = desk.test.browser();
    const { body: session } = await browser
      .post('/api/v1/pass/session')
      .send({ pass: pass.link.split('#')[1] })
      .expect(200);
    const { saidBy: _, ...work } = PAINTERS;
    const { body: byPass } = await browser
      .post('/api/v1/pass/works-nearby')
      .set('X-CSRF-Token', session.csrfToken)
      .send({ ...work, name: 'Mara Quill', on: '2026-02-21' })
      .expect(201);
    expect((await list(siteId)).map(({ id }: { id: string }) => id)).toEqual([byPass.id, own.id]);
    await withdraw(siteId, own.id, client).expect(403);
    await withdraw(elsewhere, own.id).expect(404);
    const twice = await Promise.all([withdraw(siteId, own.id), withdraw(siteId, own.id)]);
    expect(twice.map(({ status }) => status).sort()).toEqual([201, 409]);
  });

  it('stands beside what was ever found at the site, newest first, for the firm alone', async () => {
    const site = await drawnSite(SUPPLY);
    const findings = `/api/v1/sites/${site}/findings`;
    const read = async (by: Pick<TestPerson, 'http'> = desk.technician) =>
      (await by.http.get(findings).expect(200)).body;
    expect(await read()).toEqual({ items: [], more: 0 });
    const id = await open(site);
    const span = { kind: 'span', trunk: 'A', from: 'A3', to: 'A4' };
    const find = (more: object) =>
      desk.technician.http.post(`/api/v1/tickets/${id}/findings`).send({ saidBy: ILVO, ...more });
    await find({ place: span, component: 'junction-in', mode: 'open-speech' }).expect(201);
    await find({ place: null }).expect(201);
    desk.test.clock.tick(1);
    await find({ place: { kind: 'station', trunk: 'A', node: 'A5' } }).expect(201);
    const { items, more } = await read(desk.test);
    expect(more).toBe(0);
    expect(items).toMatchObject([
      { place: { kind: 'station', node: 'A5' }, mode: null, foundBy: 'Ilvo Marsh', ticketId: id },
      { place: span, component: 'junction-in', mode: 'open-speech' },
    ]);
    expect((await read(desk.technician)).items).toEqual(items);
    await client.http.get(findings).expect(403);
    const stranger = await desk.test.addStranger();
    await stranger.http.get(findings).expect(404);
  });

  it('is not changed or deleted, whoever asks the database, but for a name that is forgotten', async () => {
    const { body } = await tell(siteId).expect(201);
    await withdraw(siteId, body.id).expect(201);
    const database = new Client({ connectionString: desk.test.appUrl });
    await database.connect();
    try {
      await database.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const of = `WHERE id = '${body.id}'`;
      for (const sql of [
        `UPDATE works_nearby SET by_whom = 'X' ${of}`,
        `UPDATE works_nearby SET withdrawn_at = NULL ${of}`,
        `DELETE FROM works_nearby ${of}`,
      ])
        await expect(database.query(sql)).rejects.toThrow(/only grows/);
      for (const column of ['said_by', 'withdrawn_by']) {
        const forget = `UPDATE works_nearby SET ${column} = 'Former person 1a2b3c4d' ${of}`;
        expect((await database.query(forget)).rowCount).toBe(1);
      }
    } finally {
      await database.end();
    }
  });
});
