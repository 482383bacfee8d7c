import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { ReadingsDesk, SUPPLY, UNKNOWN, volts } from './support/readings-desk.js';
import { FIRM_ID, type TestPerson } from './support/test-app.js';

const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const CONNECTORS = { name: 'connectors', quantity: 4 };

describe('a mending that was entered by mistake', () => {
  const desk = new ReadingsDesk();
  const { locationOf, move, open, read, taken } = desk;
  let ilvo: TestPerson;

  beforeAll(desk.start);
  afterAll(desk.close);
  beforeEach(async () => {
    ilvo = await desk.test.addPerson('technician', { name: 'Ilvo Marsh' });
  });

  const say = (
    id: string,
    what: string,
    body: object,
    who: { http: TestPerson['http'] } = desk.test,
  ) => who.http.post(`/api/v1/tickets/${id}/${what}`).send({ saidBy: TECHNICIAN, ...body });
  const mend = async (id: string, more: object = {}, who?: TestPerson): Promise<string> => {
    desk.test.clock.tick(5);
    const sent = { mending: 'lasting', what: 'Terminals remade', ...more };
    await say(id, 'mendings', sent, who).expect(201);
    return (await read(id, '/log')).items.at(-1).id;
  };
  const withdraw = (id: string, mending: string, more: object = {}, who?: TestPerson) =>
    say(
      id,
      `mendings/${mending}/withdraw`,
      { reason: 'It was the school next door', ...more },
      who,
    );
  const stateOf = async (id: string) => {
    const { state, followUpDueOn, stillToProve } = await read(id);
    return { state, followUpDueOn, stillToProve };
  };
  /** But for what says when it was worked out. */
  const located = async (id: string) => {
    const { readingsLeftOut: _readings, ...rest } = await locationOf(id);
    return rest;
  };

  it('is taken back: the ticket, its location, its walk and what is expected are as before, and the log says so', async () => {
    const id = await open();
    await taken(id, volts('A2', 23));
    await move(id, 'at-work').expect(201);
    const place = { kind: 'span', trunk: 'A', from: 'A2', to: 'A3' };
    await say(id, 'findings', { place, component: 'junction-in', mode: 'open-speech' }).expect(201);
    desk.test.clock.tick(1);
    const walk = () => read(id, '/walk');
    // What a page reckons with: expected faults, evidence, the walk; but for the log.
    const kit = async () => {
      const { notes: _notes, entryIds: _ids, ...rest } = await read(id, '/kit');
      return rest;
    };
    const before = {
      ...{ state: await stateOf(id), location: await located(id) },
      ...{ walk: await walk(), kit: await kit() },
    };
    expect(before.state.state).toBe('at-work');

    const mending = await mend(id);
    expect((await stateOf(id)).state).toBe('mended');
    expect(await kit()).not.toEqual(before.kit);
    desk.test.clock.tick(5);
    const { body } = await withdraw(id, mending).expect(201);
    expect(body.state).toBe('at-work');
    expect(await stateOf(id)).toEqual(before.state);
    expect(await located(id)).toEqual(before.location);
    expect(await walk()).toEqual(before.walk);
    expect(await kit()).toEqual(before.kit);
    const { items } = await read(id, '/log');
    expect(items.slice(-2)).toMatchObject([
      { id: mending, kind: 'withdrawn-mending', details: { what: 'Terminals remade' } },
      {
        kind: 'withdrawal',
        saidBy: 'Ilvo Marsh',
        details: { mendingIds: [mending], reason: 'It was the school next door' },
      },
    ]);
  });

  it('leaves what was said after it, as said before it', async () => {
    const id = await open(await desk.drawnSite(SUPPLY));
    const twin = await open(await desk.drawnSite(SUPPLY));
    const mending = await mend(id);
    for (const one of [id, twin]) await taken(one, volts('A4', 0.02));
    const without = await located(twin);
    expect((await located(id)).places).not.toEqual(without.places);
    await withdraw(id, mending).expect(201);
    expect((await located(id)).places).toEqual(without.places);
    expect((await locationOf(id)).readingsLeftOut).toEqual([]);
  });

  it('goes back to the mending before it, with its follow-up visit, and a later one stays', async () => {
    const id = await open();
    const bridged = await mend(id, { mending: 'temporary', followUpDueOn: '2026-04-01' });
    const lasting = await mend(id);
    await withdraw(id, lasting).expect(201);
    expect(await stateOf(id)).toMatchObject({ state: 'bridged', followUpDueOn: '2026-04-01' });
    const again = await mend(id);
    await withdraw(id, bridged).expect(201);
    expect(await stateOf(id)).toMatchObject({ state: 'mended', followUpDueOn: null });
    await withdraw(id, again).expect(201);
    expect(await stateOf(id)).toMatchObject({ state: 'reported', followUpDueOn: null });
  });

  it('is taken back once, with a reason, on its own ticket, while that is open', async () => {
    const id = await open();
    const mending = await mend(id);
    for (const reason of [undefined, '', ' \n', 'x'.repeat(2001)])
      expect((await withdraw(id, mending, { reason }).expect(422)).body.errors[0].field).toBe(
        '/reason',
      );
    await withdraw(id, UNKNOWN).expect(404);
    const elsewhere = await open(await desk.drawnSite(SUPPLY));
    await withdraw(elsewhere, mending).expect(404);
    const both = await Promise.all([withdraw(id, mending), withdraw(id, mending)]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
    const { body } = await withdraw(id, mending).expect(409);
    const { items } = await read(id, '/log');
    expect(body).toMatchObject({
      detail: 'This mending was withdrawn already.',
      withdrawalId: items.at(-1).id,
    });
    const other = await mend(id);
    await move(id, 'closed').expect(201);
    await withdraw(id, other).expect(409);
    await move(id, 'reported').expect(201);
    await withdraw(id, other).expect(201);
    expect((await stateOf(id)).state).toBe('reported');
  });

  it('is taken back by those who may enter it, on the record, once for the same id', async () => {
    const id = await open();
    const mending = await mend(id);
    const { body: site } = await desk.test.http.get(`/api/v1/sites/${desk.siteId}`).expect(200);
    const client = await desk.test.addPerson('client', { clientId: site.clientId });
    await withdraw(id, mending, {}, client).expect(403);
    await withdraw(id, mending, {}, await desk.test.addStranger()).expect(404);
    const own = { id: '01900000-0000-7000-8000-00000000d0df' };
    const dispatcher = await desk.test.addPerson('dispatcher');
    const first = await withdraw(id, mending, own, dispatcher).expect(201);
    const again = await withdraw(id, mending, own, dispatcher).expect(201);
    expect(again.body).toEqual(first.body);
    const { body: record } = await desk.test.http.get(`/api/v1/audit?actor=${dispatcher.id}`);
    expect(record.items).toMatchObject([
      {
        action: 'POST /api/v1/tickets/:ticketId/mendings/:mendingId/withdraw',
        target: { ticketId: id, mendingId: mending },
        outcome: 'done',
      },
    ]);
  });

  it('puts back into the van what it took out, whoever takes it back, unless the van was counted since', async () => {
    const path = `/api/v1/people/${ilvo.id}/van`;
    const count = async (quantity: number) => {
      const { body } = await desk.test.http.get(path).expect(200);
      const parts = [
        { name: 'Connectors', quantity },
        { name: '30 m of trunk cable', quantity: 1 },
      ];
      const put = desk.test.http.put(path).set('If-Match', `"${body.version}"`);
      await put.send({ parts }).expect(200);
    };
    const inVan = async () => {
      const { body } = await desk.test.http.get(path).expect(200);
      return body.parts.map((one: { name: string; quantity: number }) => [one.name, one.quantity]);
    };
    await count(6);
    const id = await open();
    const parts = [CONNECTORS, { name: 'trunk cable', quantity: 12 }];
    const mending = await mend(id, { parts }, ilvo);
    expect(await inVan()).toEqual([
      ['Connectors', 2],
      ['30 m of trunk cable', 0],
      ['18 m of trunk cable', 1],
    ]);
    await withdraw(id, mending).expect(201);
    expect(await inVan()).toEqual([
      ['Connectors', 6],
      ['30 m of trunk cable', 1],
    ]);
    // Refused the second time: nothing comes back twice.
    await withdraw(id, mending).expect(409);
    expect(await inVan()).toEqual([
      ['Connectors', 6],
      ['30 m of trunk cable', 1],
    ]);

    const other = await mend(id, { parts: [{ name: 'connectors', quantity: 9 }] }, ilvo);
    expect(await inVan()).toEqual([
      ['Connectors', 0],
      ['30 m of trunk cable', 1],
    ]);
    desk.test.clock.tick(1);
    await withdraw(id, other).expect(201);
    expect(await inVan()).toEqual([
      ['Connectors', 6],
      ['30 m of trunk cable', 1],
    ]);
    const last = await mend(id, { parts: [CONNECTORS] }, ilvo);
    desk.test.clock.tick(1);
    await count(5);
    await withdraw(id, last).expect(201);
    expect(await inVan()).toEqual([
      ['Connectors', 5],
      ['30 m of trunk cable', 1],
    ]);
    // Whoever has no van took nothing out of one.
    const typed = await mend(id, { parts: [CONNECTORS] });
    await withdraw(id, typed).expect(201);
    expect(await inVan()).toEqual([
      ['Connectors', 5],
      ['30 m of trunk cable', 1],
    ]);
  });

  it('stays in the log for good: nothing else of an entry changes, and no period goes up', async () => {
    const id = await open();
    const mending = await mend(id);
    const client = new Client({ connectionString: desk.test.ownerUrl });
    await client.connect();
    try {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const change = (sql: string) => client.query(sql, [mending]);
      for (const sql of [
        `UPDATE ticket_entries SET kind = 'note' WHERE id = $1`,
        `UPDATE ticket_entries SET kind = 'withdrawn-mending', details = '{}' WHERE id = $1`,
        `DELETE FROM ticket_entries WHERE id = $1`,
        `UPDATE observations SET period = period + 1 WHERE ticket_id =
           (SELECT ticket_id FROM ticket_entries WHERE id = $1)`,
      ])
        await expect(change(sql)).rejects.toThrow(/only grows/);
      await withdraw(id, mending).expect(201);
      await expect(
        change(`UPDATE ticket_entries SET kind = 'mending' WHERE id = $1`),
      ).rejects.toThrow(/only grows/);
    } finally {
      await client.end();
    }
  });
});
