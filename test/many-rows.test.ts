import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';

import { ComputeService } from '#app/compute/compute.service.js';
import { withClient } from '#app/database/built-in-roles.js';
import { JobService } from '#app/jobs/job.service.js';
import { BusyError } from '#app/shared/domain-error.js';

import { statementsOf } from './support/count-statements.js';
import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

/** The largest list that a report, a walk test and a record may have. */
const ROOMS = 5000;

const saidBy = { name: 'Mara Quill', kind: 'office' };

const observations = (outcome: string, rooms = ROOMS) =>
  Array.from({ length: rooms }, (_, room) => ({
    trunk: `T${Math.floor(room / 100) + 1}`,
    node: `N${room + 1}`,
    function: 'announcement',
    outcome,
  }));

const sheet = (rooms: number, metres = '10') =>
  [
    'trunk;node;cable metres;room',
    ...observations('works', rooms).map(({ trunk, node }) => `${trunk};${node};${metres};${node}`),
  ].join('\n');

describe('very many rows', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp();
    // Jobs are left to another process, so that all that is counted is the request's.
    await test.app.get(JobService).beforeApplicationShutdown();
    // A report is taken also where there is no time to work anything out, and of so many rooms that takes long.
    jest.spyOn(test.app.get(ComputeService), 'run').mockRejectedValue(new BusyError(2));
  });

  afterAll(() => test.close());

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;

  const putSheet = (siteId: string, text: string, version: number, query = {}) =>
    test.http
      .put(`/api/v1/sites/${siteId}/as-built/sheet`)
      .query({ changedBy: 'Ilvo Marsh', reason: 'Sheet of the installer', ...query })
      .set('content-type', 'text/csv')
      .set('If-Match', `"${version}"`)
      .send(text);

  const asOwner = <T>(sql: string, values: unknown[]): Promise<T[]> =>
    withClient(test.ownerUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      return (await client.query(sql, values)).rows as T[];
    });

  it('go in by a sheet, a report, and walk tests on a ticket and on a visit, as large as they may be', async () => {
    const siteId = await drawSite(test, [row('A', 1)]);
    const { body: drawn } = await putSheet(siteId, sheet(ROOMS), 1).expect(200);
    expect(drawn).toMatchObject({ version: 2, saved: true });
    const { tickets } = await post(`sites/${siteId}/reports`, {
      saidBy,
      how: 'gone-through',
      observations: observations('fails'),
    });
    expect(tickets).toMatchObject([{ stillToProve: { length: ROOMS } }]);
    const proven = await post(`tickets/${tickets[0].id}/walk-tests`, {
      saidBy: { ...saidBy, kind: 'technician' },
      observations: observations('works'),
    });
    expect(proven.stillToProve).toEqual([]);
    const tests = await walkTestsOf(siteId);
    await post(tests, { testedBy: 'Ilvo Marsh', observations: observations('works') });
    const { body } = await test.http.get(`/api/v1/${tests}`).expect(200);
    expect(body.items[0].proven).toHaveLength(ROOMS);
  });

  /** Where those of a visit under way are sent and listed. */
  async function walkTestsOf(siteId: string): Promise<string> {
    const technician = await test.addPerson('technician');
    const visit = await post('visits', {
      siteId,
      kind: 'planned',
      on: '2026-03-02',
      purpose: 'Half-yearly upkeep',
      upkeep: true,
      technicianId: technician.id,
    });
    await post(`visits/${visit.id}/moves`, { to: 'under-way', by: 'Ilvo Marsh' });
    return `visits/${visit.id}/walk-tests`;
  }

  it('are told in pages: walk tests of a visit by ten', async () => {
    const path = await walkTestsOf(await drawSite(test, [row('A', 1)]));
    const walked = { trunk: 'A', node: 'A1', function: 'announcement', outcome: 'works' };
    const count = 12;
    for (let time = 0; time < count; time += 1)
      await post(path, { testedBy: 'Ilvo Marsh', observations: [walked] });
    const tests = await pages(path);
    expect(tests.map(({ length }) => length)).toEqual([10, 2]);
    expect(new Set(tests.flat()).size).toBe(count);
    await test.http.get(`/api/v1/${path}?limit=21`).expect(422);
  });

  /** The ids of a list, by page. */
  const pages = async (path: string): Promise<string[][]> => {
    const found: string[][] = [];
    for (let after = ''; ;) {
      const { body } = await test.http.get(`/api/v1/${path}${after}`).expect(200);
      found.push(body.items.map(({ id }: { id: string }) => id));
      if (body.next === null) return found;
      after = `?after=${body.next}`;
    }
  };

  it('are told by 5000, and move together when tickets are merged', async () => {
    const siteId = await drawSite(test, [row('A', 3), row('B', 3)]);
    const report = (trunk: string) =>
      post(`sites/${siteId}/reports`, {
        saidBy,
        how: 'volunteered',
        observations: [{ trunk, node: `${trunk}2`, function: 'bell', outcome: 'fails' }],
      });
    const [from] = (await report('A')).tickets;
    const [into] = (await report('B')).tickets;
    const add = (rows: number) =>
      asOwner(
        `INSERT INTO observations (id, entry_id, ticket_id, trunk, node, function, outcome, said_by,
           said_by_kind, how, observed_at, period)
         SELECT gen_random_uuid(), entry_id, ticket_id, trunk, node, function, 'works', said_by, said_by_kind,
           how, observed_at, period
         FROM (SELECT * FROM observations WHERE ticket_id = $1 LIMIT 1) AS one, generate_series(1, $2)`,
        [from.id, rows],
      );
    await add(10_000);
    const told = await pages(`tickets/${from.id}/observations`);
    expect(told.map(({ length }) => length)).toEqual([5000, 5000, 1]);
    expect(new Set(told.flat()).size).toBe(10_001);
    await test.http.get(`/api/v1/tickets/${from.id}/observations?limit=5001`).expect(422);
    await add(9_000);
    await post(`tickets/${from.id}/merge`, { saidBy, into: into.id });
    const count = `SELECT count(*)::int AS count FROM observations WHERE ticket_id = $1`;
    expect(await asOwner(count, [into.id])).toEqual([{ count: 19_002 }]);
  });

  it('are refused with a hundred errors and the number of all, checked only or not', async () => {
    const siteId = await drawSite(test, [row('A', 1)]);
    const wrong = sheet(320, '-4');
    for (const check of ['true', 'false']) {
      const { body } = await putSheet(siteId, wrong, 1, { check }).expect(422);
      expect(body.errors).toHaveLength(100);
      expect(body.detail).toMatch(/^320 things are wrong .* The first 100 are told\.$/);
    }
  });

  it('cost as many statements as one: visits in a list, tickets of a visit', async () => {
    const trunks = Array.from({ length: 10 }, (_, n) => row(`T${n + 1}`, 1));
    const siteId = await drawSite(test, trunks);
    const ticketIds: string[] = [];
    for (const { trunk } of trunks) {
      const { tickets } = await post(`sites/${siteId}/reports`, {
        saidBy,
        how: 'volunteered',
        observations: [{ trunk, node: `${trunk}1`, function: 'bell', outcome: 'fails' }],
      });
      ticketIds.push(tickets[0].id);
    }
    const plan = (ids: string[]) =>
      post('visits', {
        siteId,
        kind: 'call-out',
        on: '2026-03-03',
        purpose: 'Look',
        ticketIds: ids,
      });
    const one = await statementsOf(test.app, () => plan(ticketIds.slice(0, 1)));
    const all = await statementsOf(test.app, () => plan(ticketIds));
    expect(all).toHaveLength(one.length);
    for (let visit = 0; visit < 10; visit++)
      await plan(ticketIds.slice(visit % 9, (visit % 9) + 2));
    const list = async (limit: number) => {
      const ask = () => test.http.get(`/api/v1/visits?site=${siteId}&limit=${limit}`).expect(200);
      expect((await ask()).body.items).toHaveLength(limit);
      return (await statementsOf(test.app, ask)).length;
    };
    expect(await list(12)).toBe(await list(1));
  });
});
