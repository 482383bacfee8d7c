import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { extractText } from 'unpdf';

import { TROUBLE_CLASSES } from '#app/contracts/class-of-trouble.js';
import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const HOUR = 60;

/**
 * A contract manager's path from the contract to its renewal, over a dispute. Due instants are reckoned by hand here, from nothing
 * but the calendar of 2026, in the comments beside them; the program's own reckoning is not asked.
 *
 * The site is in Berlin: UTC + 1 until Sunday, 29 March 2026, 02:00, when clocks go on to 03:00; UTC + 2 from then on. Hours that count:
 * Monday to Friday, 08:00 to 17:00. Good Friday is 3 April 2026, Easter Monday 6 April. Closed by the contract's calendar: Tuesday, 7
 * April (day of the fair).
 */
describe('a contract’s year, from its hours to its renewal', () => {
  let test: TestApp;
  let manager: TestPerson;
  let site: string;
  let contract: { id: string; version: number };
  let ticket: { id: string; number: number };

  const settle = () => test.app.get(JobService).settle();
  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const get = async (path: string) => (await manager.http.get(`/api/v1/${path}`).expect(200)).body;
  const say = (what: string, body: object) => post(`tickets/${ticket.id}/${what}`, body);
  const clock = () => get(`tickets/${ticket.id}/clock`);
  /** To an instant; the clock of the tests stands still else. */
  const goTo = (instant: string) =>
    test.clock.tick((Date.parse(instant) - test.clock.now().getTime()) / 60_000);

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    manager = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    site = await drawSite(test, [row('A', 6)]);
    await test.http
      .patch(`/api/v1/sites/${site}`)
      .set('If-Match', '"1"')
      .send({ zone: 'Europe/Berlin' })
      .expect(200);
  });

  afterAll(() => test.close());

  it('begins with hours, holidays and a calendar that the manager agrees', async () => {
    const { clientId } = await get(`sites/${site}`);
    const calendar = await post('closed-calendars', {
      name: 'Town',
      times: [{ from: '2026-04-07', until: '2026-04-08', name: 'Fair' }],
    });
    const { body } = await manager.http
      .post('/api/v1/contracts')
      .send({
        title: 'Care of Larkfield',
        clientId,
        siteIds: [site],
        from: '2026-03-01',
        until: '2027-03-01',
        kind: 'comprehensive',
        visitsPerYear: 2,
        feeMinor: 120_000,
        currency: 'EUR',
        pausesForParts: true,
        promises: TROUBLE_CLASSES.map((troubleClass) => {
          return { troubleClass, responseMinutes: 10 * HOUR, restoreMinutes: 24 * HOUR };
        }),
        coverage: {
          windows: [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '17:00' })),
          publicHolidays: { country: 'DE', region: null },
          calendarIds: [calendar.id],
        },
      })
      .expect(201);
    contract = body;
    expect(contract).toMatchObject({ version: 1 });
  });

  it('runs a clock from when it was said, which is not when it was written down', async () => {
    // Written down on Thursday, 2 April, 16:30 by the clock on the wall (14:30 in UTC); said for 14:00 (12:00 in UTC).
    goTo('2026-04-02T14:30:00Z');
    const observations = [1, 2, 3, 4, 5, 6].map((room) => ({
      ...{ trunk: 'A', node: `A${room}`, function: 'announcement' },
      outcome: room < 4 ? 'works' : 'fails',
    }));
    const report = { saidBy: OFFICE, how: 'gone-through', saidAt: '2026-04-02T12:00:00Z' };
    const { tickets } = await post(`sites/${site}/reports`, { ...report, observations });
    [ticket] = tickets;
    await settle();
    const told = await clock();
    expect(told).toMatchObject({
      contractId: contract.id,
      zone: 'Europe/Berlin',
      reportedAt: '2026-04-02T12:00:00.000Z',
      recordedAt: '2026-04-02T14:30:00.000Z',
    });
    // Response, 10 h: Thursday 14:00 to 17:00 is 3 h, 7 left. Friday, Monday: holidays; the weekend has no hours; Tuesday: the fair.
    // Wednesday, 8 April, 08:00 + 7 h = 15:00, 13:00 in UTC.
    // Restore, 24 h: 3 h on Thursday, 9 h on Wednesday and on Thursday, 9 April; 3 left: Friday, 10 April, 11:00, 09:00 in UTC.
    expect(told.promises).toMatchObject([
      { promise: 'response', state: 'running', dueAt: '2026-04-08T13:00:00.000Z' },
      { promise: 'restore', state: 'running', dueAt: '2026-04-10T09:00:00.000Z' },
    ]);
    expect(told.promises[0].lines.map(({ words }: { words: string }) => words)).toEqual([
      'Thursday 2 April, 14:00 to 17:00: 3 h, 7 h left',
      expect.stringMatching(/^Friday 3 April: closed \(.+\)$/),
      'Saturday 4 April to Sunday 5 April: no hours',
      expect.stringMatching(/^Monday 6 April: closed \(.+\)$/),
      'Tuesday 7 April: closed (Fair (Town))',
      'Wednesday 8 April, 08:00 to 15:00: 7 h, used up',
    ]);
  });

  it('stands still with evidence, and goes on from just there', async () => {
    // Nobody lets them in on Wednesday, 8 April, from 09:15 to 11:45 (07:15 to 09:45 in UTC): 2 h 30 of hours that count.
    goTo('2026-04-08T10:00:00Z');
    const evidence = 'Gate locked, photo 3';
    await say('pauses', {
      ...{ saidBy: TECHNICIAN, reason: 'no-access', evidence },
      saidAt: '2026-04-08T07:15:00Z',
    });
    expect((await clock()).promises[0]).toMatchObject({ state: 'paused', dueAt: null });
    await say('pauses/end', { saidBy: TECHNICIAN, saidAt: '2026-04-08T09:45:00Z' });
    const told = await clock();
    expect(told.pauses).toMatchObject([{ reason: 'no-access', evidence, saidBy: 'Ilvo Marsh' }]);
    // Response: 1 h 15 on Wednesday until 09:15, 5 h 45 left at 11:45: only 5 h 15 until 17:00; 30 min on Thursday: 08:30, 06:30 in UTC.
    // Restore: 3 h + 1 h 15 + 5 h 15 = 9 h 30 by Wednesday evening; 9 h on Thursday; 5 h 30 left: Friday 13:30, 11:30 in UTC.
    expect(told.promises).toMatchObject([
      { state: 'running', dueAt: '2026-04-09T06:30:00.000Z' },
      { state: 'running', dueAt: '2026-04-10T11:30:00.000Z' },
    ]);
  });

  it('is missed by an hour and a half, and the manager says why', async () => {
    // There at 10:00 on Thursday, 9 April (08:00 in UTC): 3 h + 1 h 15 + 5 h 15 + 2 h = 11 h 30 of 10.
    goTo('2026-04-09T08:00:00Z');
    await settle();
    await say('moves', { saidBy: TECHNICIAN, to: 'at-work', reason: 'There' });
    await settle();
    const cause = 'The only technician was at another site';
    await manager.http
      .post(`/api/v1/tickets/${ticket.id}/breach-causes`)
      .send({ saidBy: { name: 'Cato Lind', kind: 'office' }, promise: 'response', cause })
      .expect(201);
    // Works at 12:00 (10:00 in UTC): 13 h 30 of 24.
    goTo('2026-04-09T10:00:00Z');
    const place = { kind: 'span', trunk: 'A', from: 'A3', to: 'A4' };
    await say('findings', {
      saidBy: TECHNICIAN,
      place,
      component: 'junction-in',
      mode: 'open-speech',
    });
    await say('mendings', {
      saidBy: TECHNICIAN,
      mending: 'lasting',
      what: 'Joint remade',
      minutes: 20,
    });
    const proven = [4, 5, 6].map((room) => ({
      ...{ trunk: 'A', node: `A${room}`, function: 'announcement', outcome: 'works' },
    }));
    await say('walk-tests', { saidBy: TECHNICIAN, observations: proven });
    await say('moves', { saidBy: TECHNICIAN, to: 'closed', reason: 'Proven' });
    await settle();
    expect((await clock()).promises).toMatchObject([
      { state: 'breached', minutesTaken: 11.5 * HOUR, cause, doneAt: '2026-04-09T08:00:00.000Z' },
      { state: 'met', minutesTaken: 13.5 * HOUR, doneAt: '2026-04-09T10:00:00.000Z' },
    ]);
    const { items } = await get(`tickets/${ticket.id}/log`);
    const breaches = items.filter(({ kind }: { kind: string }) => kind === 'promise-breach');
    expect(breaches).toHaveLength(1);
  });

  it('is disputed with one set of numbers: the ticket, the contract, the review, its table and its paper', async () => {
    const own = (await clock()).promises;
    const [listed] = (await get(`contracts/${contract.id}/clocks`)).items;
    expect(listed.clock.promises).toEqual(own);
    const review = await get(`contracts/${contract.id}/review?year=1`);
    expect(review.tickets).toHaveLength(1);
    expect(review.tickets[0].clock.promises).toEqual(own);
    expect(review.promises).toMatchObject([
      { promise: 'response', met: 0, breached: 1, open: 0, meanMinutesTaken: 690 },
      { promise: 'restore', met: 1, breached: 0, open: 0, meanMinutesTaken: 810 },
    ]);
    const of = `ticket ${ticket.number}, response`;
    const path = `/api/v1/contracts/${contract.id}/review`;
    const sheet = await manager.http.get(`${path}/sheet?year=1`).expect(200);
    const rows: Record<string, string>[] = parse(sheet.text, { columns: true, bom: true });
    const figures = Object.fromEntries(
      rows.filter((one) => one['of'] === of).map(({ figure, value }) => [figure, value]),
    );
    expect(figures).toMatchObject({ minutesTaken: '690', promisedMinutes: '600' });
    const paper = await manager.http
      .get(`${path}/paper?year=1`)
      .buffer(true)
      .expect(200)
      .expect('content-type', 'application/pdf');
    const read = await extractText(new Uint8Array(paper.body as Buffer), { mergePages: true });
    const text = read.text.replaceAll(/\s+/g, ' ');
    for (const line of own.flatMap(({ lines }: { lines: { words: string }[] }) => lines)) {
      expect(text).toContain(line.words.replaceAll(/\s+/g, ' '));
    }
    expect(text).toContain('The only technician was at another site');
    expect(text).toContain('Gate locked, photo 3');
  });

  it('is renewed for the year after, with the same hours, and only once', async () => {
    const renew = () =>
      manager.http.post(`/api/v1/contracts/${contract.id}/renewal`).send({ feeMinor: 126_000 });
    const [one, other] = await Promise.all([renew(), renew()]);
    expect([one.status, other.status].sort()).toEqual([201, 409]);
    const { body: next } = one.status === 201 ? one : other;
    const before = await get(`contracts/${contract.id}`);
    expect(next).toMatchObject({
      from: '2027-03-01',
      until: '2028-03-01',
      feeMinor: 126_000,
      coverage: before.coverage,
      promises: before.promises,
    });
    // The ticket stays with the contract that was in force when it was reported.
    expect(await clock()).toMatchObject({ contractId: contract.id });
    expect((await get(`contracts/${next.id}/clocks`)).items).toEqual([]);
  });
});
