import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:30' }));

/** The clock stands at Monday, 2 March 2026, 08:00 in UTC, which is the sites’ zone. */
describe('the time of visits', () => {
  let test: TestApp;
  let site: string;
  let technicianId: string;
  let planned: Record<string, unknown>;

  const send = (path: string, body: object) => test.http.post(`/api/v1/${path}`).send(body);
  const post = async (path: string, body: object, status = 201) =>
    (await send(path, body).expect(status)).body;
  const get = async (path: string) => (await test.http.get(`/api/v1/${path}`).expect(200)).body;
  const patch = (id: string, version: number, body: object) =>
    test.http.patch(`/api/v1/visits/${id}`).set('If-Match', `"${version}"`).send(body);

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    site = await drawSite(test, [row('A', 3)]);
    technicianId = (await test.addPerson('technician')).id;
    planned = {
      siteId: site,
      kind: 'planned',
      on: '2026-03-04',
      fromTime: '09:00',
      untilTime: '11:00',
      technicianId,
      purpose: 'Upkeep',
      upkeep: true,
    };
  });

  afterAll(() => test.close());

  it('has hours, both or neither, one after the other', async () => {
    const field = async (more: object) =>
      (await post('visits', { ...planned, on: '2026-05-01', ...more }, 422)).errors[0].field;
    expect(await field({ untilTime: null })).toBe('/untilTime');
    expect(await field({ fromTime: null })).toBe('/fromTime');
    expect(await field({ untilTime: '09:00' })).toBe('/untilTime');
    expect(await field({ fromTime: '9:00' })).toBe('/fromTime');
    expect(await post('visits', { ...planned, on: '2026-05-01' })).toMatchObject({
      fromTime: '09:00',
      untilTime: '11:00',
    });
  });

  it('is asked about when a technician is elsewhere then, and when it has gone by', async () => {
    const first = await post('visits', planned);
    const clash = await post('visits', { ...planned, fromTime: '10:59', untilTime: '12:00' }, 409);
    expect(clash).toMatchObject({ confirm: ['double-booked'], visitIds: [first.id] });
    expect(clash.errors[0].field).toBe('/technicianId');
    await post('visits', { ...planned, fromTime: '11:00', untilTime: '12:00' });
    await post('visits', { ...planned, fromTime: null, untilTime: null });
    const confirmed = ['double-booked'];
    await post('visits', { ...planned, fromTime: '10:59', untilTime: '11:30', confirmed });
    const past = await post('visits', { ...planned, on: '2026-03-01' }, 409);
    expect(past).toMatchObject({ confirm: ['in-the-past'], visitIds: [] });
    const early = { fromTime: '06:00', untilTime: '08:00', on: '2026-03-02' };
    expect(await post('visits', { ...planned, ...early }, 409)).toMatchObject({
      confirm: ['in-the-past'],
    });
    await post('visits', { ...planned, on: '2026-03-01', confirmed: ['in-the-past'] });
    await post('visits', { ...planned, confirmed: ['whatever'] }, 422);
    const { id } = await post('visits', { ...planned, on: '2026-03-10' });
    const moved = { on: '2026-03-04', fromTime: '10:00', reason: 'Sooner' };
    const refused = await patch(id as string, 1, moved).expect(409);
    expect(refused.body.confirm).toEqual(['double-booked']);
    await patch(id as string, 1, { ...moved, confirmed }).expect(200);
    const { changes } = await get(`visits/${id}/log`);
    expect(changes).toMatchObject([
      {
        reason: 'Sooner',
        wasOn: '2026-03-10',
        wasFromTime: '09:00',
        on: '2026-03-04',
        fromTime: '10:00',
      },
    ]);
  });

  it('is booked once when two plan it at once', async () => {
    const at = { ...planned, on: '2026-03-17' };
    const answers = await Promise.all([1, 2, 3].map(() => send('visits', at)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
  });

  it('is in the hours that the contract has for visits, unless it is meant so', async () => {
    const drawn = await drawSite(test, [row('A', 2)]);
    const { clientId } = await get(`sites/${drawn}`);
    const exams = [{ from: '2026-06-08', until: '2026-06-13', name: 'Exams' }];
    const calendar = await post('closed-calendars', { name: 'School', times: exams });
    await post('contracts', {
      title: 'Upkeep',
      clientId,
      siteIds: [drawn],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'labour-only',
      visitsPerYear: 2,
      feeMinor: 1,
      currency: 'EUR',
      promises: [],
      coverage: { windows: WEEK },
      visitHours: {
        windows: [
          { weekday: 3, from: '14:00', until: '18:00' },
          { weekday: 2, from: '08:00', until: '10:00' },
        ],
        avoidCalendarIds: [calendar.id],
      },
    });
    const at = { ...planned, siteId: drawn, technicianId: null };
    const field = async (more: object) =>
      (await post('visits', { ...at, ...more }, 422)).errors[0].field;
    expect(await field({ on: '2026-03-05' })).toBe('/on');
    expect(await field({ on: '2026-06-10', fromTime: '14:00', untilTime: '15:00' })).toBe('/on');
    expect(await field({})).toBe('/fromTime');
    expect(await field({ fromTime: '17:00', untilTime: '18:30' })).toBe('/untilTime');
    await post('visits', { ...at, fromTime: '14:00', untilTime: '18:00' });
    await post('visits', { ...at, confirmed: ['outside-hours'] });
    await post('visits', { ...at, on: '2027-03-05' });
    await post('visits', { ...at, kind: 'call-out', on: '2026-03-05' });
  });

  it('is asked about on a public holiday, a closed day and out of covered hours, all at once', async () => {
    const drawn = await drawSite(test, [row('A', 2)]);
    const { clientId } = await get(`sites/${drawn}`);
    const times = [{ from: '2026-07-01', until: '2026-08-15', name: 'Summer' }];
    const { id: calendarId } = await post('closed-calendars', { name: 'Holidays', times });
    await post('contracts', {
      title: 'Upkeep',
      clientId,
      siteIds: [drawn],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'labour-only',
      visitsPerYear: 0,
      feeMinor: 1,
      currency: 'EUR',
      promises: [],
      coverage: {
        windows: WEEK,
        publicHolidays: { country: 'DE', region: null },
        closedDays: [{ from: '2026-03-12', until: '2026-03-13', name: 'Stocktaking' }],
        calendarIds: [calendarId],
      },
    });
    const at = { ...planned, siteId: drawn, kind: 'call-out', fromTime: null, untilTime: null };
    const asked = async (more: object) => {
      const { errors, confirm } = await post('visits', { ...at, ...more }, 422);
      return [
        confirm,
        ...errors.map((one: { field: string; reason: string }) => Object.values(one)),
      ];
    };
    const day = (reason: string) => [['outside-hours'], ['/on', reason]];
    const holiday = 'is a public holiday there (Good Friday)';
    expect(await asked({ on: '2026-04-03' })).toEqual(day(holiday));
    expect(await asked({ on: '2026-04-03', kind: 'planned' })).toEqual(day(holiday));
    expect(await asked({ on: '2026-03-12' })).toEqual(day('is closed there (Stocktaking)'));
    expect(await asked({ on: '2026-08-14' })).toEqual(day('is closed there (Summer)'));
    expect(await asked({ on: '2026-03-14' })).toEqual(
      day('is a day of the week without agreed hours'),
    );
    // Upkeep may be made in the holidays: they are no days on which it is to be avoided.
    await post('visits', { ...at, on: '2026-08-14', kind: 'planned' });
    const evening = { on: '2026-03-11', fromTime: '16:00', untilTime: '17:00' };
    const { id, version } = await post('visits', { ...at, on: '2026-03-11' });
    expect(await asked(evening)).toEqual([
      ['outside-hours'],
      ['/untilTime', 'is outside the agreed hours 08:00–16:30'],
    ]);
    const confirmed = ['outside-hours'];
    await post('visits', { ...at, ...evening, confirmed });
    // Gone by, in the dead of night, and whoever goes is elsewhere.
    const night = { on: '2026-03-01', fromTime: '22:00', untilTime: '23:00' };
    await post('visits', { ...planned, ...night, confirmed: ['in-the-past'] });
    expect(await asked(night)).toEqual([
      ['outside-hours', 'in-the-past', 'double-booked'],
      ['/on', 'is a day of the week without agreed hours'],
      ['/on', 'Its time, on 2026-03-01, has gone by.'],
      ['/technicianId', 'Whoever is to go is on another visit then.'],
    ]);
    const all = ['outside-hours', 'in-the-past', 'double-booked'];
    await post('visits', { ...at, ...night, confirmed: all });
    // So is one that is moved there; one that only another is to make is not.
    const moved = { on: '2026-12-25', reason: 'Later' };
    const refused = await patch(id as string, version as number, moved).expect(422);
    expect(refused.body.errors[0]).toEqual({
      field: '/on',
      reason: 'is a public holiday there (Christmas Day)',
    });
    await patch(id as string, 1, { ...moved, confirmed }).expect(200);
    await patch(id as string, 2, { technicianId: null }).expect(200);
    // In the reader's language, where it is one of the service’s.
    const { body } = await send('visits', { ...at, on: '2026-04-03' }).set('accept-language', 'es');
    expect(body.errors[0].words).toBe('ese día es festivo allí (Good Friday)');
  });

  it('is free again when the ticket was closed that it was for', async () => {
    const report = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A1', function: 'bell', outcome: 'fails' }],
    });
    const [{ id: ticketId, number }] = report.tickets;
    const callOut = {
      ...planned,
      on: '2026-04-01',
      kind: 'call-out',
      upkeep: false,
      ticketIds: [ticketId],
    };
    const only = await post('visits', { ...callOut, technicianId: null });
    const besides = await post('visits', { ...callOut, technicianId: null, upkeep: true });
    const going = await post('visits', {
      ...callOut,
      on: '2026-03-02',
      fromTime: null,
      untilTime: null,
    });
    await post(`visits/${going.id}/moves`, { to: 'under-way', by: 'Ilvo Marsh' });
    const moved = {
      saidBy: { name: 'Bea Orne', kind: 'technician' },
      to: 'closed',
      reason: 'It was the knob',
    };
    await post(`tickets/${ticketId}/moves`, moved);
    await test.app.get(JobService).settle();
    expect(await get(`visits/${only.id}`)).toMatchObject({ state: 'called-off', version: 2 });
    const { items } = await get(`visits/${only.id}/log`);
    expect(items).toMatchObject([
      { toState: 'called-off', movedBy: 'Lastheard', reason: `Ticket ${number} was closed.` },
    ]);
    expect(await get(`visits/${besides.id}`)).toMatchObject({ state: 'planned', ticketIds: [] });
    const { changes } = await get(`visits/${besides.id}/log`);
    expect(changes).toMatchObject([{ ticketId, reason: `Ticket ${number} was closed.` }]);
    expect(await get(`visits/${going.id}`)).toMatchObject({
      state: 'under-way',
      ticketIds: [ticketId],
    });
  });

  it('keeps what a contract promised, and what is owed stays so', async () => {
    const drawn = await drawSite(test, [row('A', 2)]);
    const { clientId } = await get(`sites/${drawn}`);
    const contract = await post('contracts', {
      title: 'Upkeep',
      clientId,
      siteIds: [drawn],
      from: '2024-02-29',
      until: '2026-08-29',
      kind: 'labour-only',
      visitsPerYear: 2,
      feeMinor: 1,
      currency: 'EUR',
      promises: [],
      coverage: { windows: WEEK, publicHolidays: { country: 'DE', region: null } },
    });
    const visit = { ...planned, siteId: drawn, fromTime: null, untilTime: null };
    const done = async (on: string) => {
      const confirmed = ['in-the-past', 'outside-hours'];
      const { id } = await post('visits', { ...visit, on, confirmed });
      const by = 'Ilvo Marsh';
      await post(`visits/${id}/moves`, { to: 'under-way', by, at: `${on}T09:00:00Z` });
      const at = `${on}T10:00:00Z`;
      const heard = { workDone: 'Heard', travelMinutes: 40, confirmed: ['not-all-heard'] };
      const move = { to: 'done', by, at, ...heard };
      expect(await post(`visits/${id}/moves`, move)).toMatchObject({ travelMinutes: 40 });
      return id as string;
    };
    const first = await done('2024-05-30');
    const second = await done('2025-04-03');
    const caughtUp = await done('2025-05-05');
    const coming = await post('visits', { ...visit, on: '2026-03-05' });
    const { items, years, further } = await get(`contracts/${contract.id}/visits`);
    expect(
      items.map((one: Record<string, unknown>) => [
        one['year'],
        one['from'],
        one['standing'],
        one['visitId'],
      ]),
    ).toEqual([
      [1, '2024-02-29', 'done', first],
      [1, '2024-08-30', 'done-late', caughtUp],
      [2, '2025-02-28', 'done', second],
      [2, '2025-08-30', 'missed', null],
      [3, '2026-02-28', 'planned', coming.id],
    ]);
    expect(further).toEqual([]);
    expect(years[1]).toMatchObject({
      year: 2,
      promised: 2,
      standings: { done: 1, missed: 1, late: 0 },
    });
    const owed = await get(`contracts/${contract.id}/visits?standing=missed&year=2`);
    expect(owed.items).toHaveLength(1);
    await test.http.get(`/api/v1/contracts/${contract.id}/visits?standing=lost`).expect(422);
  });

  it('costs what it takes, against the fee', async () => {
    const { clientId } = await get(`sites/${site}`);
    const contract = await post('contracts', {
      title: 'Upkeep',
      clientId,
      siteIds: [site],
      from: '2026-02-01',
      until: '2027-02-01',
      kind: 'comprehensive',
      visitsPerYear: 2,
      callOutsPerYear: 0,
      feeMinor: 100_000,
      currency: 'EUR',
      promises: [{ troubleClass: 'one-room', responseMinutes: 480, restoreMinutes: 960 }],
      coverage: { windows: WEEK },
    });
    const account = () => get(`contracts/${contract.id}/account`);
    expect(await get('prices')).toMatchObject({ version: 0, parts: [] });
    const said = { saidBy: { name: 'Ilvo Marsh', kind: 'technician' } };
    const { tickets } = await post(`sites/${site}/reports`, {
      ...said,
      how: 'gone-through',
      observations: [1, 2, 3].map((node) => {
        return {
          trunk: 'A',
          node: `A${node}`,
          function: 'bell',
          outcome: node === 3 ? 'fails' : 'works',
        };
      }),
    });
    const ticketId = tickets[0].id as string;
    const parts = [
      { name: 'Wire ferrule', quantity: 4 },
      { name: 'coin cell', quantity: 1 },
    ];
    await post(`tickets/${ticketId}/mendings`, {
      ...said,
      mending: 'lasting',
      what: 'Ends',
      parts,
    });
    const visit = {
      ...planned,
      kind: 'call-out',
      on: '2026-03-02',
      upkeep: false,
      ticketIds: [ticketId],
    };
    const { id } = await post('visits', { ...visit, fromTime: null, untilTime: null });
    await post(`visits/${id}/moves`, {
      to: 'under-way',
      by: 'Ilvo Marsh',
      at: '2026-03-02T07:00:00Z',
    });
    const done = { to: 'done', by: 'Ilvo Marsh', at: '2026-03-02T07:45:00Z', workDone: 'Ends' };
    await post(`visits/${id}/moves`, { ...done, travelMinutes: 30, confirmed: ['not-all-heard'] });
    await test.app.get(JobService).settle();
    expect((await account()).years[0]).toMatchObject({ labourMinor: null, balanceMinor: null });
    const prices = {
      currency: 'EUR',
      hourMinor: 6000,
      travelHourMinor: 4000,
      parts: [{ name: 'wire ferrule', minor: 15 }],
    };
    const change = (version: number, http = test.http) =>
      http.patch('/api/v1/prices').set('If-Match', `"${version}"`).send(prices);
    await test.http.patch('/api/v1/prices').send(prices).expect(428);
    const twice = [...prices.parts, { name: 'Wire Ferrule', minor: 16 }];
    const { body: refused } = await test.http
      .patch('/api/v1/prices')
      .set('If-Match', '"0"')
      .send({ ...prices, parts: twice })
      .expect(422);
    expect(refused.errors).toEqual([{ field: '/parts/1/name', reason: 'has a price already' }]);
    await change(0).expect(200);
    await change(0).expect(412);
    const { years, lines } = await account();
    expect(lines).toMatchObject([
      {
        siteId: site,
        year: 1,
        callOuts: 1,
        minutesOnSite: 45,
        travelMinutes: 30,
        parts: [
          { name: 'Wire ferrule', quantity: 4, minor: 60 },
          { name: 'coin cell', minor: null },
        ],
      },
    ]);
    expect(years[0]).toMatchObject({
      feeMinor: 100_000,
      callOuts: 1,
      callOutsIncluded: 0,
      callOutsBeyond: 1,
      labourMinor: 4500,
      travelMinor: 2000,
      partsMinor: 60,
      unpricedParts: ['coin cell'],
      balanceMinor: 100_000 - 6560,
    });
    const response = years[0].kept.find((one: { promise: string }) => one.promise === 'response');
    expect(response.met).toBeGreaterThan(0);
    const dispatcher = (await test.addPerson('dispatcher')).http;
    await dispatcher.get(`/api/v1/contracts/${contract.id}/account`).expect(403);
    await change(1, dispatcher).expect(403);
  });
});
