import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { withClient } from '#app/database/built-in-roles.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';
import { siteHistory } from '#app/history/component-history.js';
import { HistoryRepository } from '#app/history/history.repository.js';
import { MODEL_RATES } from '#app/history/learned-rates.js';
import { foundBy, type WorkEntry } from '#app/history/work-done.js';
import type { Component, Place } from '#app/locator/index.js';
import { NOTHING_DRAWN } from '#app/sites/as-built.js';
import { seededRandom } from '#app/statistics/seeded-random.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const NODES = ['A1', 'A2', 'A3', 'A4'];
const TICKETS = 40;
const OF_A_TICKET = 100;

const FIRST = Date.UTC(2020, 0, 1);
const DAY = 86_400_000;
const day = (n: number) => new Date(FIRST + n * DAY);

const PLACES: Place[] = [
  { kind: 'head-end' },
  { kind: 'port', trunk: 'A' },
  ...NODES.map((node): Place => ({ kind: 'station', trunk: 'A', node })),
  ...NODES.flatMap((to, n): Place[] => [
    { kind: 'span', trunk: 'A', from: NODES[n - 1] ?? null, to },
    // As it was drawn otherwise: the same span.
    { kind: 'span', trunk: 'A', from: null, to },
  ]),
];

const EVERY: Component[] = [
  { component: 'head-end' },
  { component: 'port', trunk: 'A' },
  ...NODES.flatMap((node) =>
    (['station', 'junction-out', 'cable', 'junction-in'] as const).map((component) => ({
      component,
      trunk: 'A',
      node,
    })),
  ),
];

/** What somebody found or mended, in any order of days: what is told late is recorded late. */
function randomWork(random: () => number) {
  const one = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)]!;
  const happenedAt = day(Math.floor(random() * 1000));
  if (random() < 0.3) {
    const details = { mending: one(['lasting', 'temporary']), what: 'Something' };
    return { kind: 'mending', happenedAt, details };
  }
  const place = random() < 0.1 ? null : one(PLACES);
  const named = place?.kind === 'span' && random() < 0.7;
  const component = named ? one(['junction-out', 'cable', 'junction-in'] as const) : null;
  return { kind: 'finding', happenedAt, details: { place, component, mode: null } };
}

describe('the findings of a site of many years', () => {
  let test: TestApp;
  let siteId: string;
  let all: WorkEntry[];

  const inFirm = <T>(sql: string, values: unknown[]): Promise<T[]> =>
    withClient(test.ownerUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      return (await client.query(sql, values)).rows as T[];
    });

  async function report(of: string): Promise<string> {
    const observations = [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }];
    const saidBy = { name: 'Mara Quill', kind: 'office' };
    const { body } = await test.http
      .post(`/api/v1/sites/${of}/reports`)
      .send({ saidBy, how: 'volunteered', observations })
      .expect(201);
    return body.tickets[0].id as string;
  }

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    siteId = await drawSite(test, [row('A', NODES.length)]);
    const first = await report(siteId);
    const random = seededRandom(7);
    const work = Array.from({ length: TICKETS * OF_A_TICKET }, (_, n) => ({
      ...randomWork(random),
      ticket: n % TICKETS,
      n,
    }));
    await inFirm(
      `WITH copies AS (
         INSERT INTO tickets SELECT copied.* FROM tickets one, generate_series(1, ${TICKETS}) n,
           LATERAL jsonb_populate_record(NULL::tickets, to_jsonb(one) || jsonb_build_object(
             'id', gen_random_uuid(), 'number', 1000 + n, 'state', 'closed')) AS copied
         WHERE one.id = $1 RETURNING id, number),
       numbered AS (SELECT id, number - 1001 AS ticket FROM copies)
       INSERT INTO ticket_entries SELECT copied.* FROM ticket_entries one,
         jsonb_to_recordset($2) AS w (kind text, "happenedAt" timestamptz, details jsonb, ticket int, n int)
         JOIN numbered USING (ticket),
         LATERAL jsonb_populate_record(NULL::ticket_entries, to_jsonb(one) || jsonb_build_object(
           'id', gen_random_uuid(), 'ticket_id', numbered.id, 'kind', w.kind, 'happened_at', w."happenedAt",
           'recorded_at', timestamptz '2023-01-01' + w.n * interval '1 second', 'details', w.details)) AS copied
       WHERE one.ticket_id = $1 AND one.kind = 'report'`,
      [first, JSON.stringify(work)],
    );
    all = await inFirm<WorkEntry>(
      `SELECT e.ticket_id AS "ticketId", e.kind, e.happened_at AS "happenedAt", e.details
       FROM ticket_entries e JOIN tickets t ON t.id = e.ticket_id
       WHERE t.site_id = $1 AND e.kind IN ('finding', 'mending') ORDER BY e.recorded_at, e.id`,
      [siteId],
    );
  });

  afterAll(() => test.close());

  async function bearing(since: Date): Promise<WorkEntry[]> {
    const history = test.app.get(HistoryRepository);
    const read = () => history.pastOf(siteId, all[0]!.ticketId, since);
    const { work } = await test.app.get(FirmTransaction).run(FIRM_ID, 'read', read);
    return (JSON.parse(work) as WorkEntry[]).map((one) => ({
      ...one,
      happenedAt: new Date(one.happenedAt),
    }));
  }

  function told(entries: WorkEntry[], since: Date) {
    const given = { asBuilt: NOTHING_DRAWN, proofs: [], found: foundBy(entries), nearby: [] };
    const record = siteHistory(given, MODEL_RATES, since);
    return EVERY.map((of) => [of, record.newDaysAgo(of), record.touchedDaysAgo(of)]);
  }

  it('are read as far as they bear on a location, and say the same of every part at any time', async () => {
    expect(all).toHaveLength(TICKETS * OF_A_TICKET);
    for (const since of [0, 1, 3, 8, 20, 60, 250, 500, 999, 1000, 2000].map(day)) {
      const some = await bearing(since);
      expect(told(some, since)).toEqual(told(all, since));
      // Of a place as a whole and of each of its components: the last, the last that was made new, and their mendings.
      expect(some.length).toBeLessThanOrEqual(4 * (2 + NODES.length + 4 * NODES.length));
    }
    expect((await bearing(day(2000))).length).toBeGreaterThan(40);
  });

  it('are those of the site alone', async () => {
    const other = await drawSite(test, [row('A', NODES.length)]);
    const ticketId = await report(other);
    const { body } = await test.http.get(`/api/v1/tickets/${ticketId}/location`).expect(200);
    const history = test.app.get(HistoryRepository);
    const read = () => history.pastOf(other, ticketId, day(2000));
    expect(await test.app.get(FirmTransaction).run(FIRM_ID, 'read', read)).toEqual({
      heardBefore: '[]',
      work: '[]',
    });
    expect(body.places.length).toBeGreaterThan(0);
  });
});
