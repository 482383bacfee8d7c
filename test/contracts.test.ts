import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, type TestApp } from './support/test-app.js';

const NOBODY = '01900000-0000-7000-8000-00000000dead';
const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:30' }));

describe('contracts', () => {
  let test: TestApp;
  let site: string;
  let clientId: string;
  let fields: Record<string, unknown>;

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const get = async (path: string, status = 200) =>
    (await test.http.get(`/api/v1/${path}`).expect(status)).body;
  const patch = (path: string, version: number, body: object) =>
    test.http.patch(`/api/v1/${path}`).set('If-Match', `"${version}"`).send(body);
  const errorsOf = async (more: object) =>
    (await post('contracts', { ...fields, ...more }, 422)).errors;

  beforeAll(async () => {
    test = await buildTestApp();
    site = await drawSite(test, [row('A', 3)]);
    ({ clientId } = await get(`sites/${site}`));
    fields = {
      title: 'Upkeep 2026',
      clientId,
      siteIds: [site],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 4,
      callOutsPerYear: 6,
      feeMinor: 240_000,
      currency: 'EUR',
      promises: [{ troubleClass: 'whole-site', responseMinutes: 120, restoreMinutes: 480 }],
      coverage: { windows: WEEK, publicHolidays: { country: 'DE', region: 'BY' } },
      exclusions: 'Amplifiers of the hall',
      noticeDays: 60,
    };
  });

  afterAll(() => test.close());

  it('say of each field that is missing or nothing that it is, where it may not be', async () => {
    const { coverage, ...others } = fields as { coverage: object };
    const withNone = (name: string, none: null | undefined) => [
      name in coverage
        ? { ...others, coverage: { ...coverage, [name]: none } }
        : { ...fields, [name]: none },
      `/${name in coverage ? 'coverage/' : ''}${name}`,
    ];
    const refused: string[] = [];
    for (const name of [...Object.keys(fields), ...Object.keys(coverage), 'visitHours']) {
      for (const none of [null, undefined]) {
        const [body, field] = withNone(name, none);
        const answer = await test.http.post('/api/v1/contracts').send(body);
        expect([name, none, answer.status === 201 || answer.status === 422]).toEqual([
          name,
          none,
          true,
        ]);
        if (answer.status !== 422) continue;
        refused.push(name);
        const reason = none === undefined ? 'is missing' : expect.any(String);
        expect(answer.body.errors).toEqual([{ field, reason }]);
      }
    }
    expect(refused).toEqual(expect.arrayContaining(['title', 'coverage', 'promises', 'windows']));
  });

  it('are kept as they were sent, and change by a merge patch with the version that was read', async () => {
    const id = '01900000-0000-7000-8000-00000000c0a1';
    const created = await post('contracts', { ...fields, id });
    expect(created).toMatchObject({
      ...fields,
      id,
      visitRhythm: null,
      visitHours: { windows: [], avoidCalendarIds: [] },
      pausesForParts: false,
      renewedFrom: null,
      version: 1,
    });
    expect(created.coverage).toMatchObject({ zone: null, closedDays: [], calendarIds: [] });
    expect(await post('contracts', { ...fields, id })).toEqual(created);
    await post('contracts', { ...fields, id, title: 'Another' }, 409);
    expect(await get(`contracts/${id}`)).toEqual(created);
    await test.http.patch(`/api/v1/contracts/${id}`).send({ noticeDays: 30 }).expect(428);
    const closedDays = [{ from: '2026-08-01', until: '2026-08-15', name: 'Works holidays' }];
    const { body } = await patch(`contracts/${id}`, 1, { coverage: { closedDays } }).expect(200);
    expect(body.coverage).toEqual({ ...created.coverage, closedDays });
    await patch(`contracts/${id}`, 1, { noticeDays: 30 }).expect(412);
    const wrong = await patch(`contracts/${id}`, 2, { until: '2025-01-01' }).expect(422);
    expect(wrong.body.errors).toEqual([
      { field: '/until', reason: 'ends before it begins, on 2026-01-01' },
    ]);
    await get(`contracts/${NOBODY}`, 404);
  });

  it('are renewed once, from the day they end and otherwise as is said', async () => {
    const contract = await post('contracts', { ...fields, until: '2026-12-31' });
    const next = await post(`contracts/${contract.id}/renewal`, { feeMinor: 250_000 });
    expect(next).toMatchObject({
      from: '2026-12-31',
      until: '2027-12-30',
      feeMinor: 250_000,
      renewedFrom: contract.id,
      coverage: contract.coverage,
      siteIds: [site],
      version: 1,
    });
    const again = await post(`contracts/${contract.id}/renewal`, {}, 409);
    expect(again.contractId).toBe(next.id);
    const [one, two] = await Promise.all(
      [1, 2].map(() => test.http.post(`/api/v1/contracts/${next.id}/renewal`).send({})),
    );
    expect([one!.status, two!.status].sort()).toEqual([201, 409]);
  });

  it('are refused with every field and reason', async () => {
    const coverage = { windows: WEEK };
    expect(await errorsOf({ clientId: NOBODY })).toEqual([
      { field: '/clientId', reason: 'has none of these sites' },
      { field: '/siteIds/0', reason: 'is a site of another client' },
    ]);
    expect(await errorsOf({ siteIds: [site, NOBODY] })).toEqual([
      { field: '/siteIds/1', reason: `There is no site ${NOBODY}.` },
    ]);
    expect(await errorsOf({ coverage: { ...coverage, zone: 'Europe/Nowhere' } })).toEqual([
      { field: '/coverage/zone', reason: 'must be an IANA time zone such as Europe/Lisbon' },
    ]);
    expect(await errorsOf({ coverage: { windows: [] } })).toEqual([
      {
        field: '/coverage/windows',
        reason: 'never open: what is promised would never run',
      },
    ]);
    const windows = [...WEEK, { weekday: 5, from: '16:00', until: '24:00' }];
    expect(await errorsOf({ coverage: { windows } })).toEqual([
      { field: '/coverage/windows/5', reason: 'overlaps window 4 of the same day' },
    ]);
    const promises = [{ troubleClass: 'one-room', responseMinutes: 481, restoreMinutes: 480 }];
    expect(await errorsOf({ promises })).toEqual([
      {
        field: '/promises/0/responseMinutes',
        reason: 'is longer than restoring, which has 480 minutes',
      },
    ]);
    const publicHolidays = { country: 'DE', region: 'QQ' };
    expect(await errorsOf({ coverage: { ...coverage, publicHolidays } })).toEqual([
      { field: '/coverage/publicHolidays/region', reason: 'is no part of DE that is known' },
    ]);
    expect(await errorsOf({ currency: 'XXXX', feeMinor: -1 })).toEqual([
      { field: '/feeMinor', reason: 'must not be less than 0' },
      { field: '/currency', reason: 'must be a valid ISO4217 currency code' },
    ]);
    expect(
      await errorsOf({ coverage: { windows: [{ weekday: 8, from: '24:30', until: 'noon' }] } }),
    ).toHaveLength(3);
  });

  it('are listed page by page, those that began last first', async () => {
    const { clientId: other } = await get(`sites/${await drawSite(test, [row('A', 2)])}`);
    expect((await get(`contracts?client=${other}`)).items).toEqual([]);
    const all = (await get('contracts')).items;
    const first = await get('contracts?limit=2');
    const second = await get(`contracts?limit=2&after=${first.next}`);
    expect([...first.items, ...second.items]).toEqual(all.slice(0, 4));
    const froms = all.map(({ from }: { from: string }) => from);
    expect(froms).toEqual(froms.toSorted().toReversed());
    const inForce = (await get(`contracts?site=${site}&on=2028-06-01`)).items;
    expect(inForce).toHaveLength(1);
    await get('contracts?after=nonsense', 422);
  });

  it('cover a site with gaps and overlaps', async () => {
    const elsewhere = await drawSite(test, [row('A', 2)]);
    const { clientId: owner } = await get(`sites/${elsewhere}`);
    const own = { ...fields, clientId: owner, siteIds: [elsewhere] };
    const first = await post('contracts', { ...own, from: '2024-01-01', until: '2025-01-01' });
    const second = await post('contracts', { ...own, from: '2025-07-01', until: '2026-07-01' });
    const third = await post('contracts', { ...own, from: '2026-06-01', until: '2027-06-01' });
    const cover = await get(`sites/${elsewhere}/cover`);
    expect(cover.periods.map((one: { contractId: string }) => one.contractId)).toEqual([
      first.id,
      second.id,
      third.id,
    ]);
    expect(cover).toMatchObject({
      inForce: second.id,
      gaps: [{ from: '2025-01-01', until: '2025-07-01', contractIds: [] }],
      overlaps: [
        { from: '2026-06-01', until: '2026-07-01', contractIds: [second.id, third.id].sort() },
      ],
    });
  });

  it('go by calendars, sent or imported', async () => {
    const calendar = await post('closed-calendars', { name: 'School holidays' });
    const times = [{ from: '2026-10-31', until: '2026-10-19', name: 'Autumn' }];
    const wrong = await patch(`closed-calendars/${calendar.id}`, 1, { times }).expect(422);
    expect(wrong.body.errors[0].field).toBe('/times/0/until');
    const put = (version: number, icalendar: string) =>
      test.http
        .put(`/api/v1/closed-calendars/${calendar.id}/icalendar`)
        .set('If-Match', `"${version}"`)
        .send({ icalendar });
    const text = [
      'BEGIN:VCALENDAR',
      'BEGIN:VEVENT',
      'SUMMARY:Autumn holidays',
      'DTSTART;VALUE=DATE:20261019',
      'DTEND;VALUE=DATE:20261031',
      'END:VEVENT',
      'END:VCALENDAR',
    ].join('\r\n');
    const { body } = await put(1, text).expect(200);
    expect(body).toMatchObject({
      version: 2,
      times: [{ from: '2026-10-19', until: '2026-10-31', name: 'Autumn holidays' }],
    });
    await put(1, text).expect(412);
    const unreadable = await put(2, 'Monday: closed').expect(422);
    expect(unreadable.body.errors[0].field).toBe('/icalendar');
    expect(unreadable.body.errors[0].line).toBe(1);
    const [listed] = (await get('closed-calendars')).items;
    expect(listed).toEqual(body);
    const read = (icalendar: string) =>
      test.http.post('/api/v1/closed-calendars/reading').send({ icalendar });
    expect((await read(text).expect(200)).body).toEqual({ times: body.times, leftOut: 0 });
    const spoilt = await read(text.replace('END:VEVENT\r\n', '')).set('accept-language', 'fr');
    expect([spoilt.status, spoilt.body.errors]).toEqual([
      422,
      [
        {
          field: '/icalendar',
          line: 6,
          reason: 'ends VCALENDAR, which was not begun last',
          words: 'termine VCALENDAR, qui n’est pas ce qui a commencé en dernier',
        },
      ],
    ]);
    expect((await get('closed-calendars')).items).toEqual([listed]);
    const coverage = { windows: WEEK, calendarIds: [NOBODY] };
    expect(await errorsOf({ coverage })).toEqual([
      { field: '/coverage/calendarIds/0', reason: `there is no calendar ${NOBODY}` },
    ]);
  });

  it('keep the calendars that they go by; others can be removed', async () => {
    const { id } = await post('closed-calendars', { name: 'Fair week' });
    const remove = (version: number, http = test.http) =>
      http.delete(`/api/v1/closed-calendars/${id}`).set('If-Match', `"${version}"`);
    const own = await drawSite(test, [row('A', 2)]);
    const { clientId: other } = await get(`sites/${own}`);
    const coverage = { windows: WEEK, calendarIds: [id] };
    const going = { ...fields, clientId: other, siteIds: [own], coverage };
    const contract = await post('contracts', going);
    const refused = await remove(1).expect(409);
    expect(refused.body.detail).toContain('Contracts go by this calendar: ');
    const avoided = { coverage: { calendarIds: [] }, visitHours: { avoidCalendarIds: [id] } };
    await patch(`contracts/${contract.id}`, 1, avoided).expect(200);
    await remove(1).expect(409);
    await patch(`contracts/${contract.id}`, 2, { visitHours: { avoidCalendarIds: [] } }).expect(
      200,
    );
    const dispatcher = (await test.addPerson('dispatcher')).http;
    await remove(1, dispatcher).expect(403);
    await dispatcher.post('/api/v1/closed-calendars/reading').send({ icalendar: '' }).expect(403);
    await remove(2).expect(412);
    // Removed, or gone by: never both.
    const [removed, made] = await Promise.all([
      remove(1),
      test.http.post('/api/v1/contracts').send(going),
    ]);
    expect([
      [204, 422],
      [409, 201],
    ]).toContainEqual([removed.status, made.status]);
    await remove(1).expect(made.status === 201 ? 409 : 404);
  });

  it('show fees to the office alone, and are written by owner and contract manager', async () => {
    const agents: Record<string, Agent> = {};
    for (const role of ['dispatcher', 'contract-manager', 'technician', 'client'] as const) {
      agents[role] = (
        await test.addPerson(role, { clientId: role === 'client' ? clientId : undefined })
      ).http;
    }
    const statusOf = async (role: string, path: string) =>
      (await agents[role]!.get(`/api/v1/${path}`)).status;
    for (const [role, contracts, cover] of [
      ['dispatcher', 200, 200],
      ['contract-manager', 200, 200],
      ['technician', 403, 200],
      ['client', 403, 403],
    ] as const) {
      expect([role, await statusOf(role, 'contracts')]).toEqual([role, contracts]);
      expect([role, await statusOf(role, `sites/${site}/cover`)]).toEqual([role, cover]);
    }
    const { body: cover } = await agents['technician']!.get(`/api/v1/sites/${site}/cover`);
    const { body: priced } = await agents['contract-manager']!.get('/api/v1/contracts');
    // Keys alone: an id may hold the letters "fee".
    const feeKeys = /"[^"]*fee[^"]*":/i;
    expect(JSON.stringify(priced)).toMatch(feeKeys);
    expect(JSON.stringify(cover)).not.toMatch(feeKeys);
    await agents['dispatcher']!.post('/api/v1/contracts').send(fields).expect(403);
    await agents['contract-manager']!.post('/api/v1/contracts').send(fields).expect(201);
  });
});
