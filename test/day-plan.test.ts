import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';

import { TROUBLE_CLASSES } from '#app/contracts/class-of-trouble.js';
import { JobService } from '#app/jobs/job.service.js';
import { WalkService } from '#app/walks/walk.service.js';
import { InvalidInputError } from '#app/shared/domain-error.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

/** A Wednesday. */
const DAY = '2026-03-04';
const NOBODY = '01900000-0000-7000-8000-00000000dead';
const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:00' }));

describe('the plan of a day', () => {
  let test: TestApp;
  let ilvo: TestPerson;
  let sanna: TestPerson;
  let near: string;
  let far: string;
  let visit: string;
  let ticket: { id: string; number: number };

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const get = async (path: string, status = 200) =>
    (await test.http.get(`/api/v1/${path}`).expect(status)).body;
  const put = async (path: string, version: number, body: object, status = 200) => {
    const asked = test.http.put(`/api/v1/${path}`).set('If-Match', `"${version}"`).send(body);
    return (await asked.expect(status)).body;
  };
  const plan = (status = 201) => post(`plans/days/${DAY}`, {}, status);
  const accept = (version: number) =>
    test.http.post(`/api/v1/plans/days/${DAY}/acceptance`).set('If-Match', `"${version}"`);

  beforeAll(async () => {
    test = await buildTestApp();
    ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    sanna = await test.addPerson('technician', { name: 'Sanna Threlk' });
    const sites = [];
    for (const [index, latitude] of [47.1, 47.3].entries()) {
      const site = await drawSite(test, [row('A', 3)]);
      const body = { latitude, longitude: -28.4, name: `School ${index + 1}` };
      await test.http.patch(`/api/v1/sites/${site}`).set('If-Match', '"1"').send(body).expect(200);
      sites.push(site);
    }
    [near, far] = sites as [string, string];
    ({ id: visit } = await post('visits', {
      siteId: near,
      kind: 'planned',
      on: DAY,
      purpose: 'Upkeep',
      upkeep: true,
    }));
    const reported = await post(`sites/${far}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    [ticket] = reported.tickets;
    await put(`people/${ilvo.id}/working-time`, 0, {
      hours: WEEK,
      startLatitude: 47.1,
      startLongitude: -28.4,
    });
  });

  afterAll(() => test.close());

  it('names whom nobody said anything of, and is read back as it was made', async () => {
    await get(`plans/days/${DAY}`, 404);
    const made = await plan();
    expect(made).toMatchObject({
      day: DAY,
      version: 1,
      isProven: true,
      undone: [],
      acceptedAt: null,
    });
    expect(made.notThere).toEqual([sanna.id]);
    expect(made.routes).toHaveLength(1);
    expect(made.routes[0].technicianId).toBe(ilvo.id);
    const [called, upkeep] = made.routes[0].jobs;
    // 0.2° of a meridian: 22.24 km, by 1.3 at 50 km/h 34.7 minutes, and 5.
    expect(called).toMatchObject({ jobId: ticket.id, ticketNumbers: [ticket.number] });
    expect(called).toMatchObject({ travelMinutes: 40, arrives: '08:40', minutesFrom: 'walk' });
    expect(upkeep).toMatchObject({ jobId: visit, kind: 'visit', travelMinutes: 40 });
    expect(upkeep).toMatchObject({ minutes: 120, minutesFrom: 'usual' });
    expect(made.roadMinutes).toBe(80);
    const walk = await get(`tickets/${ticket.id}/walk`);
    expect(called.minutes).toBe(Math.ceil(walk.expectedMinutes));
    // Nobody comes before it, so that it begins as is planned; it may end later, and what follows may begin later.
    expect(walk.spreadMinutes).toBeGreaterThan(0);
    expect(called.spreadMinutes).toBeGreaterThan(walk.spreadMinutes);
    expect(called.beginsNineInTen).toBe(called.begins);
    expect(called.endsNineInTen > called.ends).toBe(true);
    expect(upkeep.beginsNineInTen > upkeep.begins).toBe(true);
    expect(await get(`plans/days/${DAY}`)).toEqual(made);
  });

  it('keeps to what people want, and says what stands against what it leaves', async () => {
    await put(`people/${sanna.id}/working-time`, 0, { hours: WEEK, skills: ['tower'] });
    const wish = await put(`plans/jobs/${visit}/wish`, 0, {
      pinnedTo: sanna.id,
      minutes: 45,
      reason: 'She knows the caretaker',
    });
    expect(wish).toMatchObject({ jobId: visit, version: 1, notBy: [], skills: [] });
    const kept = await get(`plans/jobs/${visit}/wish`);
    expect(kept).toMatchObject({ pinnedTo: sanna.id, reason: 'She knows the caretaker' });
    await put(`plans/jobs/${ticket.id}/wish`, 0, { skills: ['tower'], notBy: [sanna.id] });
    const made = await plan();
    const byId = Object.fromEntries(
      made.routes.map((route: { technicianId: string }) => [route.technicianId, route]),
    );
    expect(byId[sanna.id].jobs).toMatchObject([
      { jobId: visit, minutes: 45, minutesFrom: 'said', instead: null },
    ]);
    expect(byId[ilvo.id]).toBeUndefined();
    expect(made.undone).toMatchObject([{ jobId: ticket.id }]);
    const obstacles = Object.fromEntries(
      made.undone[0].obstacles.map((one: { technicianId: string }) => [one.technicianId, one]),
    );
    expect(obstacles[ilvo.id]).toMatchObject({ kind: 'skills', lacking: ['tower'] });
    expect(obstacles[sanna.id]).toMatchObject({ kind: 'ruled-out' });
    await put(`plans/jobs/${ticket.id}/wish`, 1, {});
  });

  it('goes by the road where somebody said how long it is', async () => {
    const rules = await get('planning-rules');
    expect(rules).toMatchObject({ version: 0, upkeepMinutes: 120 });
    const change = (version: number, body: object) =>
      test.http.patch('/api/v1/planning-rules').set('If-Match', `"${version}"`).send(body);
    const refused = await change(0, { roads: [{ siteIds: [near, near], km: 9 }] }).expect(422);
    expect(refused.body.errors).toMatchObject([{ field: '/roads/0/siteIds' }]);
    await change(0, { kmPerHour: 60, roads: [{ siteIds: [far, near], km: 30 }] }).expect(200);
    await change(0, { kmPerHour: 80 }).expect(412);
    const wanted = { pinnedTo: ilvo.id };
    await put(`plans/jobs/${ticket.id}/wish`, 2, wanted);
    await put(`plans/jobs/${visit}/wish`, 1, wanted);
    const made = await plan();
    const jobs = made.routes[0].jobs as { jobId: string; travelMinutes: number }[];
    expect(jobs.map(({ jobId }) => jobId)).toEqual([ticket.id, visit]);
    expect(jobs[1]!.travelMinutes).toBe(35);
  });

  it('is done as it says once somebody accepts it, and only once', async () => {
    const { version } = await get(`plans/days/${DAY}`);
    await accept(version - 1).expect(412);
    const accepted = await Promise.all([accept(version), accept(version)]);
    expect(accepted.map(({ status }) => status).sort()).toEqual([200, 412]);
    const { items } = await get(`visits?on=${DAY}`);
    expect(items).toHaveLength(2);
    for (const one of items) expect(one.technicianId).toBe(ilvo.id);
    expect(items).toContainEqual(
      expect.objectContaining({ kind: 'call-out', siteId: far, ticketIds: [ticket.id] }),
    );
    await accept(version + 1).expect(409);
  });

  it('says which job has changed since, and then does nothing of it', async () => {
    const { version, routes } = await plan();
    expect(routes[0].jobs).toHaveLength(2);
    const moves = `visits/${visit}/moves`;
    await post(moves, { to: 'called-off', by: 'Mara Quill', reason: 'Exams' });
    const { body } = await accept(version).expect(409);
    expect(body.detail).toContain('School 1');
    expect(await get(`plans/days/${DAY}`)).toMatchObject({ version, acceptedAt: null });
  });

  it('keeps what is promised, and says how many minutes are to spare', async () => {
    const { clientId } = await get(`sites/${near}`);
    await post('contracts', {
      title: 'Upkeep 2026',
      clientId,
      siteIds: [near],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 2,
      feeMinor: 100_000,
      currency: 'EUR',
      promises: TROUBLE_CLASSES.map((troubleClass) => ({
        troubleClass,
        responseMinutes: 18 * 60,
      })),
      coverage: { windows: WEEK.map((hours) => ({ ...hours, until: '17:00' })) },
    });
    const { tickets } = await post(`sites/${near}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
    });
    await test.app.get(JobService).settle();
    // Reported Monday 08:00: nine hours of Monday, nine of Tuesday.
    const tuesday = await post('plans/days/2026-03-03', {});
    const job = tuesday.routes
      .flatMap(({ jobs }: { jobs: { jobId: string }[] }) => jobs)
      .find(({ jobId }: { jobId: string }) => jobId === tickets[0].id);
    expect(job).toMatchObject({ begins: '08:00', spareMinutes: 9 * 60, lateMinutes: 0 });
    expect(job).toMatchObject({ expectedLateMinutes: 0, keptChance: 1 });
    // On Wednesday the promise is broken by 15 hours when somebody comes at 08:00.
    const wednesday = await plan();
    const late = wednesday.routes
      .flatMap(({ jobs }: { jobs: { jobId: string }[] }) => jobs)
      .find(({ jobId }: { jobId: string }) => jobId === tickets[0].id);
    expect(late).toMatchObject({ begins: '08:00', lateMinutes: 15 * 60, spareMinutes: -15 * 60 });
    expect(late).toMatchObject({ expectedLateMinutes: 15 * 60, keptChance: 0 });
  });

  it('begins a visit when its hours begin', async () => {
    const on = '2026-03-06';
    const hours = { fromTime: '10:15', untilTime: '11:00' };
    const agreed = { siteId: near, kind: 'planned', on, purpose: 'Upkeep', upkeep: true };
    const { id } = await post('visits', { ...agreed, ...hours });
    const { routes } = await post(`plans/days/${on}`, {});
    const jobs = routes.flatMap((route: { jobs: { jobId: string }[] }) => route.jobs);
    expect(jobs.find(({ jobId }: { jobId: string }) => jobId === id)).toMatchObject({
      begins: '10:15',
      ends: '11:00',
      minutesFrom: 'agreed',
    });
  });

  it('is made where no walk can be reckoned, and by two at once', async () => {
    const walks = test.app.get(WalkService);
    const refused = new InvalidInputError([{ field: '/observations', reason: 'are too many' }]);
    const spy = jest.spyOn(walks, 'plan').mockRejectedValue(refused);
    try {
      const { version } = await plan();
      const both = await Promise.all([plan(), plan()]);
      expect(both.map((made) => made.version).sort((a, b) => a - b)).toEqual([
        version + 1,
        version + 2,
      ]);
      const jobs = [...both[0].routes, { jobs: both[0].undone }].flatMap(({ jobs: all }) => all);
      const called = jobs.filter(({ kind }: { kind: string }) => kind === 'ticket');
      expect(called.length).toBeGreaterThan(0);
      for (const job of called) expect(job).toMatchObject({ minutesFrom: 'usual', minutes: 90 });
    } finally {
      spy.mockRestore();
    }
  });

  it('names what is wrong', async () => {
    const errors = async (path: string, version: number, body: object) =>
      (await put(path, version, body, 422)).errors as { field: string }[];
    const time = `people/${ilvo.id}/working-time`;
    const late = [{ weekday: 1, from: '16:00', until: '08:00' }];
    expect(await errors(time, 1, { hours: late })).toMatchObject([{ field: '/hours/0/until' }]);
    const half = { hours: WEEK, startLatitude: 47 };
    expect(await errors(time, 1, half)).toMatchObject([{ field: '/startLongitude' }]);
    expect(await errors(time, 1, { hours: [...WEEK, ...WEEK] })).toMatchObject([
      { field: '/hours' },
    ]);
    const wish = `plans/jobs/${visit}/wish`;
    expect(await errors(wish, 2, { notBy: [NOBODY] })).toMatchObject([{ field: '/notBy/0' }]);
    const both = { pinnedTo: ilvo.id, notBy: [ilvo.id] };
    expect(await errors(wish, 2, both)).toMatchObject([{ field: '/pinnedTo' }]);
    await put(time, 0, { hours: WEEK }, 412);
    const { errors: days } = await post('plans/days/2026-02-30', {}, 422);
    expect(days).toMatchObject([{ field: 'day' }]);
  });

  it('is read by technicians and made by planners alone', async () => {
    const path = `/api/v1/plans/days/${DAY}`;
    await ilvo.http.get(path).expect(200);
    await ilvo.http.post(path).expect(403);
    await ilvo.http.get('/api/v1/working-times').expect(403);
    const dispatcher = await test.addPerson('dispatcher');
    await dispatcher.http.get('/api/v1/working-times').expect(200);
    await dispatcher.http.post(path).expect(201);
    const stranger = await test.addStranger();
    await stranger.http.get(path).expect(404);
  });

  it('makes a promised visit within the hours that its contract has for visits', async () => {
    const { clientId } = await get(`sites/${near}`);
    await post('contracts', {
      clientId,
      title: 'Care of the bells',
      siteIds: [near],
      from: '2026-03-02',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 4,
      feeMinor: 90_000,
      currency: 'EUR',
      promises: [],
      coverage: { windows: WEEK },
      visitHours: {
        windows: [{ weekday: 3, from: '13:10', until: '15:00' }],
        avoidCalendarIds: [],
      },
    });
    const { id: own } = await post('visits', {
      siteId: near,
      kind: 'planned',
      on: '2026-03-11',
      purpose: 'Upkeep',
      upkeep: true,
    });
    const begins = async () => {
      const jobs = (await post('plans/days/2026-03-11', {})).routes.flatMap(
        (route: { jobs: object[] }) => route.jobs,
      );
      return jobs.find((job: { jobId: string }) => job.jobId === own)?.begins as string;
    };
    // An hour and fifty, by the firm's rules, and not a minute to spare.
    const rules = await get('planning-rules');
    const change = test.http.patch('/api/v1/planning-rules').set('If-Match', `"${rules.version}"`);
    await change.send({ upkeepMinutes: 110 }).expect(200);
    expect(await begins()).toBe('13:10');
  });

  it('is of what is left of today: nobody sets off before now, and who is on a visit goes on from there', async () => {
    const on = '2026-03-05';
    const body = { siteId: near, kind: 'planned', on, purpose: 'Upkeep', upkeep: true };
    const confirmed = ['outside-hours', 'double-booked'];
    const begun = await post('visits', { ...body, technicianId: ilvo.id, confirmed });
    const agreed = { fromTime: '09:00', untilTime: '09:40', technicianId: sanna.id, confirmed };
    const late = await post('visits', { ...body, ...agreed, siteId: far });
    const routes = async (day: string) => {
      const made = await post(`plans/days/${day}`, {});
      type Route = { technicianId: string; jobs: { jobId: string; begins: string }[] };
      return {
        of: (id: string) => (made.routes as Route[]).find((one) => one.technicianId === id)?.jobs,
        notThere: made.notThere as string[],
      };
    };
    const before = await routes(on);
    expect(before.of(sanna.id)?.find(({ jobId }) => jobId === late.id)?.begins).toBe('09:00');
    // Thursday, 11:00; the day's plan of the tests before knows nothing of it.
    test.clock.tick(3 * 24 * 60 + 3 * 60);
    const move = { to: 'under-way', by: 'Ilvo Marsh', at: `${on}T10:40:00Z` };
    await post(`visits/${begun.id}/moves`, move);
    const today = await routes(on);
    const jobs = [...(today.of(ilvo.id) ?? []), ...(today.of(sanna.id) ?? [])];
    expect(jobs.map(({ jobId }) => jobId)).toContain(late.id);
    for (const { begins } of today.of(sanna.id) ?? []) expect(begins >= '11:00').toBe(true);
    // Upkeep takes 110 minutes by the firm's rules.
    for (const { begins } of today.of(ilvo.id) ?? []) expect(begins >= '12:30').toBe(true);
    test.clock.tick(5 * 60);
    expect((await routes(on)).notThere).toEqual(expect.arrayContaining([ilvo.id, sanna.id]));
  });
});
