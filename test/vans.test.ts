import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { statementsOf } from './support/count-statements.js';
import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

/** A Wednesday. */
const DAY = '2026-03-04';
const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:00' }));
const HOME = { startLatitude: 47.1, startLongitude: -28.4 };

describe('what is in the vans', () => {
  let test: TestApp;
  let ilvo: TestPerson;
  let sanna: TestPerson;
  let ticket: { id: string; number: number };

  const put = (who: TestPerson, of: TestPerson, version: number, parts: unknown) =>
    who.http.put(`/api/v1/people/${of.id}/van`).set('If-Match', `"${version}"`).send({ parts });
  const read = async (of: TestPerson) =>
    (await test.http.get(`/api/v1/people/${of.id}/van`).expect(200)).body;
  const plan = async () => {
    const { body } = await test.http.post(`/api/v1/plans/days/${DAY}`).expect(201);
    expect(body).toMatchObject({ isProven: true, undone: [] });
    const [route] = body.routes;
    return { who: route.technicianId as string, job: route.jobs[0], cost: body.cost as number };
  };

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    sanna = await test.addPerson('technician', { name: 'Sanna Threlk' });
    for (const { id } of [ilvo, sanna]) {
      const time = { hours: WEEK, ...HOME };
      const path = `/api/v1/people/${id}/working-time`;
      await test.http.put(path).set('If-Match', '"0"').send(time).expect(200);
    }
    const site = await drawSite(test, [row('A', 6)]);
    const place = { latitude: 47.2, longitude: -28.4 };
    await test.http.patch(`/api/v1/sites/${site}`).set('If-Match', '"1"').send(place).expect(200);
    const outcome = (room: number) => (room < 4 ? 'works' : 'fails');
    const { body } = await test.http.post(`/api/v1/sites/${site}/reports`).send({
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: [1, 2, 3, 4, 5, 6].map((room) => ({
        trunk: 'A',
        node: `A${room}`,
        function: 'bell',
        outcome: outcome(room),
      })),
    });
    [ticket] = body.tickets;
  });

  afterAll(() => test.close());

  it('make no difference while nobody said anything; parts to take along are told all the same', async () => {
    expect(await read(ilvo)).toEqual({
      personId: ilvo.id,
      name: 'Ilvo Marsh',
      parts: [],
      version: 0,
    });
    const { job } = await plan();
    expect(job.parts[0]).toMatchObject({ name: 'connectors', isInVan: null });
    expect(job).not.toHaveProperty('secondTripChance');
    expect(job.instead).toMatchObject({ extraMinutes: 0 });
    expect(job.instead).not.toHaveProperty('secondTripChance');
  });

  it('decide who goes where all else is equal, by the chance of a second trip', async () => {
    const { body: walk } = await test.http.get(`/api/v1/tickets/${ticket.id}/walk`).expect(200);
    const every = walk.parts.map(({ id }: { id: string }) => ({ name: id, quantity: 1 }));
    const { body: times } = await test.http.get('/api/v1/work-times').expect(200);
    const secondTrip = times.items.find(({ name }: { name: string }) => name === 'secondTrip');
    const before = await plan();
    const missing: number = walk.neededTogether.reduce(
      (sum: number, { chance }: { chance: number }) => sum + chance,
      0,
    );
    expect(missing).toBeGreaterThan(0.3);
    // Each in turn has all of it, and the other an empty van.
    for (const [version, has, other] of [
      [0, ilvo, sanna],
      [1, sanna, ilvo],
    ] as const) {
      await put(test.owner, has, version, every).expect(200);
      await put(test.owner, other, version, []).expect(200);
      const { who, job, cost } = await plan();
      expect(who).toBe(has.id);
      expect(cost).toBe(before.cost);
      expect(job.secondTripChance).toBe(0);
      for (const part of job.parts) expect(part.isInVan).toBe(true);
      expect(job.instead).toEqual({
        technicianId: other.id,
        extraMinutes: Math.round(missing * secondTrip.minutes),
        secondTripChance: expect.closeTo(missing, 9),
      });
    }
  });

  it('rule nobody out: with two empty ones somebody goes, and is told what to load', async () => {
    await put(test.owner, sanna, 2, []).expect(200);
    const { job } = await plan();
    expect(job.secondTripChance).toBeGreaterThan(0.3);
    for (const part of job.parts) expect(part.isInVan).toBe(false);
  });

  it('stand on the job sheet of who goes', async () => {
    const { body: visit } = await test.http
      .post('/api/v1/visits')
      .send({
        siteId: (await test.http.get(`/api/v1/tickets/${ticket.id}`)).body.siteId,
        kind: 'call-out',
        on: '2026-03-03',
        purpose: 'Rooms silent',
        ticketIds: [ticket.id],
      })
      .expect(201);
    const sheet = `/api/v1/visits/${visit.id}/job-sheet`;
    const inVan = async () => {
      const { body } = await test.http.get(sheet).expect(200);
      const [part] = body.tickets[0].parts;
      expect(part.id).toBe('connectors');
      return part.isInVan;
    };
    expect(await inVan()).toBeNull();
    await test.http
      .patch(`/api/v1/visits/${visit.id}`)
      .set('If-Match', `"${visit.version}"`)
      .send({ technicianId: ilvo.id })
      .expect(200);
    expect(await inVan()).toBe(false);
    await put(test.owner, ilvo, 2, [{ name: 'CONNECTORS', quantity: 3 }]).expect(200);
    expect(await inVan()).toBe(true);
    await test.http
      .post(`/api/v1/visits/${visit.id}/moves`)
      .send({ to: 'called-off', by: 'Mara Quill', reason: 'Exams' })
      .expect(201);
  });

  it('are seen and corrected by planners, and by technicians each their own', async () => {
    const dispatcher = await test.addPerson('dispatcher');
    const manager = await test.addPerson('contract-manager');
    const parts = [{ name: 'connectors', quantity: 12 }];
    await put(dispatcher, ilvo, 3, parts).expect(200);
    await put(ilvo, ilvo, 4, [...parts, { name: 'fuse for an output', quantity: 2 }]).expect(200);
    await put(ilvo, sanna, 3, parts).expect(404);
    await put(manager, ilvo, 5, parts).expect(403);
    const path = `/api/v1/people/${ilvo.id}/van`;
    await sanna.http.get(path).expect(404);
    await manager.http.get(path).expect(200);
    const { body } = await ilvo.http.get(path).expect(200);
    expect(body).toMatchObject({ version: 5, parts: [{ quantity: 12 }, { quantity: 2 }] });
    const stranger = await test.addStranger();
    await stranger.http.get(path).expect(404);
    // Two at once: one is stale.
    const both = await Promise.all([put(ilvo, ilvo, 5, parts), put(dispatcher, ilvo, 5, [])]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 412]);
    const first = await test.addPerson('technician');
    const begun = await Promise.all([put(first, first, 0, []), put(dispatcher, first, 0, parts)]);
    expect(begun.map(({ status }) => status).sort()).toEqual([200, 412]);
    await put(first, first, 7, parts).expect(412);
  });

  it('name what is wrong, and how much is too much', async () => {
    const wrong = async (parts: unknown) =>
      (await put(test.owner, sanna, 3, parts).expect(422)).body;
    const fields = async (parts: unknown) =>
      (await wrong(parts)).errors.map(({ field }: { field: string }) => field);
    const some = (count: number) =>
      Array.from({ length: count }, (_, index) => ({ name: `part ${index}`, quantity: 1 }));
    expect(await fields(some(201))).toEqual(['/parts']);
    expect(await fields(some(400))).toEqual(['/parts']);
    expect(await fields(null)).toEqual(['/parts']);
    expect(
      await fields([
        { name: 'connectors', quantity: 10_000 },
        { name: 'fuse', quantity: -1 },
        { name: ' ', quantity: 1.5 },
        { name: 'x'.repeat(201), quantity: 0 },
      ]),
    ).toEqual([
      '/parts/0/quantity',
      '/parts/1/quantity',
      '/parts/2/name',
      '/parts/2/quantity',
      '/parts/3/name',
    ]);
    const twice = [
      { name: 'station unit RS-2', quantity: 1 },
      { name: 'Station unit  RS 2', quantity: 1 },
    ];
    expect((await wrong(twice)).errors).toEqual([
      { field: '/parts/1/name', reason: 'is there already' },
    ]);
    await put(test.owner, sanna, 3, some(200)).expect(200);
    expect((await read(sanna)).parts).toHaveLength(200);
    const { body } = await put(test.owner, test.owner, 0, []).expect(422);
    expect(body.errors).toEqual([{ field: 'personId', reason: 'must be a technician' }]);
    await test.http.get('/api/v1/people/01900000-0000-7000-8000-00000000dead/van').expect(404);
  });

  it('are fewer once the technician says what was used, once, and not what was used before they were counted', async () => {
    const stock = async (of: TestPerson) => {
      const { parts, version } = await read(of);
      const counts = parts.map((part: { name: string; quantity: number }) => part.quantity);
      return { version: version as number, counts: counts as number[] };
    };
    const mend = (who: TestPerson, more: object = {}) =>
      who.http.post(`/api/v1/tickets/${ticket.id}/mendings`).send({
        saidBy: { name: 'Ilvo Marsh', kind: 'technician' },
        mending: 'lasting',
        what: 'Terminals remade',
        parts: [
          { name: 'Connectors', quantity: 4 },
          { name: 'fuse for an output', quantity: 9 },
          { name: 'lamp', quantity: 1 },
        ],
        ...more,
      });
    test.clock.tick(60);
    const before = await stock(ilvo);
    await put(test.owner, ilvo, before.version, [
      { name: 'connectors', quantity: 12 },
      { name: 'fuse for an output', quantity: 2 },
    ]).expect(200);
    const other = await stock(sanna);
    const version = before.version + 1;
    // Sent in afterwards: the count knows it already.
    await mend(ilvo, { saidAt: '2026-03-02T08:00:00Z' }).expect(201);
    expect(await stock(ilvo)).toEqual({ version, counts: [12, 2] });
    // The same twice, as a phone without signal sends it.
    const id = '01964f3e-5c3a-7a84-9d5e-0d6f4a8c1b2e';
    await mend(ilvo, { id }).expect(201);
    await mend(ilvo, { id }).expect(201);
    expect(await stock(ilvo)).toEqual({ version: version + 1, counts: [8, 0] });
    // Refused as a whole: nothing is taken.
    await mend(ilvo, { mending: 'temporary' }).expect(422);
    // Who has no van takes nothing from anybody's.
    await mend(test.owner).expect(201);
    expect(await stock(ilvo)).toEqual({ version: version + 1, counts: [8, 0] });
    expect(await stock(sanna)).toEqual(other);
    // Two at once are both counted.
    const both = await Promise.all([mend(ilvo), mend(ilvo)]);
    expect(both.map(({ status }) => status)).toEqual([201, 201]);
    expect(await stock(ilvo)).toEqual({ version: version + 3, counts: [0, 0] });
    // Nothing is left of it: nothing changes, and whoever types is not disturbed.
    await mend(ilvo).expect(201);
    expect(await stock(ilvo)).toEqual({ version: version + 3, counts: [0, 0] });
  });

  it('are read in one statement, however many technicians there are', async () => {
    const make = () => test.http.post(`/api/v1/plans/days/${DAY}`).expect(201);
    const before = await statementsOf(test.app, make);
    expect(before.filter((text) => text.includes('van_stocks'))).toHaveLength(1);
    for (const name of ['Jory Wicke', 'Bea Orne', 'Runa Feld']) {
      const { id } = await test.addPerson('technician', { name });
      const path = `/api/v1/people/${id}`;
      const asked = [
        test.http.put(`${path}/working-time`).send({ hours: WEEK, ...HOME }),
        test.http.put(`${path}/van`).send({ parts: [] }),
      ];
      for (const one of asked) await one.set('If-Match', '"0"').expect(200);
    }
    const after = await statementsOf(test.app, make);
    expect(after).toHaveLength(before.length);
  });
});
