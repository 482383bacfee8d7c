import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { FirmTransaction } from '#app/database/firm-transaction.js';
import { JobService } from '#app/jobs/job.service.js';

import { statementsOf } from './support/count-statements.js';
import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '17:00' }));
const HOUR = 60;

/** The clock stands at Monday, 2 March 2026, 08:00 in UTC, which is the sites’ zone. */
describe('promise clocks on tickets', () => {
  let test: TestApp;
  let site: string;
  let contract: { id: string; version: number };

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const get = async (path: string) => (await test.http.get(`/api/v1/${path}`).expect(200)).body;
  const settle = () => test.app.get(JobService).settle();
  const silent = (trunk: string, ...nodes: number[]) =>
    nodes.map((node) => {
      return { trunk, node: `${trunk}${node}`, function: 'bell', outcome: 'fails' };
    });
  const report = async (siteId: string, observations: object[], more: object = {}) => {
    const body = { saidBy: OFFICE, how: 'volunteered', observations, ...more };
    return (await post(`sites/${siteId}/reports`, body)).tickets[0].id as string;
  };
  const clockOf = (ticketId: string) => get(`tickets/${ticketId}/clock`);
  const kindsOf = async (ticketId: string) =>
    (await get(`tickets/${ticketId}/log`)).items.map(({ kind }: { kind: string }) => kind);
  const say = (ticketId: string, what: string, body: object, status = 201) =>
    post(`tickets/${ticketId}/${what}`, { saidBy: TECHNICIAN, ...body }, status);
  const move = (ticketId: string, to: string) => say(ticketId, 'moves', { to, reason: 'So' });

  /** As the job does that waits for the instant. */
  async function look(ticketId: string): Promise<void> {
    await test.app
      .get(FirmTransaction)
      .run(FIRM_ID, 'write', () =>
        test.app.get(JobService).enqueue('promise-clocks', { ticketId }),
      );
    await settle();
  }

  async function coveredSite(more: object = {}): Promise<string> {
    const drawn = await drawSite(test, [row('A', 3), row('B', 2)]);
    const { clientId } = await get(`sites/${drawn}`);
    contract = await post('contracts', {
      title: 'Upkeep 2026',
      clientId,
      siteIds: [drawn],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 2,
      feeMinor: 100_000,
      currency: 'EUR',
      promises: [
        { troubleClass: 'whole-trunk', responseMinutes: 4 * HOUR, restoreMinutes: 8 * HOUR },
        { troubleClass: 'several-rooms', responseMinutes: 8 * HOUR, restoreMinutes: 18 * HOUR },
        { troubleClass: 'one-room', responseMinutes: 18 * HOUR },
      ],
      coverage: { windows: WEEK },
      ...more,
    });
    return drawn;
  }

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    site = await coveredSite();
  });

  afterAll(() => test.close());

  it('run by the contract in force and the class of the trouble, and say so line by line', async () => {
    const ticketId = await report(site, silent('B', 1, 2));
    const clock = await clockOf(ticketId);
    expect(clock).toMatchObject({
      contractId: contract.id,
      zone: 'Etc/UTC',
      troubleClass: 'whole-trunk',
      computedClass: 'whole-trunk',
      reportedAt: '2026-03-02T08:00:00.000Z',
      recordedAt: '2026-03-02T08:00:00.000Z',
      none: null,
    });
    expect(clock.promises).toMatchObject([
      {
        promise: 'response',
        state: 'running',
        dueAt: '2026-03-02T12:00:00.000Z',
        minutesLeft: 240,
      },
      { promise: 'restore', dueAt: '2026-03-02T16:00:00.000Z' },
    ]);
    expect(clock.promises[0].lines).toEqual([
      {
        kind: 'counted',
        words: 'Monday 2 March, 08:00 to 12:00: 4 h, used up',
        fact: {
          day: '2026-03-02',
          from: '2026-03-02T08:00:00.000Z',
          until: '2026-03-02T12:00:00.000Z',
          minutes: 240,
          minutesLeft: 0,
        },
      },
    ]);
    expect(clock.promises[0].words).toMatch(
      /^somebody on site within 4 h: reported Monday 2 March, 08:00/,
    );
    // What the clock was is known before it changes.
    await settle();
    await say(ticketId, 'trouble-class', { troubleClass: 'one-room', reason: '' }, 422);
    const reason = 'B2 is a store that nobody uses';
    const said = await say(ticketId, 'trouble-class', { troubleClass: 'one-room', reason });
    expect(said).toMatchObject({
      troubleClass: 'one-room',
      computedClass: 'whole-trunk',
      overrideReason: reason,
      promises: [{ promisedMinutes: 18 * HOUR, dueAt: '2026-03-03T17:00:00.000Z' }],
    });
    await settle();
    const changed = (await get(`tickets/${ticketId}/log`)).items.find(
      (one: { kind: string }) => one.kind === 'promise-changed',
    );
    expect(changed).toMatchObject({
      saidBy: 'Lastheard',
      details: {
        promise: 'response',
        wasDueAt: '2026-03-02T12:00:00.000Z',
        dueAt: '2026-03-03T17:00:00.000Z',
      },
    });
    await move(ticketId, 'closed');
  });

  it('stop for a stated reason with evidence, and go on from just there', async () => {
    const heard = { trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' };
    const ticketId = await report(site, [heard, ...silent('A', 2, 3)]);
    const [start] = (await clockOf(ticketId)).promises;
    expect(start).toMatchObject({ promisedMinutes: 480, dueAt: '2026-03-02T16:00:00.000Z' });
    await say(ticketId, 'pauses', { reason: 'no-access' }, 422);
    await say(ticketId, 'pauses', { reason: 'lunch', evidence: 'x' }, 422);
    expect((await say(ticketId, 'pauses/end', {}, 409)).errors[0].field).toBe('/saidAt');
    const forParts = await say(
      ticketId,
      'pauses',
      { reason: 'part-on-order', evidence: 'Order 7' },
      409,
    );
    expect(forParts.detail).toMatch(/does not let the clock stop for parts/);
    expect(forParts.errors).toEqual([{ field: '/reason', reason: forParts.detail }]);
    test.clock.tick(60);
    const pause = { reason: 'no-access', evidence: 'Gate locked, photo 3' };
    const paused = await say(ticketId, 'pauses', pause);
    expect(paused.promises[0]).toMatchObject({ state: 'paused', dueAt: null, minutesLeft: 420 });
    const { name: saidBy } = TECHNICIAN;
    expect(paused.pauses).toEqual([
      { ...pause, from: '2026-03-02T09:00:00.000Z', until: null, saidBy },
    ]);
    expect((await say(ticketId, 'pauses', pause, 409)).errors[0].field).toBe('/saidAt');
    test.clock.tick(90);
    const before = await say(ticketId, 'pauses/end', { saidAt: '2026-03-02T08:30:00Z' }, 422);
    expect(before.errors[0].field).toBe('/saidAt');
    const resumed = await say(ticketId, 'pauses/end', { saidAt: '2026-03-02T10:15:00Z' });
    expect(resumed.promises[0]).toMatchObject({
      state: 'running',
      dueAt: '2026-03-03T08:15:00.000Z',
    });
    expect(resumed.promises[0].lines.map(({ kind }: { kind: string }) => kind)).toEqual([
      'counted',
      'paused',
      'counted',
      'counted',
    ]);
    const early = { ...pause, saidAt: '2026-03-02T10:14:00Z' };
    expect((await say(ticketId, 'pauses', early, 422)).errors[0].field).toBe('/saidAt');
    await move(ticketId, 'closed');
    await say(ticketId, 'pauses', pause, 409);
  });

  it('warn once, and tell a breach once with what somebody says was its cause', async () => {
    const drawn = await coveredSite();
    const ticketId = await report(drawn, silent('B', 1, 2));
    await settle();
    expect(await kindsOf(ticketId)).toEqual(['report']);
    const unbroken = { promise: 'response', cause: 'Snow' };
    const refused = await say(ticketId, 'breach-causes', unbroken, 409);
    expect(refused.errors[0].field).toBe('/promise');
    test.clock.tick(3 * HOUR);
    await Promise.all([look(ticketId), look(ticketId), look(ticketId)]);
    expect(await kindsOf(ticketId)).toEqual(['report', 'promise-warning']);
    test.clock.tick(2 * HOUR);
    await look(ticketId);
    await look(ticketId);
    const kinds = await kindsOf(ticketId);
    expect(kinds.filter((kind: string) => kind === 'promise-warning')).toHaveLength(1);
    expect(kinds.filter((kind: string) => kind === 'promise-breach')).toHaveLength(1);
    await move(ticketId, 'at-work');
    const cause = 'The only technician was at another site';
    const told = await say(ticketId, 'breach-causes', { promise: 'response', cause });
    expect(told.promises[0]).toMatchObject({ state: 'breached', cause, minutesTaken: 5 * HOUR });
    await settle();
    expect(
      (await kindsOf(ticketId)).filter((kind: string) => kind === 'promise-breach'),
    ).toHaveLength(1);
    await move(ticketId, 'closed');
  });

  it('are reckoned anew when a calendar is corrected, and say so', async () => {
    const calendar = await post('closed-calendars', { name: 'School' });
    const drawn = await coveredSite({ coverage: { windows: WEEK, calendarIds: [calendar.id] } });
    const ticketId = await report(drawn, silent('A', 1));
    await settle();
    const [before] = (await clockOf(ticketId)).promises;
    const today = (await clockOf(ticketId)).reportedAt.slice(0, 10);
    const tomorrow = new Date(Date.parse(today) + 86_400_000).toISOString().slice(0, 10);
    const after = new Date(Date.parse(today) + 2 * 86_400_000).toISOString().slice(0, 10);
    await test.http
      .patch(`/api/v1/closed-calendars/${calendar.id}`)
      .set('If-Match', '"1"')
      .send({ times: [{ from: tomorrow, until: after, name: 'Fair' }] })
      .expect(200);
    await settle();
    const [changed] = (await clockOf(ticketId)).promises;
    expect(Date.parse(changed.dueAt) - Date.parse(before.dueAt)).toBe(86_400_000);
    expect(changed.words).toContain('closed (Fair (School))');
    const entry = (await get(`tickets/${ticketId}/log`)).items.at(-1);
    expect(entry).toMatchObject({
      kind: 'promise-changed',
      details: { wasDueAt: before.dueAt, dueAt: changed.dueAt },
    });
    await move(ticketId, 'closed');
  });

  it('keep both instants of a back-dated report, and a split keeps the report’s', async () => {
    const drawn = await coveredSite();
    const { reportedAt: now } = await clockOf(await report(drawn, silent('B', 1)));
    const saidAt = new Date(Date.parse(now) - 3 * 3_600_000).toISOString();
    const ticketId = await report(drawn, silent('A', 1, 2), { saidAt });
    expect(await clockOf(ticketId)).toMatchObject({ reportedAt: saidAt, recordedAt: now });
    test.clock.tick(30);
    const { items } = await get(`tickets/${ticketId}/observations`);
    const split = await post(`tickets/${ticketId}/split`, {
      saidBy: OFFICE,
      observationIds: [items[1].id],
    });
    expect(await clockOf(split.id)).toMatchObject({ reportedAt: saidAt, recordedAt: now });
  });

  it('are none where no contract was in force when it was reported', async () => {
    const drawn = await drawSite(test, [row('A', 2)]);
    const clock = await clockOf(await report(drawn, silent('A', 1)));
    expect(clock).toMatchObject({ none: 'no-contract', contractId: null, promises: [] });
    const covered = await coveredSite({ from: '2026-01-01', until: '2026-02-01' });
    const late = await report(covered, silent('A', 1));
    expect(await clockOf(late)).toMatchObject({ none: 'no-contract' });
    await say(late, 'pauses', { reason: 'no-access', evidence: 'x' }, 409);
    const early = await report(covered, silent('B', 1), { saidAt: '2026-01-31T16:00:00Z' });
    expect(await clockOf(early)).toMatchObject({
      none: null,
      reportedAt: '2026-01-31T16:00:00.000Z',
    });
  });

  it('begin when somebody begins a visit for the ticket', async () => {
    const drawn = await coveredSite();
    const ticketId = await report(drawn, silent('B', 1, 2));
    const technician = await test.addPerson('technician');
    const { reportedAt } = await clockOf(ticketId);
    const visit = await post('visits', {
      siteId: drawn,
      kind: 'call-out',
      on: reportedAt.slice(0, 10),
      technicianId: technician.id,
      purpose: 'Silent',
      ticketIds: [ticketId],
    });
    test.clock.tick(20);
    await post(`visits/${visit.id}/moves`, { to: 'under-way', by: 'Ilvo Marsh' });
    const [response] = (await clockOf(ticketId)).promises;
    expect(response.state).toBe('met');
    expect(Date.parse(response.doneAt) - Date.parse(reportedAt)).toBe(20 * 60_000);
  });

  it('are met by a mending, not when the ticket is closed days later, and run on where it is taken back', async () => {
    const other = await coveredSite();
    const ticketId = await report(other, silent('B', 1, 2));
    await settle();
    const restore = async () => (await clockOf(ticketId)).promises[1];
    test.clock.tick(10);
    expect(await restore()).toMatchObject({ promise: 'restore', doneAt: null });
    const mendedAt = test.clock.now().toISOString();
    await say(ticketId, 'mendings', {
      ...{ mending: 'temporary', what: 'Bridged', followUpDueOn: '2026-04-01' },
    });
    test.clock.tick(10);
    expect(await restore()).toMatchObject({ state: 'met', doneAt: mendedAt });
    expect((await clockOf(ticketId)).promises[0]).toMatchObject({ doneAt: mendedAt });
    // Coming back for the lasting mending is no new fault; nor is closing it.
    await move(ticketId, 'at-work');
    await say(ticketId, 'mendings', { mending: 'lasting', what: 'A new joint' });
    test.clock.tick(10);
    await move(ticketId, 'closed');
    expect(await restore()).toMatchObject({ state: 'met', doneAt: mendedAt });
    await move(ticketId, 'reported');
    const { items } = await get(`tickets/${ticketId}/log`);
    const mendings = items.filter(({ kind }: { kind: string }) => kind === 'mending');
    for (const { id } of mendings)
      await say(ticketId, `mendings/${id}/withdraw`, { reason: 'Another school' });
    expect(await restore()).toMatchObject({ doneAt: null });
  });

  it('sort the list by the time that is left, in one query', async () => {
    await settle();
    const all = (await get('tickets?sort=time-left&limit=200')).items;
    const dues = all.map(
      (one: { nextPromise: { dueAt: string | null } | null }) => one.nextPromise?.dueAt ?? '9',
    );
    expect(dues.length).toBeGreaterThan(4);
    expect(dues).toEqual(dues.toSorted());
    expect(dues.at(-1)).toBe('9');
    const first = await get('tickets?sort=time-left&limit=3');
    const second = await get(`tickets?sort=time-left&limit=200&after=${first.next}`);
    expect([...first.items, ...second.items]).toEqual(all);
    const list = () => test.http.get('/api/v1/tickets?sort=time-left').expect(200);
    const selects = (await statementsOf(test.app, list)).filter((sql) =>
      sql.includes('ticket_clocks'),
    );
    expect(selects).toHaveLength(1);
    await test.http.get('/api/v1/tickets?sort=size').expect(422);
  });

  it('are told for a contract as a whole, as each ticket tells its own', async () => {
    const drawn = await coveredSite();
    const ofContract = contract.id;
    const first = await report(drawn, silent('A', 1));
    await settle();
    const path = `contracts/${ofContract}/clocks`;
    const ask = () => test.http.get(`/api/v1/${path}`).expect(200);
    await ask();
    const withOne = await statementsOf(test.app, ask);
    const { items, isCutOff } = await get(path);
    expect(isCutOff).toBe(false);
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ siteId: drawn, clock: { contractId: ofContract } });
    expect(items[0].clock).toEqual(await clockOf(first));
    // Closed, so that the next reports open tickets of their own.
    const tickets = [first];
    for (let more = 0; more < 2; more++) {
      await say(tickets.at(-1)!, 'moves', { to: 'closed', reason: 'So' });
      test.clock.tick(1);
      tickets.push(await report(drawn, silent('A', 1)));
    }
    await settle();
    const all = (await get(path)).items as { clock: { ticketId: string } }[];
    expect(all.map(({ clock }) => clock.ticketId)).toEqual(tickets.toReversed());
    expect(await statementsOf(test.app, ask)).toHaveLength(withOne.length);
    await test.http.get(`/api/v1/contracts/${drawn}/clocks`).expect(404);
    await (await test.addPerson('dispatcher')).http.get(`/api/v1/${path}`).expect(200);
    await (await test.addPerson('technician')).http.get(`/api/v1/${path}`).expect(403);
  });

  it('are seen by the client’s people, and written by the firm', async () => {
    const drawn = await coveredSite();
    const ticketId = await report(drawn, silent('A', 1));
    const { clientId } = await get(`sites/${drawn}`);
    const client = (await test.addPerson('client', { clientId })).http;
    await client.get(`/api/v1/tickets/${ticketId}/clock`).expect(200);
    const body = { saidBy: OFFICE, reason: 'no-access', evidence: 'x' };
    await client.post(`/api/v1/tickets/${ticketId}/pauses`).send(body).expect(403);
    const technician = (await test.addPerson('technician')).http;
    const override = { saidBy: TECHNICIAN, troubleClass: 'one-room', reason: 'x' };
    await technician.post(`/api/v1/tickets/${ticketId}/trouble-class`).send(override).expect(403);
    await technician.post(`/api/v1/tickets/${ticketId}/pauses`).send(body).expect(201);
  });
});
