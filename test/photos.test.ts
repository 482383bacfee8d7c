import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { JobService } from '#app/jobs/job.service.js';
import { RetentionService } from '#app/jobs/retention.service.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';
import { withClient } from '#app/database/built-in-roles.js';

import { drawSite, row } from './support/draw-site.js';
import { jpegOf, PIXEL } from './support/pictures.js';
import { type Agent, buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

const SAID = { saidBy: { name: 'Mara Quill', kind: 'office' } };

describe('photos', () => {
  let test: TestApp;
  let siteId: string;
  let ticketId: string;
  let visitId: string;
  let technician: Agent;

  beforeAll(async () => {
    test = await buildTestApp();
    siteId = await drawSite(test, [row('A', 4)]);
    technician = (await test.addPerson('technician', { name: 'Ilvo Marsh' })).http;
    ticketId = await report('A2');
    visitId = await visit();
  });

  afterAll(() => test.close());

  async function report(node: string, at = siteId, name = 'announcement'): Promise<string> {
    const observations = [{ trunk: 'A', node, function: name, outcome: 'fails' }];
    const { body } = await test.http
      .post(`/api/v1/sites/${at}/reports`)
      .send({ ...SAID, how: 'volunteered', observations })
      .expect(201);
    return body.tickets[0].id as string;
  }

  async function visit(): Promise<string> {
    const on = test.clock.now().toISOString().slice(0, 10);
    const what = { kind: 'planned', on, purpose: 'Upkeep', upkeep: true };
    const confirmed = ['double-booked', 'outside-hours'];
    const { body } = await test.http
      .post('/api/v1/visits')
      .send({ siteId, ...what, confirmed })
      .expect(201);
    return body.id as string;
  }

  const add = (body: object, of = `tickets/${ticketId}`) =>
    technician.post(`/api/v1/${of}/photos`).send(body);
  const list = async (of = `tickets/${ticketId}`) =>
    (await technician.get(`/api/v1/${of}/photos?limit=200`).expect(200)).body.items;

  it('are kept as they were sent, with who took them and when, and given back', async () => {
    const sent = {
      image: PIXEL,
      caption: ' Terminals at Room 2 ',
      takenAt: '2026-03-02T07:30:00Z',
    };
    const { body } = await add(sent).expect(201);
    expect(body).toEqual({
      id: expect.any(String),
      ticketId,
      visitId: null,
      format: 'png',
      byteCount: Buffer.from(PIXEL, 'base64').length,
      caption: 'Terminals at Room 2',
      takenBy: 'Ilvo Marsh',
      takenAt: '2026-03-02T07:30:00.000Z',
      recordedAt: '2026-03-02T08:00:00.000Z',
      keptUntil: '2031-03-01T08:00:00.000Z',
      withdrawal: null,
    });
    expect(await list()).toEqual([body]);
    const { body: picture } = await test.http
      .get(`/api/v1/photos/${body.id}/image`)
      .expect('content-type', 'image/png')
      .expect('cache-control', 'no-store')
      .expect('x-content-type-options', 'nosniff')
      .expect(200);
    expect((picture as Buffer).toString('base64')).toBe(PIXEL);
    const onVisit = await add({ image: jpegOf(900) }, `visits/${visitId}`).expect(201);
    expect(onVisit.body).toMatchObject({ ticketId: null, visitId, format: 'jpeg' });
    expect(await list(`visits/${visitId}`)).toEqual([onVisit.body]);
    expect(await list()).toEqual([body]);
  });

  it('are refused where they are no picture, too large or to come', async () => {
    const before = (await list()).length;
    const refused = async (body: object, status = 422) =>
      (await add(body).expect(status)).body.errors?.[0];
    const text = (of: string) => Buffer.from(of).toString('base64');
    const kinds = 'must be a JPEG, a PNG or a WebP';
    for (const of of ['<svg onload="x()"/>', 'GIF89a', '<html><script>', '%PDF-1.7', 'BM'])
      expect(await refused({ image: text(of) })).toEqual({ field: '/image', reason: kinds });
    for (const image of ['', 'not base 64!', 7, null, [PIXEL], `${PIXEL}\n`])
      expect((await refused({ image })).field).toBe('/image');
    expect((await refused({})).field).toBe('/image');
    for (const more of [1, 2, 3, 1000, 30_000])
      expect((await refused({ image: jpegOf(2_000_000 + more) })).reason).toMatch(
        /must be of 2000000 bytes at most/,
      );
    await refused({ image: jpegOf(3_000_000) }, 413);
    await refused({ image: jpegOf(9_000_000) }, 413);
    expect(await refused({ image: PIXEL, takenAt: '2026-03-02T09:00:00Z' })).toEqual({
      field: '/takenAt',
      reason: 'is in the future',
    });
    expect((await refused({ image: PIXEL, caption: 'x'.repeat(501) })).field).toBe('/caption');
    expect(await list()).toHaveLength(before);
    const largest = await add({ image: jpegOf(2_000_000) }).expect(201);
    expect(largest.body.byteCount).toBe(2_000_000);
  });

  it('are one where the same is sent twice, also at once', async () => {
    const id = '01900000-0000-7000-8000-00000000aaa1';
    const sent = { id, image: jpegOf(50) };
    const answers = await Promise.all([add(sent), add(sent), add(sent)]);
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201]);
    expect(answers.map(({ body }) => body.id)).toEqual([id, id, id]);
    await add({ id, image: jpegOf(51) }).expect(409);
    expect((await list()).filter((one: { id: string }) => one.id === id)).toHaveLength(1);
  });

  it('are thirty of a visit at most, however many come at once', async () => {
    const of = `visits/${await visit()}`;
    const first = await add({ image: PIXEL }, of).expect(201);
    await technician
      .post(`/api/v1/photos/${first.body.id}/withdraw`)
      .send({ reason: 'Blurred' })
      .expect(200);
    for (let n = 0; n < 25; n++) await add({ image: PIXEL }, of).expect(201);
    const answers = await Promise.all(Array.from({ length: 12 }, () => add({ image: PIXEL }, of)));
    const statuses = answers.map(({ status }) => status).sort();
    expect(statuses).toEqual([...Array<number>(4).fill(201), ...Array<number>(8).fill(409)]);
    for (let n = 0; n < 3; n++) {
      const { body } = await add({ image: PIXEL }, of).expect(409);
      expect(body).toMatchObject({ limit: 30 });
    }
    expect(await list(of)).toHaveLength(30);
    const { body: page } = await technician.get(`/api/v1/${of}/photos?limit=20`).expect(200);
    const next = await technician.get(`/api/v1/${of}/photos?after=${page.next}`).expect(200);
    expect([page.items.length, next.body.items.length, next.body.next]).toEqual([20, 10, null]);
  });

  it('go with a reason, and that they were there stays', async () => {
    const { body: photo } = await add({ image: jpegOf(70), caption: 'A face' }).expect(201);
    const withdraw = (reason: unknown, http = technician) =>
      http.post(`/api/v1/photos/${photo.id}/withdraw`).send({ reason });
    for (const reason of [undefined, '', '  ', 5, 'x'.repeat(2001)])
      expect((await withdraw(reason).expect(422)).body.errors[0].field).toBe('/reason');
    const answers = await Promise.all([withdraw('A pupil is on it'), withdraw('Another reason')]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
    const done = answers.find(({ status }) => status === 200)!.body;
    expect(done.withdrawal).toMatchObject({ by: 'Ilvo Marsh', at: '2026-03-02T08:00:00.000Z' });
    await technician.get(`/api/v1/photos/${photo.id}/image`).expect(404);
    expect((await list()).at(-1)).toEqual(done);
    await withClient(test.appUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const { rows } = await client.query('SELECT image FROM photos WHERE id = $1', [photo.id]);
      expect(rows).toEqual([{ image: null }]);
    });
    await withdraw('Again').expect(409);
  });

  it('are a client’s own alone, and nothing for a pass', async () => {
    const elsewhere = await drawSite(test, [row('A', 2)]);
    const other = await report('A1', elsewhere);
    const theirs = await add({ image: PIXEL }, `tickets/${other}`).expect(201);
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`);
    const client = (await test.addPerson('client', { clientId: site.clientId })).http;
    const [own] = await list();
    await client.get(`/api/v1/tickets/${ticketId}/photos`).expect(200);
    await client.get(`/api/v1/visits/${visitId}/photos`).expect(200);
    await client.get(`/api/v1/photos/${own.id}/image`).expect(200);
    await client.get(`/api/v1/tickets/${other}/photos`).expect(404);
    await client.get(`/api/v1/photos/${theirs.body.id}/image`).expect(404);
    await client.post(`/api/v1/tickets/${ticketId}/photos`).send({ image: PIXEL }).expect(403);
    await client.post(`/api/v1/photos/${own.id}/withdraw`).send({ reason: 'X' }).expect(403);
    const { body: pass } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const browser = test.browser();
    await browser
      .post('/api/v1/pass/session')
      .send({ pass: pass.link.split('#')[1] })
      .expect(200);
    await browser.get(`/api/v1/tickets/${ticketId}/photos`).expect(401);
    await browser.get(`/api/v1/visits/${visitId}/photos`).expect(401);
    await browser.get(`/api/v1/photos/${own.id}/image`).expect(401);
    await test.browser().get(`/api/v1/photos/${own.id}/image`).expect(401);
    const manager = (await test.addPerson('contract-manager')).http;
    await manager.get(`/api/v1/photos/${own.id}/image`).expect(200);
  });

  it('follow a ticket into the one it was merged into', async () => {
    const target = await report('A4', siteId, 'bell');
    const { body: told } = await test.http.get(`/api/v1/tickets/${target}/observations`);
    const observationIds = [told.items.at(-1).id];
    const { body: split } = await test.http
      .post(`/api/v1/tickets/${target}/split`)
      .send({ ...SAID, observationIds })
      .expect(201);
    const from = split.id as string;
    expect(from).not.toBe(target);
    const { body: photo } = await add({ image: PIXEL }, `tickets/${from}`).expect(201);
    await test.http
      .post(`/api/v1/tickets/${from}/merge`)
      .send({ ...SAID, into: target })
      .expect(201);
    expect(await list(`tickets/${target}`)).toContainEqual(photo);
    const { body } = await add({ image: PIXEL }, `tickets/${from}`).expect(409);
    expect(body.mergedInto).toBe(target);
  });

  it('are changed by nobody, and gone after five years', async () => {
    const [own] = await list();
    await withClient(test.appUrl, async (client: Client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      for (const change of [
        `caption = 'Else'`,
        `image = '\\x00'`,
        `taken_by = 'Else'`,
        `taken_at = now()`,
        `visit_id = '${visitId}', ticket_id = NULL`,
      ])
        await expect(
          client.query(`UPDATE photos SET ${change} WHERE id = '${own.id}'`),
        ).rejects.toThrow('only grows');
      await expect(client.query('DELETE FROM photos')).rejects.toThrow('only grows');
    });
    const sweep = async () => {
      // The next day's is there already, by the database's clock.
      await withClient(test.ownerUrl, (client) =>
        client.query(`DELETE FROM jobs.job WHERE name = 'retention'`),
      );
      await test.app
        .get(FirmTransaction)
        .run(FIRM_ID, 'write', () => test.app.get(RetentionService).begin());
      await test.app.get(JobService).settle();
    };
    const minutes = 5 * 365 * 24 * 60;
    test.clock.tick(minutes);
    await sweep();
    await technician.get(`/api/v1/photos/${own.id}/image`).expect(200);
    test.clock.tick(1);
    await sweep();
    await technician.get(`/api/v1/photos/${own.id}/image`).expect(404);
    expect((await list())[0]).toEqual(own);
  });

  it('name nobody who is to be forgotten', async () => {
    const person = await test.addPerson('technician', { name: 'Sanna Threlk' });
    const of = `visits/${await visit()}`;
    const { body: photo } = await person.http
      .post(`/api/v1/${of}/photos`)
      .send({ image: PIXEL })
      .expect(201);
    await person.http
      .post(`/api/v1/photos/${photo.id}/withdraw`)
      .send({ reason: 'Blurred' })
      .expect(200);
    const browser = test.browser();
    const { email } = test.owner;
    const { body } = await browser.post('/api/v1/session').send({ email, password: PASSWORD });
    const asOwner = (path: string) =>
      browser.post(`/api/v1${path}`).set('X-CSRF-Token', body.csrfToken).send({});
    await asOwner(`/accounts/${person.id}/end`);
    await asOwner(`/accounts/${person.id}/anonymise`);
    const [told] = await list(of);
    expect(JSON.stringify(told)).not.toContain('Sanna');
    expect(told.takenBy).toMatch(/^Former person/);
    expect(told.withdrawal.by).toBe(told.takenBy);
  });
});
