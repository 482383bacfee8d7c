import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { drawSite, row } from './support/draw-site.js';
import { OFFICE } from './support/readings-desk.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

describe('a technician on call', () => {
  let test: TestApp;
  let technician: TestPerson;
  let colleague: TestPerson;
  let client: TestPerson;
  let siteId: string;
  let ticketId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    colleague = await test.addPerson('technician', { name: 'Osk Fell' });
    siteId = await drawSite(test, [row('A', 4)]);
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`).expect(200);
    client = await test.addPerson('client', { clientId: site.clientId });
    const report = {
      ...OFFICE,
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send(report)
      .expect(201);
    ticketId = body.tickets[0].id;
  });
  afterAll(() => test.close());

  const visit = (more: object = {}) => ({
    siteId,
    kind: 'call-out',
    on: '2026-03-02',
    purpose: 'Bell silent at night',
    ticketIds: [ticketId],
    ...more,
  });
  const plan = (by: TestPerson, more: object = {}) =>
    by.http.post('/api/v1/visits').send(visit(more));
  const change = (by: TestPerson, id: string, version: number, patch: object) =>
    by.http.patch(`/api/v1/visits/${id}`).set('If-Match', `"${version}"`).send(patch);
  const fieldsOf = ({ body }: { body: { errors: { field: string }[] } }) =>
    body.errors.map(({ field }) => field);

  it('reads, locates and works a ticket of a site that they were never sent to; a client’s person does not', async () => {
    for (const path of ['', '/log', '/location', '/walk', '/looks'])
      await technician.http.get(`/api/v1/tickets/${ticketId}${path}`).expect(200);
    await client.http.get(`/api/v1/tickets/${ticketId}/walk`).expect(403);
    const saidBy = { name: 'Ilvo Marsh', kind: 'technician' };
    const move = { saidBy, to: 'at-work', reason: 'On call' };
    await client.http.post(`/api/v1/tickets/${ticketId}/moves`).send(move).expect(403);
    await technician.http.post(`/api/v1/tickets/${ticketId}/moves`).send(move).expect(201);
  });

  it('takes it by a call-out of their own, and plans nothing else and nobody else', async () => {
    const { body } = await plan(technician).expect(201);
    expect(body).toMatchObject({
      technicianId: technician.id,
      ticketIds: [ticketId],
      state: 'planned',
    });
    const start = { to: 'under-way', by: 'Ilvo Marsh' };
    await technician.http.post(`/api/v1/visits/${body.id}/moves`).send(start).expect(201);
    expect(fieldsOf(await plan(technician, { technicianId: colleague.id }).expect(422))).toEqual([
      '/technicianId',
    ]);
    const upkeep = { kind: 'planned', upkeep: true, ticketIds: [] };
    expect(fieldsOf(await plan(technician, upkeep).expect(422))).toEqual([
      '/kind',
      '/upkeep',
      '/ticketIds',
    ]);
    await plan(client).expect(403);
    await plan(await test.addStranger()).expect(422);
    const { body: by } = await plan(await test.addPerson('dispatcher'), {
      technicianId: colleague.id,
    }).expect(201);
    expect(by.technicianId).toBe(colleague.id);
  });

  it('takes on a visit that is there, once of two at once, and changes nothing else of it', async () => {
    const { body: open } = await plan(test.owner).expect(201);
    expect(open.technicianId).toBeNull();
    const other = { technicianId: colleague.id, purpose: 'Something else' };
    expect(fieldsOf(await change(technician, open.id, 1, other).expect(422))).toEqual([
      '/purpose',
      '/technicianId',
    ]);
    await change(technician, open.id, 1, {}).expect(422);
    await change(client, open.id, 1, { technicianId: client.id }).expect(403);
    const both = await Promise.all(
      [technician, colleague].map((one) => change(one, open.id, 1, { technicianId: one.id })),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 412]);
    const taken = both.find(({ status }) => status === 200)!.body;
    const { body } = await test.http.get(`/api/v1/visits/${open.id}`).expect(200);
    expect(body).toMatchObject({ technicianId: taken.technicianId, purpose: open.purpose });
  });
});
