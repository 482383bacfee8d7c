import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { withClient } from '#app/database/built-in-roles.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

/** The clock stands at Monday, 2 March 2026, 08:00 in UTC, which is the sites’ zone. */
describe('the work that costs are learned from', () => {
  let test: TestApp;
  let site: string;
  let ticket: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    site = await drawSite(test, [row('A', 3)]);
    const { body } = await test.http
      .post(`/api/v1/sites/${site}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    ticket = body.tickets[0].id;
  });

  afterAll(() => test.close());

  const asOwner = (sql: string, values: unknown[]) =>
    withClient(test.ownerUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      await client.query(sql, values);
    });

  /** So many call-outs, so many a day, the latest so many days ago. */
  const callOuts = (count: number, aDay: number, daysAgo: number) =>
    asOwner(
      `INSERT INTO visits (firm_id, id, site_id, kind, "on", purpose, upkeep, state, started_at, finished_at, version, created_at)
       SELECT $1, gen_random_uuid(), $2, 'call-out', day, 'X', false, 'done', day + time '09:00', day + time '10:00', 3, day
       FROM (SELECT date '2026-03-01' - $5::int - i / $4::int AS day FROM generate_series(0, $3::int - 1) i) days`,
      [FIRM_ID, site, count, aDay, daysAgo],
    );

  const mendings = (count: number, aDay: number, daysAgo: number) =>
    asOwner(
      `INSERT INTO ticket_entries (firm_id, id, ticket_id, kind, said_by, happened_at, recorded_at, details)
       SELECT $1, gen_random_uuid(), $2, 'mending', 'X', day + time '12:00', day + time '12:00', '{"parts": []}'
       FROM (SELECT date '2026-03-01' - $5::int - i / $4::int AS day FROM generate_series(0, $3::int - 1) i) days`,
      [FIRM_ID, ticket, count, aDay, daysAgo],
    );

  const learnedFrom = async () =>
    (await test.http.get(`/api/v1/should-cost?sites=${site}`).expect(200)).body.learnedFrom;

  it('is all of it while there is little, and the same days of visits and of mendings where there is much', async () => {
    await callOuts(7, 1, 200);
    await mendings(40, 2, 200);
    await mendings(5, 1, 0);
    expect(await learnedFrom()).toEqual({ callOuts: 7, mendings: 45, upkeepVisits: 0 });
    // The latest 500 are of 25 days: what was mended before them has its visits left out.
    await callOuts(1500, 20, 0);
    expect(await learnedFrom()).toEqual({ callOuts: 500, mendings: 5, upkeepVisits: 0 });
    // The latest 500 of these are of 5 days.
    await mendings(1500, 100, 0);
    expect(await learnedFrom()).toEqual({ callOuts: 100, mendings: 500, upkeepVisits: 0 });
  });
});
