import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import type { Pool } from 'pg';
import { DataSource } from 'typeorm';
import { ComputeService } from '#app/compute/compute.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const heard = (node: string, outcome: string) => {
  return { trunk: node.charAt(0), node, function: 'announcement', outcome };
};

describe('the walk on a ticket', () => {
  let test: TestApp;
  let technician: TestPerson;
  let siteId: string;
  let ticketId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    siteId = await drawSite(test, [row('A', 12), row('B', 3)]);
    await test.http
      .patch(`/api/v1/sites/${siteId}`)
      .set('If-Match', '"1"')
      .send({ servesEmergencyCalls: true, safetyNotes: 'Ask for the caretaker at the gate.' })
      .expect(200);
    const rooms = Array.from({ length: 12 }, (_, n) => `A${n + 1}`);
    const observations = rooms
      .filter((_, n) => n < 4 || n > 8)
      .map((node, n) => heard(node, n < 4 ? 'works' : 'fails'));
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy: OFFICE, how: 'gone-through', observations })
      .expect(201);
    ticketId = body.tickets[0].id;
    await test.http
      .post('/api/v1/visits')
      .send({
        siteId,
        kind: 'call-out',
        on: '2026-03-02',
        purpose: 'Rooms 9 to 12 silent',
        technicianId: technician.id,
        ticketIds: [ticketId],
      })
      .expect(201);
  });

  afterAll(() => test.close());

  const walk = (query = '') => technician.http.get(`/api/v1/tickets/${ticketId}/walk${query}`);

  it('holds no connection to the database while it plans', async () => {
    const compute = test.app.get(ComputeService);
    const { master: pool } = test.app.get(DataSource).driver as unknown as { master: Pool };
    const run = compute.run.bind(compute) as (task: never, input: never) => Promise<unknown>;
    let heldWhilePlanning = -1;
    const spy = jest.spyOn(compute, 'run').mockImplementation((task, input) => {
      heldWhilePlanning = pool.totalCount - pool.idleCount;
      return run(task as never, input as never);
    });
    await walk().expect(200);
    spy.mockRestore();
    expect(heldWhilePlanning).toBe(0);
  });

  it('tells a technician the next step, the plan, the parts and the cautions', async () => {
    const { body } = await walk().expect(200);
    expect(body.from).toEqual({ trunk: '', node: null, words: 'the head-end' });
    expect(body.next.words).toMatch(/ Room [5-9]/);
    expect(body.next.where.words).toMatch(/^Room [5-9]$/);
    expect(body.printed[0]).toBe(
      `From the head-end, about ${Math.round(body.expectedMinutes)} min until all works again.`,
    );
    expect(body.printed[1]).toContain(body.next.words);
    expect(body.printed.some((line: string) => /^ {2}If .+ \(\d+ %\): /.test(line))).toBe(true);
    expect(body.parts[0]).toMatchObject({ id: 'connectors', isCarried: true });
    expect(body.cautions[0]).toBe('Ask for the caretaker at the gate.');
    expect(body.cautions[1]).toMatch(/^This system serves evacuation/);
    expect(body.cautions.join(' ')).toContain('prove dead');
    expect((await walk().expect(200)).body).toEqual(body);
  });

  it('plans from where one stands', async () => {
    const { body } = await walk('?from=A9').expect(200);
    expect(body.from).toEqual({ trunk: 'A', node: 'A9', words: 'Room 9' });
    expect(body.printed[0]).toMatch(/^From Room 9, about/);
    const far = await walk('?from=A1&trunk=A').expect(200);
    expect(far.body.expectedMinutes).not.toBe(body.expectedMinutes);
  });

  it('sharpens with what is found on the way', async () => {
    const before = (await walk('?from=A7').expect(200)).body;
    await technician.http
      .post(`/api/v1/tickets/${ticketId}/reports`)
      .send({
        saidBy: { name: 'Ilvo Marsh', kind: 'technician' },
        how: 'gone-through',
        observations: [heard('A7', 'works'), heard('A8', 'fails')],
      })
      .expect(201);
    const after = (await walk('?from=A7').expect(200)).body;
    expect(after.next).toMatchObject({ kind: 'open' });
    expect(after.next.words).toMatch(/Room [78] (IN|OUT)$/);
    expect(after.expectedMinutes).toBeLessThan(before.expectedMinutes);
  });

  it('names a place that is not on the drawing, and hides others’ tickets', async () => {
    const { body } = await walk('?from=A99').expect(422);
    expect(body.errors).toEqual([{ field: 'from', reason: 'there is no A99 on the drawing' }]);
    expect((await walk('?trunk=Z').expect(422)).body.errors[0].field).toBe('trunk');
    const other = await test.addStranger();
    await other.http.get(`/api/v1/tickets/${ticketId}/walk`).expect(404);
  });
});
