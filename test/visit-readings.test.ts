import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { HEARD, ILVO, OFFICE, ReadingsDesk, spanTo, volts } from './support/readings-desk.js';

const DEAD = { kind: 'supply-volts', trunk: 'A', node: 'A4', entered: '0,02', uncertainty: 0.05 };

describe('readings on a visit to a ticket', () => {
  const desk = new ReadingsDesk();
  const { locationOf, open, read, taken, withdraw } = desk;

  beforeAll(desk.start);
  afterAll(desk.close);

  const visit = async (ticketIds: string[]): Promise<string> => {
    const sent = { siteId: desk.siteId, kind: 'call-out', on: '2026-03-02', purpose: 'Silence' };
    const path = '/api/v1/visits';
    const { body } = await desk.test.http
      .post(path)
      .send({ ...sent, upkeep: false, ticketIds, technicianId: desk.technician.id })
      .expect(201);
    return body.id;
  };
  const enter = async (visitId: string, reading: object, status = 201) =>
    (
      await desk.technician.http
        .post(`/api/v1/visits/${visitId}/readings`)
        .send({ takenBy: ILVO.name, ...reading })
        .expect(status)
    ).body;

  it('move the place just as one on the ticket does', async () => {
    const id = await open();
    const before = await locationOf(id);
    expect(spanTo(before, 'A5')).toBeGreaterThan(0.15);
    const entered = await enter(await visit([id]), DEAD);
    expect(entered.reading).toEqual(volts('A4', 0.02));
    const after = await locationOf(id);
    expect(after.readingsUsed).toEqual([entered.id]);
    expect(spanTo(after, 'A5')).toBeLessThan(0.02);
    expect((await read(id)).readings).toEqual([entered]);

    const same = await open();
    await taken(same, volts('A4', 0.02));
    const onTicket = await locationOf(same);
    expect(after.result.logEvidence).toBeCloseTo(onTicket.result.logEvidence, 10);
  });

  it('say nothing about tickets that the visit is not to', async () => {
    const id = await open();
    const other = await desk.otherTicket();
    await enter(await visit([other]), DEAD);
    expect(await locationOf(id)).toMatchObject({ readingsUsed: [], readingsLeftOut: [] });
  });

  it('count with those on the ticket: of one person the last of the same thing stands', async () => {
    const id = await open();
    const mistyped = await taken(id, volts('A4', 23.5));
    desk.test.clock.tick(1);
    const corrected = await enter(await visit([id]), DEAD);
    const { readingsUsed, readingsLeftOut } = await locationOf(id);
    expect(readingsUsed).toEqual([corrected.id]);
    expect(readingsLeftOut).toEqual([
      { id: mistyped, reason: 'was taken again by the same person' },
    ]);
  });

  it('belong to the period in which they were taken', async () => {
    const id = await open();
    const before = await enter(await visit([id]), DEAD);
    await desk.move(id, 'at-work').expect(201);
    desk.test.clock.tick(1);
    await desk.technician.http
      .post(`/api/v1/tickets/${id}/mendings`)
      .send({ saidBy: ILVO, mending: 'lasting', what: 'Terminals remade' })
      .expect(201);
    desk.test.clock.tick(1);
    await desk.test.http
      .post(`/api/v1/tickets/${id}/reports`)
      .send({ ...OFFICE, how: 'gone-through', observations: HEARD })
      .expect(201);
    const after = await enter(await visit([id]), { ...DEAD, entered: '23.9' });
    const { readingsUsed, readingsLeftOut } = await locationOf(id);
    expect(readingsUsed).toEqual([after.id]);
    expect(readingsLeftOut).toEqual([{ id: before.id, reason: 'is from before a mending' }]);
  });

  it('are left out by name where they do not say enough, and other kinds are no evidence', async () => {
    const id = await open();
    const visitId = await visit([id]);
    const nowhere = await enter(visitId, { kind: 'supply-volts', trunk: 'A', entered: '24' });
    const loop = { kind: 'loop-ohms', trunk: 'A', entered: '0.5' };
    const noCore = await enter(visitId, loop);
    const atRoom = await enter(visitId, { ...loop, node: 'A2', core: 'supply' });
    const whole = await enter(visitId, { ...loop, core: 'speech' });
    expect(whole.reading).toMatchObject({ core: 'speech', ohms: 0.5, uncertaintyOhms: 0.1 });
    await enter(visitId, { kind: 'insulation-megohms', trunk: 'A', entered: '172' });
    const { readingsUsed, readingsLeftOut } = await locationOf(id);
    expect(readingsUsed).toEqual([whole.id]);
    expect(readingsLeftOut).toHaveLength(3);
    expect(readingsLeftOut).toEqual(
      expect.arrayContaining([
        {
          id: nowhere.id,
          reason: 'does not say at which station or junction box of which trunk',
        },
        { id: noCore.id, reason: 'does not say which core of which trunk' },
        { id: atRoom.id, reason: 'was not taken from the head-end' },
      ]),
    );
    const { errors } = await enter(visitId, { ...DEAD, core: 'speech' }, 422);
    expect(errors).toEqual([{ field: '/core', reason: 'belongs to a reading of kind loop-ohms' }]);
  });

  it('are withdrawn on any ticket of the visit, once', async () => {
    const id = await open();
    const other = await desk.otherTicket();
    const visitId = await visit([id, other]);
    const entered = await enter(visitId, DEAD);
    const both = await Promise.all([withdraw(id, entered.id), withdraw(other, entered.id)]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
    const { body } = await desk.technician.http.get(`/api/v1/visits/${visitId}/readings`);
    expect(body.items).toMatchObject([
      { id: entered.id, withdrawal: { reason: 'Read in Room 5', saidBy: 'Ilvo Marsh' } },
    ]);
    for (const ticket of [id, other])
      expect((await locationOf(ticket)).readingsLeftOut).toEqual([
        { id: entered.id, reason: 'was withdrawn' },
      ]);
    const third = await open();
    await withdraw(third, entered.id).expect(404);
  });

  it('go along when the ticket is merged', async () => {
    const one = await open();
    const entered = await enter(await visit([one]), DEAD);
    const other = await desk.otherTicket();
    const merged = await desk.merge(one, other);
    expect(merged.readings).toMatchObject([{ id: entered.id }]);
    expect((await locationOf(other)).readingsUsed).toEqual([entered.id]);
  });
});
