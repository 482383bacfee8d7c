import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp, type TestPerson } from './support/test-app.js';

const OFFICE = { saidBy: { name: 'Mara Quill', kind: 'office' } };
const ILVO = { name: 'Ilvo Marsh', kind: 'technician' };
const SUPPLY = { supplyVolts: 24, supplyOhms: 0.2, stationAmps: 0.08, coreOhmsPerKm: 18.1 };
const ELECTRICAL = { sourceVolts: 24, sourceOhms: 0.2, stationAmps: 0.08, coreOhmsPerKm: 18.1 };
const UNKNOWN = '01900000-0000-7000-8000-00000000dead';

const volts = (node: string, read: number) => {
  return { kind: 'supply-volts', trunk: 'A', node, volts: read, uncertaintyVolts: 0.05 };
};
const continuity = (from: string | null, to: string, passes: boolean) => {
  return { kind: 'continuity', trunk: 'A', from, to, cores: ['supply', 'return'], passes };
};
const loop = (ohms: number) => {
  return { kind: 'loop-ohms', trunk: 'A', core: 'supply', ohms, uncertaintyOhms: 0.01 };
};

describe('readings on a ticket', () => {
  let test: TestApp;
  let technician: TestPerson;
  let siteId: string;
  let version = 0;

  beforeAll(async () => {
    test = await buildTestApp();
    technician = await test.addPerson('technician');
    siteId = await drawnSite(SUPPLY);
  });

  afterAll(() => test.close());

  /** A site of six rooms on trunk A and two on B, where the technician has a visit. */
  async function drawnSite(headEnd: object): Promise<string> {
    const { body: client } = await test.http.post('/api/v1/clients').send({ name: 'Fenmoor' });
    const site = { clientId: client.id, name: 'Larkfield Lower School', zone: 'Etc/UTC' };
    const { body } = await test.http.post('/api/v1/sites').send(site).expect(201);
    await draw(body.id, 0, headEnd, [row('A', 6), row('B', 2)]);
    const visit = { siteId: body.id, kind: 'planned', on: '2026-03-02', purpose: 'Upkeep' };
    await test.http
      .post('/api/v1/visits')
      .send({ ...visit, upkeep: true, technicianId: technician.id })
      .expect(201);
    return body.id;
  }

  async function draw(site: string, at: number, headEnd: object, trunks: object): Promise<void> {
    await test.http
      .put(`/api/v1/sites/${site}/as-built`)
      .set('If-Match', `"${at}"`)
      .send({ changedBy: 'Tester', reason: 'Drawn for the test', headEnd, trunks })
      .expect(200);
    version = at + 1;
  }

  /** Rooms 1 and 2 work, 5 and 6 are silent; nobody knows of 3 and 4. */
  const HEARD = [1, 2, 5, 6].map((room) => {
    const outcome = room < 3 ? 'works' : 'fails';
    return { trunk: 'A', node: `A${room}`, function: 'announcement', outcome };
  });

  /** A ticket about the trouble; closes what was open before, for reports join it. */
  async function open(site = siteId): Promise<string> {
    const { body: before } = await test.http.get(`/api/v1/tickets?site=${site}&open=true`);
    for (const { id } of before.items) {
      await test.http
        .post(`/api/v1/tickets/${id}/moves`)
        .send({ ...OFFICE, to: 'closed', reason: 'Another test' })
        .expect(201);
    }
    const report = { ...OFFICE, how: 'gone-through', observations: HEARD };
    const { body } = await test.http.post(`/api/v1/sites/${site}/reports`).send(report).expect(201);
    return body.tickets[0].id;
  }

  const take = (ticketId: string, reading: object, more: object = {}) =>
    technician.http
      .post(`/api/v1/tickets/${ticketId}/readings`)
      .send({ takenBy: ILVO, reading, ...more });
  const taken = async (ticketId: string, reading: object, more: object = {}): Promise<string> =>
    (await take(ticketId, reading, more).expect(201)).body.readings.at(-1).id;
  const locationOf = async (ticketId: string) =>
    (await technician.http.get(`/api/v1/tickets/${ticketId}/location`).expect(200)).body;
  const wrong = async (ticketId: string, reading: object) =>
    (await take(ticketId, reading).expect(422)).body.errors;
  const withdraw = (
    ticketId: string,
    readingId: string,
    more: object = {},
    http = technician.http,
  ) =>
    http
      .post(`/api/v1/tickets/${ticketId}/readings/${readingId}/withdraw`)
      .send({ saidBy: ILVO, reason: 'Read in Room 5', ...more });
  /** P(something at the span that feeds the node is faulty). */
  const spanTo = (location: { result: { places: never[] } }, to: string): number =>
    location.result.places.find(
      ({ place }: { place: { kind: string; to?: string } }) =>
        place.kind === 'span' && place.to === to,
    )!['probability'];

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
    return (await test.http.post('/api/v1/locate').send(request).expect(200)).body;
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
    const walk = async () =>
      (await technician.http.get(`/api/v1/tickets/${id}/walk`).expect(200)).body;
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
        reading,
        takenBy: 'Ilvo Marsh',
        takenByKind: 'technician',
        takenAt,
        recordedAt: test.clock.now().toISOString(),
        period: 0,
        withdrawal: null,
      },
    ]);
    const get = async (path: string) =>
      (await technician.http.get(`/api/v1/tickets/${id}${path}`).expect(200)).body;
    expect((await get('')).readings).toEqual(body.readings);
    expect((await get('/readings')).items).toEqual(body.readings);
    const log = (await get('/log')).items;
    expect(log.at(-1)).toMatchObject({
      id: body.readings[0].id,
      kind: 'reading',
      saidBy: 'Ilvo Marsh',
      happenedAt: takenAt,
      details: { reading, note: 'at the rack' },
    });
  });

  it('put a bad joint into words', async () => {
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        ...OFFICE,
        how: 'gone-through',
        observations: [{ trunk: 'B', node: 'B2', function: 'announcement', outcome: 'weak' }],
      })
      .expect(201);
    const id = body.tickets[0].id;
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
    await technician.http
      .post(`/api/v1/tickets/${id}/moves`)
      .send({ saidBy: ILVO, to: 'at-work', reason: 'On site' })
      .expect(201);
    await technician.http
      .post(`/api/v1/tickets/${id}/mendings`)
      .send({ saidBy: ILVO, mending: 'lasting', what: 'Terminals remade' })
      .expect(201);
    expect((await locationOf(id)).readingsUsed).toEqual([reading]);
    test.clock.tick(1);
    const early = await taken(id, volts('A4', 23.9));
    expect((await locationOf(id)).readingsLeftOut).toEqual([
      {
        id: early,
        reason: 'is from after a mending, since which nothing was said not to work',
      },
    ]);
    test.clock.tick(1);
    await test.http
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
    const merge = { ...OFFICE, into: other };
    const { body } = await test.http.post(`/api/v1/tickets/${one}/merge`).send(merge).expect(201);
    expect(body.readings).toMatchObject([{ id: reading, ticketId: other }]);
    const { body: log } = await test.http.get(`/api/v1/tickets/${other}/log`).expect(200);
    expect(log.items.at(-1)).toMatchObject({
      kind: 'merged-in',
      details: { readingIds: [reading] },
    });
    expect((await locationOf(other)).readingsUsed).toEqual([reading]);
  });

  /** About trunk B, so that it stays apart. */
  async function otherTicket(): Promise<string> {
    const observations = [{ trunk: 'B', node: 'B2', function: 'bell', outcome: 'fails' }];
    const report = { ...OFFICE, how: 'gone-through', observations };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send(report)
      .expect(201);
    return body.tickets[0].id;
  }

  it('of one person the last of the same thing stands, of two people both', async () => {
    const id = await open();
    const mistyped = await taken(id, volts('A4', 23.5));
    test.clock.tick(1);
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
    expect(await fields(volts('A1', -1))).toEqual(['/reading/volts']);
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
    const { body: ticket } = await technician.http.get(`/api/v1/tickets/${id}`).expect(200);
    expect(ticket).toMatchObject({ readings: [], version: 1 });
  });

  it('sent again with the same id are one', async () => {
    const id = await open();
    const own = '01900000-0000-7000-8000-00000000c0de';
    const first = await take(id, volts('A4', 0.02), { id: own }).expect(201);
    const again = await take(id, volts('A4', 0.02), { id: own }).expect(201);
    expect(again.body).toEqual(first.body);
    await take(id, volts('A4', 0.5), { id: own }).expect(409);
    const { body } = await technician.http.get(`/api/v1/tickets/${id}/readings`).expect(200);
    expect(body.items.map((one: { id: string }) => one.id)).toEqual([own]);
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
    expect(await wrong(id, volts('A4', -1))).toMatchObject([{ field: '/reading/volts' }]);
    await draw(bare, version, SUPPLY, [row('A', 6), row('B', 2)]);
    const after = await locationOf(id);
    expect(after.asBuiltVersion).toBe(1);
    expect(after.readingsUsed).toEqual([read, passes]);
    expect(after.readingsLeftOut).toEqual([]);
  });

  it('do not fail a location when the record’s supply cannot be', async () => {
    const bare = await drawnSite({});
    const id = await open(bare);
    const read = await taken(id, volts('A4', 12));
    await draw(bare, version, { ...SUPPLY, stationAmps: 50 }, [row('A', 6), row('B', 2)]);
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
      test.clock.tick(1);
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
      const { http } = await test.addPerson(role);
      await http.post(path).send(reading).expect(201);
    }
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`).expect(200);
    const client = await test.addPerson('client', { clientId: site.clientId });
    await client.http.post(path).send(reading).expect(403);
    expect((await client.http.get(path).expect(200)).body.items).toHaveLength(3);
    const stranger = await test.addPerson('technician');
    await stranger.http.post(path).send(reading).expect(404);
    await stranger.http.get(path).expect(404);
    await take(UNKNOWN, volts('A4', 0.02)).expect(404);
    await test.http
      .post(`/api/v1/tickets/${id}/moves`)
      .send({ ...OFFICE, to: 'closed', reason: 'Over' })
      .expect(201);
    await take(id, volts('A4', 0.02)).expect(409);
  });

  it('are withdrawn: they stay, with who, when and why, and nothing goes by them any more', async () => {
    const id = await open();
    const walk = async () =>
      (await technician.http.get(`/api/v1/tickets/${id}/walk`).expect(200)).body;
    const right = await taken(id, continuity('A2', 'A3', true));
    const before = { location: await locationOf(id), walk: await walk() };
    const misplaced = await taken(id, volts('A4', 0.02));
    expect(spanTo(await locationOf(id), 'A5')).toBeLessThan(0.02);

    test.clock.tick(5);
    const saidAt = test.clock.now().toISOString();
    test.clock.tick(1);
    const { body } = await withdraw(id, misplaced, { saidAt }).expect(201);
    const withdrawal = {
      id: expect.any(String),
      saidBy: 'Ilvo Marsh',
      saidByKind: 'technician',
      happenedAt: saidAt,
      recordedAt: test.clock.now().toISOString(),
      reason: 'Read in Room 5',
    };
    expect(body.version).toBe(4);
    expect(body.readings).toMatchObject([
      { id: right, withdrawal: null },
      { id: misplaced, reading: volts('A4', 0.02), takenBy: 'Ilvo Marsh', withdrawal },
    ]);
    const get = async (path: string) =>
      (await technician.http.get(`/api/v1/tickets/${id}${path}`).expect(200)).body;
    expect((await get('/readings')).items).toEqual(body.readings);
    const { reason, ...entry } = body.readings[1].withdrawal;
    expect((await get('/log')).items.at(-1)).toEqual({
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
    const { body: ticket } = await technician.http.get(`/api/v1/tickets/${id}`).expect(200);
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
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`).expect(200);
    const client = await test.addPerson('client', { clientId: site.clientId });
    await withdraw(id, reading, {}, client.http).expect(403);
    await withdraw(id, reading, {}, (await test.addPerson('technician')).http).expect(404);
    const own = { id: '01900000-0000-7000-8000-00000000c0df' };
    const dispatcher = await test.addPerson('dispatcher');
    const first = await withdraw(id, reading, own, dispatcher.http).expect(201);
    const again = await withdraw(id, reading, own, dispatcher.http).expect(201);
    expect(again.body).toEqual(first.body);
    expect(first.body.readings[0].withdrawal.id).toBe(own.id);
    const { body: record } = await test.http.get(`/api/v1/record?actor=${dispatcher.id}`);
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
    test.clock.tick(1);
    const reading = await taken(one, volts('A3', 0.02));
    const merge = { ...OFFICE, into: other };
    const { body } = await test.http.post(`/api/v1/tickets/${one}/merge`).send(merge).expect(201);
    expect(body.readings).toMatchObject([
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
    await technician.http
      .post(`/api/v1/tickets/${id}/moves`)
      .send({ saidBy: ILVO, to: 'at-work', reason: 'On site' })
      .expect(201);
    const client = new Client({ connectionString: test.appUrl });
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
        const update = client.query(`UPDATE ticket_readings ${sql}`);
        await expect(update).rejects.toThrow(/only grows/);
      }
      const name = `UPDATE ticket_readings SET taken_by = 'Former person 1a2b3c4d' ${of}`;
      expect((await client.query(name)).rowCount).toBe(1);
    } finally {
      await client.end();
    }
  });

  it('are not changed or deleted, whoever asks the database, but for a name that is forgotten', async () => {
    const id = await open();
    const reading = await taken(id, volts('A4', 0.02));
    const client = new Client({ connectionString: test.appUrl });
    await client.connect();
    try {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      for (const sql of [
        `UPDATE ticket_readings SET period = 9 WHERE id = '${reading}'`,
        `DELETE FROM ticket_readings WHERE id = '${reading}'`,
      ]) {
        await expect(client.query(sql)).rejects.toThrow(/only grows/);
      }
      const name = `UPDATE ticket_readings SET taken_by = 'Former person 1a2b3c4d'`;
      expect((await client.query(`${name} WHERE id = '${reading}'`)).rowCount).toBe(1);
    } finally {
      await client.end();
    }
  });
});
