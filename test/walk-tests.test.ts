import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { sentStatements } from './support/count-statements.js';
import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp, type TestPerson } from './support/test-app.js';

const point = (node: string, name = 'announcement') => {
  return { trunk: node.charAt(0), node, function: name };
};
const works = (node: string, name?: string) => ({ ...point(node, name), outcome: 'works' });
const fails = (node: string, name?: string) => ({ ...point(node, name), outcome: 'fails' });

describe('walk tests on visits', () => {
  let test: TestApp;
  let technician: TestPerson;
  let siteId: string;
  let visitId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    siteId = await drawSite(test, [row('A', 4)]);
    const visit = {
      siteId,
      kind: 'planned',
      on: '2026-03-02',
      purpose: 'Half-yearly upkeep',
      upkeep: true,
      technicianId: technician.id,
    };
    visitId = (await test.http.post('/api/v1/visits').send(visit).expect(201)).body.id;
  });

  afterAll(() => test.close());

  const path = () => `/api/v1/visits/${visitId}/walk-tests`;
  const record = (observations: object[], more: object = {}) =>
    technician.http.post(path()).send({ testedBy: 'Ilvo Marsh', observations, ...more });

  async function asOwner(text: string, values: unknown[]): Promise<unknown[]> {
    const client = new Client(test.ownerUrl);
    await client.connect();
    await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    const { rows } = await client.query(text, values);
    await client.end();
    return rows;
  }

  /** Opens a ticket for a silent room; how likely its station, and the head-end, are at fault there. */
  async function located() {
    const report = {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: [fails('A3')],
    };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send(report)
      .expect(201);
    const [{ id }] = body.tickets;
    const location = (await technician.http.get(`/api/v1/tickets/${id}/location`).expect(200)).body;
    await test.http
      .post(`/api/v1/tickets/${id}/moves`)
      .send({ saidBy: report.saidBy, to: 'closed', reason: 'A mistake' })
      .expect(201);
    const span = location.result.places.find(
      ({ place }: { place: { kind: string; to?: string } }) =>
        place.kind === 'span' && place.to === 'A4',
    );
    return { provenPoints: location.provenPoints as number, span: span.probability as number };
  }

  it('wants somebody to be on site', async () => {
    const { body } = await record([works('A1')]).expect(409);
    expect(body.detail).toContain('planned');
    await technician.http
      .post(`/api/v1/visits/${visitId}/moves`)
      .send({ to: 'under-way', by: 'Ilvo Marsh' })
      .expect(201);
  });

  it('refuses what does not work, with where to report it, and keeps nothing', async () => {
    const sent = [works('A1'), fails('A2'), { ...point('A3'), outcome: 'weak' }];
    const { body } = await record(sent).expect(422);
    expect(body.errors).toEqual(
      [1, 2].map((index) => ({
        field: `/observations/${index}/outcome`,
        reason: `belongs on a ticket: report it at /api/v1/sites/${siteId}/reports, and send the test without it`,
      })),
    );
    const fieldsOf = async (observations: object[], more: object = {}) => {
      const { errors } = (await record(observations, more).expect(422)).body;
      return errors.map(({ field }: { field: string }) => field);
    };
    expect(await fieldsOf([{ ...point('A1'), outcome: 'not-checked' }])).toEqual(['/observations']);
    expect(await fieldsOf([works('A9'), works('A1'), works('A1')])).toEqual([
      '/observations/0/node',
      '/observations/2',
    ]);
    expect(await fieldsOf([works('A1')], { testedAt: '2026-03-03T08:00:00Z' })).toEqual([
      '/testedAt',
    ]);
    expect((await technician.http.get(path()).expect(200)).body.items).toEqual([]);
  });

  it('is proof from then on of what it covered, and only of that', async () => {
    const before = await located();
    expect(before.provenPoints).toBe(0);
    test.clock.tick(60);
    const id = '01900000-0000-7000-8000-00000000c001';
    const sent = [works('A3'), works('A4'), { ...point('A1'), outcome: 'not-checked' }];
    const { body } = await record(sent, { id }).expect(201);
    expect(body).toEqual({
      id,
      visitId,
      testedBy: 'Ilvo Marsh',
      testedAt: '2026-03-02T09:00:00.000Z',
      recordedAt: '2026-03-02T09:00:00.000Z',
      proven: [point('A3'), point('A4')],
      withdrawal: null,
    });
    expect((await record(sent, { id }).expect(201)).body).toEqual(body);
    expect((await technician.http.get(path()).expect(200)).body.items).toEqual([body]);
    test.clock.tick(24 * 60);
    const after = await located();
    expect(after.provenPoints).toBe(2);
    // A day since it was proven in place of 180: its joints have had less time to fail.
    expect(after.span).toBeLessThan(before.span / 2);
  });

  it('is reached by whoever reaches the site, and never changed', async () => {
    const stranger = await test.addStranger();
    await stranger.http.get(path()).expect(404);
    await stranger.http
      .post(path())
      .send({ testedBy: 'X', observations: [works('A1')] })
      .expect(404);
    const client = new Client(test.ownerUrl);
    await client.connect();
    await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    const remove = client.query('DELETE FROM proven_points');
    await expect(remove).rejects.toThrow(/proven_points/);
    await client.end();
  });

  it('tick the checklist of the visit, and what they leave out is asked about when it ends', async () => {
    const drawn = await drawSite(test, [row('A', 2)]);
    const planned = {
      siteId: drawn,
      kind: 'planned',
      on: '2026-03-02',
      purpose: 'Upkeep',
      upkeep: true,
      technicianId: technician.id,
      confirmed: ['double-booked', 'in-the-past'],
    };
    const begin = async () => {
      const { body } = await test.http.post('/api/v1/visits').send(planned).expect(201);
      const at = `/api/v1/visits/${body.id}`;
      await technician.http
        .post(`${at}/moves`)
        .send({ to: 'under-way', by: 'Ilvo Marsh' })
        .expect(201);
      return at;
    };
    const end = (at: string, status: number, more: object = {}) =>
      technician.http
        .post(`${at}/moves`)
        .send({ to: 'done', by: 'Ilvo Marsh', workDone: 'Heard', ...more })
        .expect(status);
    const at = await begin();
    const test_ = {
      testedBy: 'Ilvo Marsh',
      observations: [works('A1', 'bell'), works('A2', 'bell')],
    };
    await technician.http.post(`${at}/walk-tests`).send(test_).expect(201);
    test.clock.tick(1);
    for (let time = 0; time < 30; time++) {
      await technician.http.post(`${at}/walk-tests`).send(test_).expect(201);
    }
    const earlier = { ...test_, testedAt: new Date(test.clock.now().getTime() - 60_000) };
    await technician.http.post(`${at}/walk-tests`).send(earlier).expect(201);
    const { body } = await technician.http.get(`${at}/checklist`).expect(200);
    const read = (await sentStatements(test.app, () => technician.http.get(`${at}/checklist`)))
      .filter(({ text }) => text.includes('proven_points'))
      .map(({ text, values }) => asOwner(text, values));
    // What is read is bounded by the site, not by how often somebody sent something.
    expect((await Promise.all(read)).map(({ length }) => length)).toEqual([2]);
    expect(body).toMatchObject({ toHear: 12, heard: 2, missing: 10 });
    const [first] = body.rooms;
    const bell = first.functions.find((one: { function: string }) => one.function === 'bell');
    expect([first.room, bell.testedAt]).toEqual(['Room 1', test.clock.now().toISOString()]);
    const asked = await end(at, 409);
    expect(asked.body.confirm).toEqual(['not-all-heard']);
    expect(asked.body.missing).toHaveLength(10);
    expect(asked.body.missing).not.toContainEqual(point('A1', 'bell'));
    await end(at, 201, { confirmed: ['not-all-heard'] });
    // Where no room was heard at all it is asked as well.
    const unheard = await begin();
    const { body: none } = await end(unheard, 409);
    expect(none).toMatchObject({ confirm: ['not-all-heard'] });
    expect(none.detail).toContain('No room was heard');
    expect(none.missing).toHaveLength(12);
    await end(unheard, 201, { confirmed: ['not-all-heard'] });
  });
});
