import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { statementsOf } from './support/count-statements.js';
import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const NOBODY = '01900000-0000-7000-8000-00000000dead';
const VISIT = '01900000-0000-7000-8000-00000000e0';
const SAID_BY = { name: 'Bea Orne', kind: 'office' };
const REASON = 'Closed until Tuesday: nobody to ask';

describe('a visit that is booked with what it says of its tickets', () => {
  let test: TestApp;
  let site: string;
  let ticket: string;
  let booked = 10;

  const get = async (path: string) => (await test.http.get(`/api/v1/${path}`).expect(200)).body;
  const book = (more: object = {}, sending: object = {}) =>
    test.http.post('/api/v1/visits').send({
      id: `${VISIT}${booked}`,
      siteId: site,
      kind: 'call-out',
      on: '2026-03-04',
      purpose: 'Rooms silent',
      ticketIds: [ticket],
      ...more,
      sending: { ticketIds: [ticket], saidBy: SAID_BY, reason: REASON, ...sending },
    });
  const visits = async () => (await get(`visits?site=${site}`)).items as { id: string }[];
  const moves = async () =>
    (await get(`tickets/${ticket}/log`)).items.filter(
      ({ kind }: { kind: string }) => kind === 'move',
    );

  async function expectNothingDone(): Promise<void> {
    expect((await get(`tickets/${ticket}`)).state).toBe('reported');
    expect(await moves()).toEqual([]);
    expect(await visits()).toEqual([]);
  }

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  beforeEach(async () => {
    booked++;
    site = await drawSite(test, [row('A', 3)]);
    const report = await test.http.post(`/api/v1/sites/${site}/reports`).send({
      saidBy: SAID_BY,
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    ticket = report.body.tickets[0].id;
  });

  afterAll(() => test.close());

  it('sends somebody: the ticket is to be visited, by whom and why, and where it was thought to lie is kept', async () => {
    const { body } = await book().expect(201);
    expect(body).toMatchObject({ ticketIds: [ticket], state: 'planned' });
    expect(body).not.toHaveProperty('sending');
    expect((await get(`tickets/${ticket}`)).state).toBe('to-visit');
    expect(await moves()).toMatchObject([
      { saidBy: SAID_BY.name, details: { from: 'reported', to: 'to-visit', reason: REASON } },
    ]);
    const client = new Client({ connectionString: test.appUrl });
    await client.connect();
    try {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const kept = `SELECT occasion, places FROM predictions WHERE ticket_id = $1`;
      const { rows } = await client.query(kept, [ticket]);
      expect(rows).toEqual([{ occasion: 'to-visit', places: expect.any(Array) }]);
    } finally {
      await client.end();
    }
  });

  it('does nothing at all where the visit is refused', async () => {
    const nobody = await book({ technicianId: NOBODY }).expect(422);
    expect(nobody.body.errors).toMatchObject([{ field: '/technicianId' }]);
    await expectNothingDone();
    const inThePast = await book({ on: '2026-02-02' }).expect(409);
    expect(inThePast.body.confirm).toEqual(['in-the-past']);
    await expectNothingDone();
    await book({ on: '2026-02-02', confirmed: ['in-the-past'] }).expect(201);
    expect(await moves()).toHaveLength(1);
  });

  it('does nothing at all where nobody may be sent yet, and says what to ask first', async () => {
    const { body } = await book({}, { reason: null }).expect(409);
    expect(body.unasked).toEqual(['head-end-on', 'ordinary-day', 'volume-up:A/A3']);
    await expectNothingDone();
    const reason = 'x'.repeat(2001);
    const { body: tooLong } = await book({}, { reason }).expect(422);
    expect(tooLong.errors).toMatchObject([{ field: '/sending/reason' }]);
    await expectNothingDone();
  });

  it('names a ticket that the visit is not for, one that is not there, and too many', async () => {
    const other = await book({}, { ticketIds: [ticket, NOBODY] }).expect(422);
    expect(other.body.errors).toEqual([
      { field: '/sending/ticketIds/1', reason: 'is none of the tickets that the visit is for' },
    ]);
    const both = [ticket, NOBODY];
    const missing = await book({ ticketIds: both }, { ticketIds: both }).expect(422);
    expect(missing.body.errors).toEqual([
      { field: '/sending/ticketIds/1', reason: `There is no ticket ${NOBODY}.` },
    ]);
    const many = Array.from({ length: 250 }, (_, i) => `${VISIT.slice(0, -3)}${i + 100}e0`);
    const tooMany = await book({}, { ticketIds: many }).expect(422);
    expect(tooMany.body.errors).toMatchObject([{ field: '/sending/ticketIds' }]);
    await expectNothingDone();
  });

  it('leaves a ticket to which somebody is sent already as it is, and a closed one closed', async () => {
    await book().expect(201);
    booked++;
    await book({ on: '2026-03-05' }).expect(201);
    expect(await moves()).toHaveLength(1);
    const close = { saidBy: SAID_BY, to: 'closed', reason: 'Works again' };
    await test.http.post(`/api/v1/tickets/${ticket}/moves`).send(close).expect(201);
    booked++;
    await book({ on: '2026-03-06' }).expect(409);
    expect((await get(`tickets/${ticket}`)).state).toBe('closed');
    expect(await visits()).toHaveLength(2);
  });

  it('is done for a technician who takes it, and not for one who would send somebody else', async () => {
    const [ilvo, sanna] = [await test.addPerson('technician'), await test.addPerson('technician')];
    const body = {
      siteId: site,
      kind: 'call-out',
      on: '2026-03-04',
      purpose: 'Rooms silent',
      ticketIds: [ticket],
      technicianId: sanna.id,
      sending: { ticketIds: [ticket], saidBy: SAID_BY, reason: REASON },
    };
    const { body: refused } = await ilvo.http.post('/api/v1/visits').send(body).expect(422);
    expect(refused.errors).toMatchObject([{ field: '/technicianId' }]);
    await expectNothingDone();
    await sanna.http.post('/api/v1/visits').send(body).expect(201);
    expect(await moves()).toHaveLength(1);
  });

  it('asks the database 30 things at most, and 12 for each further ticket', async () => {
    const trunks = ['A', 'B', 'C', 'D', 'E'];
    const asked = async (count: number) => {
      booked++;
      site = await drawSite(
        test,
        trunks.map((trunk) => row(trunk, 3)),
      );
      const ids: string[] = [];
      for (const trunk of trunks.slice(0, count)) {
        const { body } = await test.http.post(`/api/v1/sites/${site}/reports`).send({
          saidBy: SAID_BY,
          how: 'volunteered',
          observations: [{ trunk, node: `${trunk}3`, function: 'bell', outcome: 'fails' }],
        });
        ids.push(body.tickets[0].id);
      }
      ticket = ids[0] ?? '';
      expect(new Set(ids).size).toBe(count);
      const sent = await statementsOf(test.app, () =>
        book({ ticketIds: ids }, { ticketIds: ids }).expect(201),
      );
      return sent.length;
    };
    const [one = 0, two = 0, five = 0] = [await asked(1), await asked(2), await asked(5)];
    expect(one).toBeLessThanOrEqual(30);
    expect(two - one).toBeLessThanOrEqual(12);
    expect(five - two).toBeLessThanOrEqual(3 * 12);
  });

  it('is done once where the same is sent three times at once, and once more', async () => {
    const answers = await Promise.all([book(), book(), book()]);
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201]);
    await book().expect(201);
    expect(await visits()).toHaveLength(1);
    expect(await moves()).toHaveLength(1);
  });
});
