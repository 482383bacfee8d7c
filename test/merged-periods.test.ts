import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { continuity, ILVO, OFFICE, ReadingsDesk } from './support/readings-desk.js';

const SOUND = {
  place: { kind: 'span', trunk: 'A', from: 'A4', to: 'A5' },
  part: 'junction-in',
  seen: 'sound',
};
const silent = (trunk: string, node: string) => {
  return { trunk, node, function: 'announcement', outcome: 'fails' };
};

describe('the periods of tickets that were merged', () => {
  const desk = new ReadingsDesk();
  const { locationOf, merge, move, open, read, reported, taken } = desk;

  beforeAll(desk.start);
  afterAll(desk.close);

  const visitTo = async (ticketId: string): Promise<string> => {
    const { body } = await desk.test.http
      .post('/api/v1/visits')
      .send({
        siteId: desk.siteId,
        kind: 'call-out',
        on: '2026-03-02',
        purpose: 'Silent rooms',
        ticketIds: [ticketId],
      })
      .expect(201);
    return body.id;
  };
  const lookOn = async (path: string): Promise<string> => {
    const { body } = await desk.technician.http
      .post(`/api/v1/${path}/looks`)
      .send({ saidBy: ILVO, ...SOUND })
      .expect(201);
    return body.items[0].id;
  };
  const mend = async (ticketId: string) => {
    await desk.technician.http
      .post(`/api/v1/tickets/${ticketId}/mendings`)
      .send({ saidBy: ILVO, mending: 'lasting', what: 'Terminals remade' })
      .expect(201);
    desk.test.clock.tick(10);
  };
  const ids = (list: { id: string }[]) => list.map(({ id }) => id).sort();

  it('are told by all mendings of the tickets that are one', async () => {
    const mended = await open();
    const visit = await visitTo(mended);
    const before = [await lookOn(`visits/${visit}`), await lookOn(`tickets/${mended}`)];
    desk.test.clock.tick(10);
    await mend(mended);
    const after = [await lookOn(`visits/${visit}`)];
    desk.test.clock.tick(10);
    const target = await reported([silent('B', 'B2')]);
    expect(target).not.toBe(mended);
    await merge(mended, target);
    // Nothing was mended since the trouble on trunk B: what was seen after the mending is of its time.
    const location = await locationOf(target);
    expect(ids(location.looksUsed.map((id: string) => ({ id })))).toEqual(after);
    expect(ids(location.looksLeftOut)).toEqual([...before].sort());
    for (const { reason } of location.looksLeftOut) expect(reason).toBe('is from before a mending');
    const { items } = await read(target, '/observations');
    const used = items.filter(({ id }: { id: string }) => location.observationsUsed.includes(id));
    expect(used).toMatchObject([{ trunk: 'B', node: 'B2' }]);
    for (const { reason } of location.observationsLeftOut)
      expect(reason).toBe('is from before a mending');
    expect(location.observationsLeftOut).toHaveLength(4);

    // Taken apart again, each has its own.
    await move(mended, 'reported').expect(201);
    expect((await locationOf(target)).observationsUsed).toHaveLength(1);
    expect((await locationOf(target)).looksLeftOut).toEqual([]);
    await move(mended, 'closed').expect(201);
  });

  it('leave a ticket’s own trouble to be explained where another was mended before it', async () => {
    const mended = await reported([silent('B', 'B1')]);
    await mend(mended);
    const target = await open();
    await merge(await reopened(mended), target);
    const reading = await taken(target, continuity('A2', 'A3', true));
    const location = await locationOf(target);
    expect(location.observationsUsed).toHaveLength(4);
    expect(location.readingsUsed).toEqual([reading]);
  });

  it('go on on a ticket that was split off after a mending, for what is read on its visits too', async () => {
    const id = await open();
    await mend(id);
    const { body } = await desk.test.http
      .post(`/api/v1/tickets/${id}/reports`)
      .send({
        ...OFFICE,
        how: 'gone-through',
        observations: [silent('A', 'A5'), silent('A', 'A6')],
      })
      .expect(201);
    expect(body.id).toBe(id);
    const { items } = await read(id, '/observations');
    const last = items.filter(({ period }: { period: number }) => period === 1);
    const { body: split } = await desk.test.http
      .post(`/api/v1/tickets/${id}/split`)
      .send({ ...OFFICE, observationIds: ids(last) })
      .expect(201);
    const visit = await visitTo(split.id);
    const look = await lookOn(`visits/${visit}`);
    expect((await locationOf(split.id)).looksUsed).toEqual([look]);
  });

  /** `open` closes what is open; a closed one is taken up again to be merged. */
  const reopened = async (ticketId: string): Promise<string> => {
    const { state } = await read(ticketId);
    if (state === 'closed') await move(ticketId, 'reported').expect(201);
    return ticketId;
  };
});
