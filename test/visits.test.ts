import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client as Database } from 'pg';

import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const CLIENT = '01900000-0000-7000-8000-00000000c001';
const SITE = '01900000-0000-7000-8000-00000000d001';
const OTHER_SITE = '01900000-0000-7000-8000-00000000d002';
const ILVO = '01900000-0000-7000-8000-00000000a001';
const SANNA = '01900000-0000-7000-8000-00000000a002';
const VISIT = '01900000-0000-7000-8000-00000000e001';
const NOBODY = '01900000-0000-7000-8000-00000000dead';
const PLANNED = {
  siteId: SITE,
  kind: 'planned',
  on: '2026-03-04',
  purpose: 'Upkeep',
  upkeep: true,
};
const DRAWING = {
  changedBy: 'Ilvo Marsh',
  reason: 'Installed',
  headEnd: {},
  trunks: [{ trunk: 'A', nodes: [{ node: 'A1', cableMetres: 9 }] }],
};

describe('visits', () => {
  let test: TestApp;
  let ticketId: string;
  let ticketElsewhere: string;

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const get = async (path: string, status = 200) =>
    (await test.http.get(`/api/v1/${path}`).expect(status)).body;
  const patch = (id: string, version: number, body: object) =>
    test.http.patch(`/api/v1/visits/${id}`).set('If-Match', `"${version}"`).send(body);

  async function openTicket(siteId: string): Promise<string> {
    await test.http
      .put(`/api/v1/sites/${siteId}/as-built`)
      .set('If-Match', '"0"')
      .send(DRAWING)
      .expect(200);
    const { tickets } = await post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A1', function: 'bell', outcome: 'fails' }],
    });
    return tickets[0].id as string;
  }

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    await post('people', { id: ILVO, name: 'Ilvo Marsh', work: 'technician' });
    await post('people', { id: SANNA, name: 'Sanna Threlk', work: 'technician' });
    await post('clients', { id: CLIENT, name: 'Tarrowmark Schools Board' });
    for (const [id, name] of [
      [SITE, 'Hebberlo Lower School'],
      [OTHER_SITE, 'Ottring Nursery'],
    ]) {
      await post('sites', { id, clientId: CLIENT, name, zone: 'Europe/Lisbon' });
    }
    ticketId = await openTicket(SITE);
    ticketElsewhere = await openTicket(OTHER_SITE);
  });

  afterAll(() => test.close());

  it('plans a visit, and answers a repeat of the same as the first time', async () => {
    const body = { ...PLANNED, id: VISIT, ticketIds: [ticketId] };
    const first = await test.http.post('/api/v1/visits').send(body).expect(201);
    expect(first.body).toEqual({
      ...body,
      technicianId: null,
      fromTime: null,
      untilTime: null,
      travelMinutes: null,
      state: 'planned',
      moves: ['under-way', 'missed', 'called-off'],
      workDone: null,
      startedAt: null,
      finishedAt: null,
      version: 1,
      createdAt: '2026-03-02T08:00:00.000Z',
    });
    expect(first.headers['etag']).toBe('"1"');
    test.clock.tick(5);
    expect(await post('visits', body)).toEqual(first.body);
    expect(await get(`visits/${VISIT}`)).toEqual(first.body);
    await post('visits', { ...body, purpose: 'Another' }, 409);
    await get(`visits/${NOBODY}`, 404);
  });

  it('names every reference that is not there, and what else is wrong', async () => {
    const errorsOf = async (more: object) =>
      (await post('visits', { ...PLANNED, ...more }, 422)).errors;
    expect(await errorsOf({ siteId: NOBODY })).toEqual([
      { field: '/siteId', reason: `There is no site ${NOBODY}.` },
    ]);
    expect(await errorsOf({ technicianId: NOBODY })).toEqual([
      { field: '/technicianId', reason: `There is no person ${NOBODY}.` },
    ]);
    expect(await errorsOf({ ticketIds: [ticketId, NOBODY] })).toEqual([
      { field: '/ticketIds/1', reason: `There is no ticket ${NOBODY}.` },
    ]);
    expect(await errorsOf({ ticketIds: [ticketElsewhere] })).toEqual([
      { field: '/ticketIds/0', reason: 'ticket 2 is of another site' },
    ]);
    expect(await errorsOf({ upkeep: false })).toEqual([
      {
        field: '/ticketIds',
        reason: 'a visit is for upkeep, for at least one ticket, or for both',
      },
    ]);
    expect(await errorsOf({ on: '2026-02-30', kind: 'tour', purpose: '' })).toEqual([
      { field: '/kind', reason: 'must be one of the following values: planned, call-out' },
      { field: '/on', reason: 'must be a day written year-month-day, such as 2026-05-04' },
      { field: '/purpose', reason: 'should not be empty' },
    ]);
  });

  it('changes what is planned by a merge patch with the version that was read', async () => {
    await test.http.patch(`/api/v1/visits/${VISIT}`).send({ on: '2026-03-05' }).expect(428);
    const moved = { on: '2026-03-05', technicianId: ILVO };
    const unsaid = await patch(VISIT, 1, moved).expect(422);
    expect(unsaid.body.errors[0].field).toBe('/reason');
    const reason = 'Ilvo is free on Thursday';
    const { body } = await patch(VISIT, 1, { ...moved, reason }).expect(200);
    expect(body).toMatchObject({ on: '2026-03-05', technicianId: ILVO, version: 2 });
    expect(body.ticketIds).toEqual([ticketId]);
    await patch(VISIT, 1, { purpose: 'Late' }).expect(412);
    const refused = await patch(VISIT, 2, { siteId: OTHER_SITE, upkeep: false, ticketIds: [] });
    expect(refused.status).toBe(422);
    expect(refused.body.errors).toEqual([{ field: '/siteId', reason: 'is not a field here' }]);
    const upkeepOnly = await patch(VISIT, 2, { ticketIds: null }).expect(200);
    expect(upkeepOnly.body.ticketIds).toEqual([]);
    const both = await patch(VISIT, 3, { ticketIds: [ticketId] }).expect(200);
    expect(await get(`visits/${VISIT}`)).toEqual(both.body);
  });

  it('moves as the lifecycle says, and keeps who, when and why', async () => {
    const moves = `visits/${VISIT}/moves`;
    const by = 'Ilvo Marsh';
    const refused = await post(moves, { to: 'done', by, workDone: 'All heard' }, 409);
    expect(refused).toMatchObject({
      type: 'urn:lastheard:problem:move-not-allowed',
      from: 'planned',
      to: 'done',
      allowed: ['under-way', 'missed', 'called-off'],
    });
    const start = { id: '01900000-0000-7000-8000-00000000f001', to: 'under-way', by };
    const ahead = await post(moves, { to: 'under-way', by, at: '2026-03-05T08:00:00Z' }, 422);
    expect(ahead.errors).toEqual([{ field: '/at', reason: 'is in the future' }]);
    test.clock.tick(4 * 24 * 60);
    const started = await post(moves, { ...start, at: '2026-03-05T08:00:00Z' });
    expect(started).toMatchObject({
      state: 'under-way',
      moves: ['done', 'planned'],
      startedAt: '2026-03-05T08:00:00.000Z',
      version: 5,
    });
    expect(await post(moves, { ...start, at: '2026-03-05T08:00:00Z' })).toEqual(started);
    const unnamed = await patch(VISIT, 5, { technicianId: null }).expect(422);
    expect(unnamed.body.errors[0].field).toBe('/technicianId');

    await post(moves, { to: 'planned', by, at: '2026-03-05T08:10:00Z', reason: 'Nobody there' });
    expect(await get(`visits/${VISIT}`)).toMatchObject({ state: 'planned', startedAt: null });
    await post(moves, { to: 'under-way', by, at: '2026-03-05T12:00:00Z' });
    const confirmed = ['not-all-heard'];
    const done = { to: 'done', by, at: '2026-03-05T13:30:00Z', confirmed };
    const unsaid = await post(moves, { ...done, workDone: ' ' }, 422);
    expect(unsaid.errors[0].field).toBe('/workDone');
    const early = { ...done, workDone: 'All heard', at: '2026-03-05T11:59:00Z' };
    expect((await post(moves, early, 422)).errors).toEqual([
      { field: '/at', reason: 'is before the visit began, at 2026-03-05T12:00:00.000Z' },
    ]);
    expect(await post(moves, { ...done, workDone: 'All rooms heard' })).toMatchObject({
      state: 'done',
      moves: [],
      workDone: 'All rooms heard',
      startedAt: '2026-03-05T12:00:00.000Z',
      finishedAt: '2026-03-05T13:30:00.000Z',
      version: 8,
    });

    await post(moves, { to: 'planned', by }, 409);
    await patch(VISIT, 8, { purpose: 'Rewritten' }).expect(409);
    const { items, changes } = await get(`visits/${VISIT}/log`);
    expect(changes).toMatchObject([
      {
        reason: 'Ilvo is free on Thursday',
        wasOn: '2026-03-04',
        on: '2026-03-05',
        visitVersion: 2,
      },
    ]);
    expect(items.map((item: object) => Object.values(item).slice(2, 4))).toEqual([
      ['planned', 'under-way'],
      ['under-way', 'planned'],
      ['planned', 'under-way'],
      ['under-way', 'done'],
    ]);
    expect(items[0].id).toBe(start.id);
    expect(items[1]).toMatchObject({
      movedBy: by,
      movedAt: '2026-03-05T08:10:00.000Z',
      recordedAt: '2026-03-06T08:05:00.000Z',
      reason: 'Nobody there',
    });
  });

  it('lets nobody go before somebody is named, and one of two moves at once win', async () => {
    const { id } = await post('visits', { ...PLANNED, on: '2026-03-09' });
    const refused = await post(`visits/${id}/moves`, { to: 'under-way', by: 'Ilvo Marsh' }, 409);
    expect(refused.detail).toMatch(/no technician/);
    await patch(id as string, 1, { technicianId: SANNA }).expect(200);
    const move = (to: string) =>
      test.http.post(`/api/v1/visits/${id}/moves`).send({ to, by: 'Bea Orne' });
    const answers = await Promise.all([move('missed'), move('called-off'), move('missed')]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
  });

  it('keeps readings as they were entered', async () => {
    const readings = `visits/${VISIT}/readings`;
    const takenBy = 'Ilvo Marsh';
    const volts = {
      id: '01900000-0000-7000-8000-00000000f002',
      kind: 'supply-volts',
      trunk: 'A',
      node: 'A1',
      entered: '23,10',
      takenBy,
      takenAt: '2026-03-05T12:20:00Z',
    };
    const first = await post(readings, volts);
    expect(first).toEqual({
      ...volts,
      ticketId: null,
      visitId: VISIT,
      place: null,
      core: null,
      value: 23.1,
      unit: 'V',
      uncertainty: null,
      reading: {
        kind: 'supply-volts',
        trunk: 'A',
        node: 'A1',
        volts: 23.1,
        uncertaintyVolts: 0.231,
      },
      takenByKind: 'technician',
      period: null,
      withdrawal: null,
      takenAt: '2026-03-05T12:20:00.000Z',
      recordedAt: '2026-03-06T08:05:00.000Z',
      note: null,
    });
    expect(await post(readings, volts)).toEqual(first);
    await post(readings, { ...volts, entered: '24' }, 409);
    const loud = { kind: 'sound-level-db', place: 'Hall', entered: '84', unit: 'dB(A)', takenBy };
    const now = await post(readings, { ...loud, uncertainty: 1.5, note: 'hall empty' });
    expect(now).toMatchObject({ value: 84, uncertainty: 1.5, takenAt: '2026-03-06T08:05:00.000Z' });

    expect((await get(readings)).items).toEqual([first, now]);
    const page = await get(`${readings}?limit=1`);
    expect(page.items).toEqual([first]);
    expect(await get(`${readings}?limit=1&after=${page.next}`)).toEqual({
      items: [now],
      next: null,
    });

    const wrong = { kind: 'other', entered: 'open', takenBy, node: 'A1' };
    expect(
      (await post(readings, wrong, 422)).errors.map((one: { field: string }) => one.field),
    ).toEqual(['/place', '/trunk', '/entered', '/unit']);
    const elsewhere = await post(readings, { ...volts, id: undefined, node: 'A9' }, 422);
    expect(elsewhere.errors).toEqual([
      { field: '/node', reason: 'there is no A9 on trunk A; a place can be told in words' },
    ]);
    const ahead = await post(readings, { ...loud, takenAt: '2026-03-07T00:00:00Z' }, 422);
    expect(ahead.errors).toEqual([{ field: '/takenAt', reason: 'is in the future' }]);
    await post(`visits/${NOBODY}/readings`, loud, 404);
  });

  it('lists by site, technician, day and state, page by page', async () => {
    const plan = (more: object) => post('visits', { ...PLANNED, ...more });
    const later = await plan({ on: '2026-04-02', technicianId: ILVO });
    const elsewhere = await plan({ on: '2026-04-01', siteId: OTHER_SITE, technicianId: SANNA });
    const callOut = { kind: 'call-out', upkeep: false, ticketIds: [ticketId] };
    const sameDay = await plan({ ...callOut, on: '2026-04-01', technicianId: ILVO });
    const ids = async (query: string) =>
      (await get(`visits?${query}`)).items.map(({ id }: { id: string }) => id);

    const onTheFirst = [elsewhere.id, sameDay.id].sort();
    expect(await ids('on=2026-04-01')).toEqual(onTheFirst);
    expect(await ids('from=2026-04-01&until=2026-04-03')).toEqual([...onTheFirst, later.id]);
    expect(await ids('from=2026-04-01&until=2026-04-02')).toEqual(onTheFirst);
    expect(await ids(`site=${SITE}&from=2026-04-01`)).toEqual([sameDay.id, later.id]);
    expect(await ids(`technician=${ILVO}`)).toEqual([VISIT, sameDay.id, later.id]);
    expect(await ids(`technician=${ILVO}&state=planned`)).toEqual([sameDay.id, later.id]);
    expect(await ids(`ticket=${ticketId}`)).toEqual([VISIT, sameDay.id]);
    expect(await ids(`ticket=${ticketId}&state=planned`)).toEqual([sameDay.id]);
    expect(await ids(`ticket=${ticketElsewhere}`)).toEqual([]);
    const noTicket = await get('visits?ticket=18', 422);
    expect(noTicket.errors).toEqual([{ field: 'ticket', reason: 'must be a UUID' }]);
    await get('visits?on=yesterday', 422);

    const walked: string[] = [];
    for (let after: string | null = ''; after !== null;) {
      const cursor: string = after === '' ? '' : `&after=${after}`;
      const { items, next } = await get(`visits?limit=1&from=2026-04-01${cursor}`);
      expect(items).toHaveLength(1);
      walked.push(items[0].id as string);
      after = next as string | null;
    }
    expect(walked).toEqual([...onTheFirst, later.id]);
    const { items } = await get(`visits?on=2026-04-01&technician=${ILVO}`);
    expect(items[0]).toEqual(sameDay);
  });

  it('lets nobody, not even the app, change what happened', async () => {
    const database = new Database({ connectionString: test.appUrl });
    await database.connect();
    try {
      await database.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      for (const table of ['visit_moves', 'readings']) {
        const { rows } = await database.query(`SELECT 1 FROM ${table}`);
        expect(rows.length).toBeGreaterThan(0);
        await expect(database.query(`DELETE FROM ${table}`)).rejects.toThrow(/only grows/);
        await expect(
          database.query(`UPDATE ${table} SET recorded_at = recorded_at - interval '1 day'`),
        ).rejects.toThrow(/only grows/);
      }
    } finally {
      await database.end();
    }
  });
});
