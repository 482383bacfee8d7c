import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { draw } from './support/draw-site.js';
import {
  continuity,
  HEARD,
  ILVO,
  OFFICE,
  ReadingsDesk,
  spanTo,
  SUPPLY,
  TRUNKS,
  UNKNOWN,
  volts,
} from './support/readings-desk.js';
import { FIRM_ID } from './support/test-app.js';

const ELECTRICAL = { sourceVolts: 24, sourceOhms: 0.2, stationAmps: 0.08, coreOhmsPerKm: 18.1 };

const loop = (ohms: number) => {
  return { kind: 'loop-ohms', trunk: 'A', core: 'supply', ohms, uncertaintyOhms: 0.01 };
};

describe('readings on a ticket', () => {
  const desk = new ReadingsDesk();
  const { drawnSite, locationOf, merge, move, open, otherTicket, read, take, taken, withdraw } =
    desk;

  beforeAll(desk.start);
  afterAll(desk.close);

  const wrong = async (ticketId: string, reading: object) =>
    (await take(ticketId, reading).expect(422)).body.errors;

  /** What POST /locate makes of the same. */
  async function located(readings: object[]) {
    const nodes = (trunk: string, count: number) =>
      Array.from({ length: count }, (_, n) => {
        return { id: `${trunk}${n + 1}`, kind: 'station', cableMetres: 10 };
      });
    const trunks = [
      { id: 'A', nodes: nodes('A', 6) },
      { id: 'B', nodes: nodes('B', 2) },
    ];
    const informant = { id: 'office mara quill', kind: 'office' };
    const observations = HEARD.map((one) => ({ ...one, informant }));
    const { exposureDays } = await locationOf(await open());
    const request = { trunks, exposureDays, observations, electrical: ELECTRICAL, readings };
    return (await desk.test.http.post('/api/v1/locate').send(request).expect(200)).body;
  }

  it('move the place, and are the same computation as POST /locate', async () => {
    const id = await open();
    const before = await locationOf(id);
    expect(before).toMatchObject({ readingsUsed: [], readingsLeftOut: [], resistiveJoints: [] });
    for (const to of ['A3', 'A4', 'A5']) expect(spanTo(before, to)).toBeGreaterThan(0.15);

    const dead = await taken(id, volts('A4', 0.02));
    const afterVolts = await locationOf(id);
    expect(afterVolts.readingsUsed).toEqual([dead]);
    expect(spanTo(afterVolts, 'A5')).toBeLessThan(0.02);
    expect(spanTo(afterVolts, 'A3') + spanTo(afterVolts, 'A4')).toBeGreaterThan(0.95);

    const parted = await taken(id, continuity('A3', 'A4', false));
    const afterBoth = await locationOf(id);
    expect(afterBoth.readingsUsed).toEqual([dead, parted]);
    expect(afterBoth.places[0].place).toMatchObject({ kind: 'span', from: 'A3', to: 'A4' });
    expect(spanTo(afterBoth, 'A4')).toBeGreaterThan(0.95);
    expect(spanTo(afterBoth, 'A3')).toBeLessThan(0.02);

    const plain = await located([volts('A4', 0.02), continuity('A3', 'A4', false)]);
    expect(afterBoth.result.logEvidence).toBeCloseTo(plain.logEvidence, 10);
    for (const { place, probability } of plain.places) {
      const same = afterBoth.result.places.find(
        (one: { place: object }) => JSON.stringify(one.place) === JSON.stringify(place),
      );
      expect(same.probability).toBeCloseTo(probability, 10);
    }
  });

  it('are planned with on the walk', async () => {
    const id = await open();
    const walk = () => read(id, '/walk');
    const before = await walk();
    expect(before.readingsUsed).toEqual([]);
    const readings = [await taken(id, volts('A4', 0.02))];
    readings.push(await taken(id, continuity('A3', 'A4', false)));
    const after = await walk();
    expect(after.readingsUsed).toEqual(readings);
    expect(after.next).toMatchObject({ kind: 'open' });
    expect(after.next.words).toMatch(/Room 3 OUT|Room 4 IN/);
    expect(after.expectedMinutes).toBeLessThan(before.expectedMinutes);
  });

  it('are in the ticket, its list and its log', async () => {
    const id = await open();
    const takenAt = '2026-03-02T07:50:00.000Z';
    const reading = loop(0.5);
    const { body } = await take(id, reading, { takenAt, note: 'at the rack' }).expect(201);
    expect(body.readings).toEqual([
      {
        id: expect.any(String),
        ticketId: id,
        visitId: null,
        kind: 'loop-ohms',
        trunk: 'A',
        node: null,
        place: null,
        core: 'supply',
        entered: null,
        value: 0.5,
        unit: 'ohm',
        uncertainty: 0.01,
        reading,
        note: 'at the rack',
        takenBy: 'Ilvo Marsh',
        takenByKind: 'technician',
        takenAt,
        recordedAt: desk.test.clock.now().toISOString(),
        period: 0,
        withdrawal: null,
      },
    ]);
    expect((await read(id)).readings).toEqual(body.readings);
    expect((await read(id, '/readings')).items).toEqual(body.readings);
    const log = (await read(id, '/log')).items;
    expect(log.at(-1)).toMatchObject({
      id: body.readings[0].id,
      kind: 'reading',
      saidBy: 'Ilvo Marsh',
      happenedAt: takenAt,
      details: { reading, note: 'at the rack' },
    });
  });

  it('put a bad joint into words', async () => {
    const weak = { trunk: 'B', node: 'B2', function: 'announcement', outcome: 'weak' };
    const id = await desk.reported([weak]);
    await taken(id, { ...volts('B1', 23.9), trunk: 'B' });
    const low = await taken(id, { ...volts('B2', 20.1), trunk: 'B' });
    const { resistiveJoints, result } = await locationOf(id);
    expect(resistiveJoints.length).toBeGreaterThan(0);
    expect(resistiveJoints[0].words).toMatch(
      /^a bad joint in the terminals at Room [12] (IN|OUT) on trunk B, about \d+ ohm \(\d+ to \d+\), \d+ %$/,
    );
    const { words, ...first } = resistiveJoints[0];
    expect(words).toContain(`${Math.round(first.probability * 100)} %`);
    expect(result.resistiveJoints[0].candidates[0]).toEqual(first);
    await withdraw(id, low).expect(201);
    expect((await locationOf(id)).resistiveJoints).toEqual([]);
  });

  it('end with a mending', async () => {
    const id = await open();
    const reading = await taken(id, volts('A4', 0.02));
    await move(id, 'at-work').expect(201);
    await desk.technician.http
      .post(`/api/v1/tickets/${id}/mendings`)
      .send({ saidBy: ILVO, mending: 'lasting', what: 'Terminals remade' })
      .expect(201);
    expect((await locationOf(id)).readingsUsed).toEqual([reading]);
    desk.test.clock.tick(1);
    const early = await taken(id, volts('A4', 23.9));
    expect((await locationOf(id)).readingsLeftOut).toEqual([
      {
        id: early,
        reason: 'is from after a mending, since which nothing was said not to work',
      },
    ]);
    desk.test.clock.tick(1);
    await desk.test.http
      .post(`/api/v1/tickets/${id}/reports`)
      .send({ ...OFFICE, how: 'gone-through', observations: HEARD })
      .expect(201);
    const after = await locationOf(id);
    expect(after.readingsUsed).toEqual([early]);
    expect(after.readingsLeftOut).toEqual([{ id: reading, reason: 'is from before a mending' }]);
  });

  it('go along when a ticket is merged', async () => {
    const one = await open();
    const other = await otherTicket();
    const reading = await taken(one, volts('A4', 0.02));
    expect((await merge(one, other)).readings).toMatchObject([{ id: reading, ticketId: other }]);
    const log = await read(other, '/log');
    expect(log.items.at(-1)).toMatchObject({
      kind: 'merged-in',
      details: { readingIds: [reading] },
    });
    expect((await locationOf(other)).readingsUsed).toEqual([reading]);
  });

  /** Undoes a merge. */
  const takeBack = async (ticketId: string) => (await move(ticketId, 'reported').expect(201)).body;
  const readingsOf = async (ticketId: string): Promise<string[]> =>
    (await read(ticketId)).readings.map(({ id }: { id: string }) => id);

  it('come back when a merge is undone, those that were withdrawn too', async () => {
    const one = await open();
    const withdrawn = await taken(one, volts('A5', 0.02));
    await withdraw(one, withdrawn).expect(201);
    desk.test.clock.tick(1);
    const reading = await taken(one, volts('A4', 0.02));
    desk.test.clock.tick(1);
    const later = await taken(one, volts('A3', 0.02));
    const other = await otherTicket();
    const own = await taken(other, { ...volts('B1', 23.9), trunk: 'B' });
    await merge(one, other);
    await withdraw(other, later).expect(201);
    expect((await takeBack(one)).readings).toMatchObject([
      { id: withdrawn, ticketId: one, withdrawal: { reason: 'Read in Room 5' } },
      { id: reading, ticketId: one, withdrawal: null },
      { id: later, ticketId: one, withdrawal: { reason: 'Read in Room 5' } },
    ]);
    expect((await locationOf(one)).readingsUsed).toEqual([reading]);
    expect(await readingsOf(other)).toEqual([own]);
    const log = await read(other, '/log');
    expect(log.items.find(({ kind }: { kind: string }) => kind === 'split-off')).toMatchObject({
      details: { otherTicketId: one, readingIds: [withdrawn, reading, later] },
    });
  });

  async function splitOff(ticketId: string, room: string): Promise<string> {
    const { items } = await read(ticketId, '/observations');
    const { id } = items.find(({ node }: { node: string }) => node === room);
    const split = { ...OFFICE, observationIds: [id] };
    const path = `/api/v1/tickets/${ticketId}/split`;
    return (await desk.test.http.post(path).send(split).expect(201)).body.id;
  }

  it('come back as they went, from wherever a merge of merges took them', async () => {
    const first = await open();
    const third = await splitOff(first, 'A5');
    const ofFirst = await taken(first, volts('A4', 0.02));
    const second = await otherTicket();
    const ofSecond = await taken(second, { ...volts('B1', 23.9), trunk: 'B' });
    await merge(first, second);
    await merge(second, third);
    const trunks = async (id: string) => (await read(id)).trunks;

    await takeBack(second);
    expect(await readingsOf(second)).toEqual([ofFirst, ofSecond]);
    expect(await trunks(second)).toEqual(['A', 'B']);
    await merge(second, third);
    await takeBack(first);
    expect(await readingsOf(first)).toEqual([ofFirst]);
    expect(await trunks(first)).toEqual(['A']);
    await takeBack(second);
    expect(await readingsOf(second)).toEqual([ofSecond]);
    expect(await trunks(second)).toEqual(['B']);
    expect(await readingsOf(third)).toEqual([]);
    expect(await trunks(third)).toEqual(['A']);
  });

  it('of one person the last of the same thing stands, of two people both', async () => {
    const id = await open();
    const mistyped = await taken(id, volts('A4', 23.5));
    desk.test.clock.tick(1);
    const corrected = await taken(id, volts('A4', 0.02));
    const second = await taken(id, volts('A4', 0.03), {
      takenBy: { name: 'Tavi Rook', kind: 'technician' },
    });
    const { readingsUsed, readingsLeftOut } = await locationOf(id);
    expect([...readingsUsed].sort()).toEqual([corrected, second].sort());
    expect(readingsLeftOut).toEqual([
      { id: mistyped, reason: 'was taken again by the same person' },
    ]);
  });

  it('are refused with what cannot be, by field, and nothing is kept', async () => {
    const id = await open();
    const fields = async (reading: object) =>
      (await wrong(id, reading)).map(({ field }: { field: string }) => field);
    expect(await fields(volts('A9', 20))).toEqual(['/reading/node']);
    expect(await fields({ ...volts('A1', 20), trunk: 'Z' })).toEqual(['/reading/trunk']);
    expect(await fields(volts('A1', -37))).toEqual(['/reading/volts']);
    expect(await fields(volts('A1', 37))).toEqual(['/reading/volts']);
    expect(await fields({ ...volts('A1', 20), uncertaintyVolts: 0 })).toEqual([
      '/reading/uncertaintyVolts',
    ]);
    // 60 m of cable are 2.2 ohm there and back; a meter reads up to half as much again.
    expect(await fields(loop(4.4))).toEqual(['/reading/ohms']);
    expect(await fields(continuity('A4', 'A3', true))).toEqual(['/reading/from']);
    expect(await fields({ ...continuity('A3', 'A4', true), cores: [] })).toEqual([
      '/reading/cores',
    ]);
    expect(await fields({ kind: 'smell', trunk: 'A' })).toEqual(['/reading/kind']);
    expect(await fields({ ...loop(1), node: 'A1' })).toEqual(['/reading/node']);
    const body = async (more: object) =>
      (await take(id, loop(1), more).expect(422)).body.errors.map(
        ({ field }: { field: string }) => field,
      );
    expect(await body({ takenAt: '2027-01-01T00:00:00Z' })).toEqual(['/takenAt']);
    expect(await body({ takenBy: undefined })).toEqual(['/takenBy']);
    expect(await body({ reading: 'none' })).toEqual(['/reading']);
    expect(await body({ colour: 'red' })).toEqual(['/colour']);
    const ticket = await read(id);
    expect(ticket).toMatchObject({ readings: [], version: 1 });
  });

  it('sent again with the same id are one', async () => {
    const id = await open();
    const own = '01900000-0000-7000-8000-00000000c0de';
    const first = await take(id, volts('A4', 0.02), { id: own }).expect(201);
    const again = await take(id, volts('A4', 0.02), { id: own }).expect(201);
    expect(again.body).toEqual(first.body);
    await take(id, volts('A4', 0.5), { id: own }).expect(409);
    const { items } = await read(id, '/readings');
    expect(items.map((one: { id: string }) => one.id)).toEqual([own]);
  });

  it('without the supply in the record are kept, left out, and used once it is there', async () => {
    const bare = await drawnSite({ supplyVolts: 24 });
    const id = await open(bare);
    const read = await taken(id, volts('A4', 0.02));
    const passes = await taken(id, continuity('A3', 'A4', true));
    const before = await locationOf(id);
    expect(before.readingsUsed).toEqual([passes]);
    expect(before.readingsLeftOut).toEqual([
      {
        id: read,
        reason:
          'needs what the as-built record does not say: supplyOhms, stationAmps, coreOhmsPerKm of the head-end',
      },
    ]);
    expect(await wrong(id, volts('A4', -1501))).toMatchObject([{ field: '/reading/volts' }]);
    await draw(desk.test, { siteId: bare, version: 1, headEnd: SUPPLY, trunks: TRUNKS });
    const after = await locationOf(id);
    expect(after.asBuiltVersion).toBe(1);
    expect(after.readingsUsed).toEqual([read, passes]);
    expect(after.readingsLeftOut).toEqual([]);
  });

  it('do not fail a location when the record’s supply cannot be', async () => {
    const bare = await drawnSite({});
    const id = await open(bare);
    const read = await taken(id, volts('A4', 12));
    const headEnd = { ...SUPPLY, stationAmps: 50 };
    await draw(desk.test, { siteId: bare, version: 1, headEnd, trunks: TRUNKS });
    const { readingsLeftOut, readingsUsed } = await locationOf(id);
    expect(readingsUsed).toEqual([]);
    expect(readingsLeftOut).toEqual([
      { id: read, reason: expect.stringMatching(/^the supply collapses on trunk "A"/) },
    ]);
    expect(await wrong(id, volts('A3', 12))).toEqual([
      { field: '/reading', reason: expect.stringMatching(/^the supply collapses on trunk "A"/) },
    ]);
  });

  it('beyond what the locator takes leave out the oldest', async () => {
    const id = await open();
    const first = await taken(id, loop(0.5));
    for (let person = 0; person < 6; person++) {
      desk.test.clock.tick(1);
      await taken(id, loop(0.5), { takenBy: { name: `Person ${person}`, kind: 'technician' } });
    }
    const { readingsUsed, readingsLeftOut } = await locationOf(id);
    expect(readingsUsed).toHaveLength(6);
    expect(readingsLeftOut).toEqual([{ id: first, reason: expect.stringContaining('at most 6') }]);
  });

  it('are for those who may, on tickets that are open', async () => {
    const id = await open();
    const reading = { takenBy: ILVO, reading: volts('A4', 0.02) };
    const path = `/api/v1/tickets/${id}/readings`;
    for (const role of ['owner', 'dispatcher', 'contract-manager'] as const) {
      const { http } = await desk.test.addPerson(role);
      await http.post(path).send(reading).expect(201);
    }
    const { body: site } = await desk.test.http.get(`/api/v1/sites/${desk.siteId}`).expect(200);
    const client = await desk.test.addPerson('client', { clientId: site.clientId });
    await client.http.post(path).send(reading).expect(403);
    expect((await client.http.get(path).expect(200)).body.items).toHaveLength(3);
    const stranger = await desk.test.addStranger();
    await stranger.http.post(path).send(reading).expect(404);
    await stranger.http.get(path).expect(404);
    await take(UNKNOWN, volts('A4', 0.02)).expect(404);
    await move(id, 'closed').expect(201);
    await take(id, volts('A4', 0.02)).expect(409);
  });

  it('are not changed or deleted, whoever asks the database, but for a name that is forgotten', async () => {
    const id = await open();
    const reading = await taken(id, volts('A4', 0.02));
    const client = new Client({ connectionString: desk.test.appUrl });
    await client.connect();
    try {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      for (const sql of [
        `UPDATE readings SET period = 9 WHERE id = '${reading}'`,
        `DELETE FROM readings WHERE id = '${reading}'`,
      ]) {
        await expect(client.query(sql)).rejects.toThrow(/only grows/);
      }
      const name = `UPDATE readings SET taken_by = 'Former person 1a2b3c4d'`;
      expect((await client.query(`${name} WHERE id = '${reading}'`)).rowCount).toBe(1);
    } finally {
      await client.end();
    }
  });
});
