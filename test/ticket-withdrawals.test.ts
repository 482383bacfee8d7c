import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { continuity, ReadingsDesk, spanTo, UNKNOWN, volts } from './support/readings-desk.js';
import { FIRM_ID } from './support/test-app.js';

describe('readings on a ticket', () => {
  const desk = new ReadingsDesk();
  const { locationOf, merge, move, open, otherTicket, read, taken, withdraw } = desk;

  beforeAll(desk.start);
  afterAll(desk.close);

  it('are withdrawn: they stay, with who, when and why, and nothing goes by them any more', async () => {
    const id = await open();
    const walk = () => read(id, '/walk');
    const right = await taken(id, continuity('A2', 'A3', true));
    const before = { location: await locationOf(id), walk: await walk() };
    const misplaced = await taken(id, volts('A4', 0.02));
    expect(spanTo(await locationOf(id), 'A5')).toBeLessThan(0.02);

    desk.test.clock.tick(5);
    const saidAt = desk.test.clock.now().toISOString();
    desk.test.clock.tick(1);
    const { body } = await withdraw(id, misplaced, { saidAt }).expect(201);
    const withdrawal = {
      id: expect.any(String),
      saidBy: 'Ilvo Marsh',
      saidByKind: 'technician',
      happenedAt: saidAt,
      recordedAt: desk.test.clock.now().toISOString(),
      reason: 'Read in Room 5',
    };
    expect(body.version).toBe(4);
    expect(body.readings).toMatchObject([
      { id: right, withdrawal: null },
      { id: misplaced, reading: volts('A4', 0.02), takenBy: 'Ilvo Marsh', withdrawal },
    ]);
    expect((await read(id, '/readings')).items).toEqual(body.readings);
    const { reason, ...entry } = body.readings[1].withdrawal;
    expect((await read(id, '/log')).items.at(-1)).toEqual({
      ...entry,
      ticketId: id,
      kind: 'withdrawal',
      details: { readingIds: [misplaced], reason },
    });
    expect(await locationOf(id)).toEqual({
      ...before.location,
      readingsLeftOut: [{ id: misplaced, reason: 'was withdrawn' }],
    });
    expect(await walk()).toEqual(before.walk);
  });

  it('are withdrawn once, with a reason, while the ticket is open', async () => {
    const other = await open();
    const elsewhere = await taken(other, volts('A4', 0.02));
    const id = await open();
    const reading = await taken(id, volts('A4', 0.02));
    const fields = async (more: object) =>
      (await withdraw(id, reading, more).expect(422)).body.errors.map(
        ({ field }: { field: string }) => field,
      );
    for (const reason of [undefined, '', ' \n', 7, 'x'.repeat(2001)])
      expect(await fields({ reason })).toEqual(['/reason']);
    expect(await fields({ saidBy: undefined })).toEqual(['/saidBy']);
    expect(await fields({ saidAt: '2027-01-01T00:00:00Z' })).toEqual(['/saidAt']);
    expect(await fields({ colour: 'red' })).toEqual(['/colour']);
    expect((await withdraw(id, 'A4').expect(422)).body.errors).toEqual([
      { field: 'readingId', reason: 'must be a UUID' },
    ]);
    await withdraw(id, UNKNOWN).expect(404);
    await withdraw(id, elsewhere).expect(404);
    await withdraw(UNKNOWN, reading).expect(404);
    await withdraw(other, elsewhere).expect(409);
    const ticket = await read(id);
    expect(ticket).toMatchObject({ version: 2, readings: [{ id: reading, withdrawal: null }] });

    const both = await Promise.all([withdraw(id, reading), withdraw(id, reading)]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
    const { body } = await withdraw(id, reading).expect(409);
    expect(body).toMatchObject({
      detail: 'This reading was withdrawn already.',
      withdrawalId: both.find(({ status }) => status === 201)!.body.readings[0].withdrawal.id,
    });
  });

  it('are withdrawn by those who may take them, on the record, once for the same id', async () => {
    const id = await open();
    const reading = await taken(id, volts('A4', 0.02));
    const { body: site } = await desk.test.http.get(`/api/v1/sites/${desk.siteId}`).expect(200);
    const client = await desk.test.addPerson('client', { clientId: site.clientId });
    await withdraw(id, reading, {}, client).expect(403);
    await withdraw(id, reading, {}, await desk.test.addStranger()).expect(404);
    const own = { id: '01900000-0000-7000-8000-00000000c0df' };
    const dispatcher = await desk.test.addPerson('dispatcher');
    const first = await withdraw(id, reading, own, dispatcher).expect(201);
    const again = await withdraw(id, reading, own, dispatcher).expect(201);
    expect(again.body).toEqual(first.body);
    expect(first.body.readings[0].withdrawal.id).toBe(own.id);
    const { body: record } = await desk.test.http.get(`/api/v1/audit?actor=${dispatcher.id}`);
    expect(record.items).toMatchObject([
      {
        action: 'POST /api/v1/tickets/:ticketId/readings/:readingId/withdraw',
        target: { ticketId: id, readingId: reading },
        outcome: 'done',
      },
    ]);
  });

  it('go along withdrawn when a ticket is merged, and are withdrawn where they are then', async () => {
    const one = await open();
    const other = await otherTicket();
    const withdrawn = await taken(one, volts('A4', 0.02));
    await withdraw(one, withdrawn).expect(201);
    desk.test.clock.tick(1);
    const reading = await taken(one, volts('A3', 0.02));
    expect((await merge(one, other)).readings).toMatchObject([
      { id: withdrawn, withdrawal: { reason: 'Read in Room 5' } },
      { id: reading, withdrawal: null },
    ]);
    expect((await withdraw(one, reading).expect(409)).body.mergedInto).toBe(other);
    await withdraw(other, reading).expect(201);
    expect((await locationOf(other)).readingsUsed).toEqual([]);
  });

  it('leave what was predicted when somebody was sent as it was, and are withdrawn for good', async () => {
    const id = await open();
    const misplaced = await taken(id, volts('A4', 0.02));
    await move(id, 'at-work').expect(201);
    const client = new Client({ connectionString: desk.test.appUrl });
    await client.connect();
    try {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const predicted = async () =>
        (await client.query(`SELECT * FROM predictions WHERE ticket_id = '${id}'`)).rows;
      const before = await predicted();
      expect(before).toMatchObject([{ occasion: 'at-work' }]);
      await withdraw(id, misplaced).expect(201);
      expect(await predicted()).toEqual(before);
      const of = `WHERE id = '${misplaced}'`;
      const entry = `(SELECT id FROM ticket_entries WHERE ticket_id = '${id}' LIMIT 1)`;
      for (const sql of ['NULL', entry].map((to) => `SET withdrawal_id = ${to} ${of}`)) {
        const update = client.query(`UPDATE readings ${sql}`);
        await expect(update).rejects.toThrow(/only grows/);
      }
      const name = `UPDATE readings SET taken_by = 'Former person 1a2b3c4d' ${of}`;
      expect((await client.query(name)).rowCount).toBe(1);
    } finally {
      await client.end();
    }
  });
});
