import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { WorkTimeDto } from '#app/work-times/work-times.dto.js';
import { WORK_TIME_NAMES } from '#app/work-times/work-times.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

const PATH = '/api/v1/work-times';

describe('work times', () => {
  let test: TestApp;
  let technician: TestPerson;
  let ticketId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const siteId = await drawSite(test, [row('A', 6)]);
    const observations = [2, 3, 4, 5, 6].map((room) => ({
      trunk: 'A',
      node: `A${room}`,
      function: 'announcement',
      outcome: room < 4 ? 'works' : 'fails',
    }));
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy: { name: 'Mara Quill', kind: 'office' }, how: 'gone-through', observations })
      .expect(201);
    ticketId = body.tickets[0].id;
  });

  afterAll(() => test.close());

  const change = (version: number, patch: object) =>
    test.http.patch(PATH).set('If-Match', `"${version}"`).send(patch);
  const named = (items: WorkTimeDto[], name: string) => items.find((one) => one.name === name);

  it('are the usual ones, until the firm says otherwise and takes it back', async () => {
    const { body } = await test.http.get(PATH).expect(200);
    expect(body).toMatchObject({ paceFactor: 1, paceVisits: 0, version: 0 });
    expect(body.items.map(({ name }: WorkTimeDto) => name)).toEqual(WORK_TIME_NAMES);
    expect(named(body.items, 'lookAtFuse')).toMatchObject({ minutes: 1.5, from: 'usual' });

    const said = await change(0, { lookAtFuse: 4, waitForLesson: 0 }).expect(200);
    expect(said.headers.etag).toBe('"1"');
    expect(named(said.body.items, 'lookAtFuse')).toMatchObject({ minutes: 4, from: 'own' });
    const back = await change(1, { lookAtFuse: null }).expect(200);
    expect(named(back.body.items, 'lookAtFuse')).toMatchObject({ minutes: 1.5, from: 'usual' });
    expect(named(back.body.items, 'waitForLesson')).toMatchObject({ minutes: 0, from: 'own' });
  });

  it('are refused when stale, without a version, or out of bounds; two at once are one', async () => {
    await change(0, { listen: 2 }).expect(412);
    await test.http.patch(PATH).send({ listen: 2 }).expect(428);
    const { body } = await change(2, { listen: -1, measure: 601, mendFuse: 'x' }).expect(422);
    expect(body.errors.map(({ field }: { field: string }) => field).sort()).toEqual([
      '/listen',
      '/measure',
      '/mendFuse',
    ]);
    const both = await Promise.all([change(2, { listen: 2 }), change(2, { listen: 3 })]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 412]);
  });

  it('are the owner’s to change, a technician’s to read, and the firm’s own', async () => {
    await technician.http.get(PATH).expect(200);
    await technician.http.patch(PATH).set('If-Match', '"3"').send({ listen: 9 }).expect(403);
    const other = await test.addStranger();
    const { body } = await other.http.get(PATH).expect(200);
    expect(body.version).toBe(0);
  });

  it('are what the walk goes by', async () => {
    const walk = async () =>
      (await technician.http.get(`/api/v1/tickets/${ticketId}/walk`).expect(200)).body;
    const before = await walk();
    expect(before.walkTestMinutes).toBe(6);
    const { version } = (await test.http.get(PATH).expect(200)).body;
    await change(version, { isolateAndProveDead: 60, walkTestRoom: 2 }).expect(200);
    const after = await walk();
    expect(after.expectedMinutes).toBeGreaterThan(before.expectedMinutes + 20);
    expect(after.walkTestMinutes).toBe(12);
  });

  it('learn from call-outs that were finished', async () => {
    const { body: ticket } = await test.http.get(`/api/v1/tickets/${ticketId}`).expect(200);
    const { body: visit } = await test.http
      .post('/api/v1/visits')
      .send({
        siteId: ticket.siteId,
        kind: 'call-out',
        on: '2026-03-02',
        purpose: 'Rooms 4 to 6 silent',
        technicianId: technician.id,
        ticketIds: [ticketId],
      })
      .expect(201);
    const move = (to: string, more = {}) =>
      technician.http
        .post(`/api/v1/visits/${visit.id}/moves`)
        .send({ to, by: 'Ilvo Marsh', ...more });
    await move('under-way').expect(201);
    test.clock.tick(10);
    await technician.http
      .post(`/api/v1/tickets/${ticketId}/findings`)
      .send({
        saidBy: { name: 'Ilvo Marsh', kind: 'technician' },
        place: { kind: 'span', trunk: 'A', from: 'A3', to: 'A4' },
        component: 'junction-in',
        mode: 'parted',
      })
      .expect(201);
    test.clock.tick(230);
    await move('done', { workDone: 'Terminals made anew' }).expect(201);
    const { body } = await test.http.get(PATH).expect(200);
    expect(body.paceVisits).toBe(1);
    expect(body.paceFactor).toBeGreaterThan(1.1);
    expect(named(body.items, 'listen')?.from).toBe('own');
    expect(named(body.items, 'lookAtFuse')).toMatchObject({ from: 'learned' });
    expect(named(body.items, 'secondTrip')).toMatchObject({ minutes: 120, from: 'usual' });
  });
});
