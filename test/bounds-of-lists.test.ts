import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const ILVO = { name: 'Ilvo Marsh', kind: 'technician' };
const READING = { kind: 'continuity', trunk: 'A', to: 'A2', cores: ['supply'], passes: true };
const LOOK = { saidBy: ILVO, place: { kind: 'head-end' }, part: 'power', seen: 'sound' };
const OFFICE = { name: 'Mara Quill', kind: 'office' };

describe('what is said of one ticket or visit', () => {
  let test: TestApp;
  let owner: Client;
  let siteId: string;
  let ticketId: string;
  let visitId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    owner = new Client({ connectionString: test.ownerUrl });
    await owner.connect();
    await owner.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    siteId = await drawSite(test, [row('A', 3)]);
    const observations = [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }];
    const report = { saidBy: OFFICE, how: 'volunteered', observations };
    ticketId = (await post(`sites/${siteId}/reports`, report)).tickets[0].id;
    const visit = { siteId, kind: 'planned', on: '2026-03-05', purpose: 'Upkeep', upkeep: true };
    visitId = (await post('visits', visit)).id;
  });

  afterAll(async () => {
    await owner.end();
    await test.close();
  });

  async function post(path: string, body: object, status = 201) {
    test.clock.tick(1);
    const { status: got, body: answer } = await test.http.post(`/api/v1/${path}`).send(body);
    expect([got, got === status ? '' : answer]).toEqual([status, '']);
    return answer;
  }

  const read = async (path: string) => (await test.http.get(`/api/v1/${path}`).expect(200)).body;

  /** Copies the rows of a table that a condition holds for until there are so many. */
  async function fill(table: string, where: string, until: number, differ: string): Promise<void> {
    const { rows } = await owner.query(
      `SELECT count(*)::int AS count FROM ${table} WHERE ${where}`,
    );
    await owner.query(
      // Once for each row, for which it must take its number: `(…).*` would do it for each column.
      `INSERT INTO ${table} SELECT copied.*
       FROM ${table} AS one, generate_series(1, $1) AS n,
         LATERAL jsonb_populate_record(one, jsonb_build_object('id', gen_random_uuid(), 'n', n, ${differ})) AS copied
       WHERE one.id = (SELECT id FROM ${table} WHERE ${where} LIMIT 1)`,
      [until - rows[0].count],
    );
  }

  async function allPages(path: string): Promise<{ ids: string[]; sizes: number[] }> {
    const ids: string[] = [];
    const sizes: number[] = [];
    let after = '';
    do {
      const { items, next } = await read(`${path}?limit=1000${after}`);
      ids.push(...items.map(({ id }: { id: string }) => id));
      sizes.push(items.length);
      after = next === null ? '' : `&after=${next}`;
    } while (after !== '');
    return { ids, sizes };
  }

  it('is told by page, however much there is', async () => {
    await post(`tickets/${ticketId}/readings`, { takenBy: ILVO, reading: READING });
    await post(`tickets/${ticketId}/looks`, LOOK);
    for (const [table, at] of [
      ['readings', 'taken_at'],
      ['looks', 'looked_at'],
    ] as const) {
      await fill(
        table,
        `ticket_id = '${ticketId}'`,
        3500,
        `'${at}', one.${at} - n * interval '1 second'`,
      );
      const { ids, sizes } = await allPages(`tickets/${ticketId}/${table}`);
      expect(sizes).toEqual([1000, 1000, 1000, 500]);
      expect(new Set(ids).size).toBe(3500);
      await test.http.get(`/api/v1/tickets/${ticketId}/${table}?limit=5001`).expect(422);
    }
  });

  it.each([
    ['note', 2000, 'notes', { saidBy: ILVO, note: 'Rang' }],
    ['answer', 1000, 'answers', { saidBy: OFFICE, question: 'head-end-on', answer: 'yes' }],
    ['reading', 1000, 'readings', { takenBy: ILVO, reading: READING }],
    ['look', 200, 'looks', LOOK],
    ['finding', 500, 'findings', { saidBy: ILVO, note: 'Nothing' }],
    ['mending', 500, 'mendings', { saidBy: ILVO, mending: 'lasting', what: 'Anew' }],
  ])(
    'has a bound for each kind that whoever enters is told: %s',
    async (kind, most, path, body) => {
      const on = await anotherTicket();
      await post(`tickets/${on}/${path}`, body);
      const where = `ticket_id = '${on}' AND kind = '${kind}'`;
      await fill('ticket_entries', where, most - 1, `'recorded_at', one.recorded_at`);
      await post(`tickets/${on}/${path}`, body);
      for (let more = 0; more < 3; more++)
        expect(await post(`tickets/${on}/${path}`, body, 409)).toMatchObject({ most });
    },
  );

  describe('by reports', () => {
    const most = 20_000;
    const said = (outcome: string) => ({
      saidBy: OFFICE,
      how: 'volunteered',
      observations: ['A1', 'A2'].map((node) => ({ trunk: 'A', node, function: 'bell', outcome })),
    });
    let site: string;
    let full: string;

    beforeAll(async () => {
      site = await drawSite(test, [row('A', 3), row('B', 3)]);
      full = (await post(`sites/${site}/reports`, said('fails'))).tickets[0].id;
      await fill('observations', `ticket_id = '${full}'`, most - 4, `'how', one.how`);
    });

    it('has a bound that whoever reports or tests is told, for two at once as well', async () => {
      const bySite = `sites/${site}/reports`;
      const sent = [bySite, `tickets/${full}/reports`, bySite, bySite].map((path) =>
        test.http.post(`/api/v1/${path}`).send(said('works')),
      );
      const answers = await Promise.all(sent);
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 201, 409, 409]);
      const { how, ...walked } = said('works');
      for (let more = 0; more < 3; more++) {
        expect(await post(bySite, said('fails'), 409)).toMatchObject({ most });
        expect(await post(`tickets/${full}/reports`, said('fails'), 409)).toMatchObject({ most });
        const tested = await post(`tickets/${full}/walk-tests`, walked, 409);
        expect(tested).toMatchObject({ most, detail: expect.stringContaining('20000') });
      }
      const { rows } = await owner.query(
        `SELECT count(*)::int AS count FROM observations WHERE ticket_id = '${full}'`,
      );
      expect(rows[0].count).toBe(most);
    });

    it('leaves it room for no merger, and other trunks a ticket of their own', async () => {
      const other = { trunk: 'B', node: 'B2', function: 'bell', outcome: 'fails' };
      const report = { ...said('fails'), observations: [other] };
      const { tickets } = await post(`sites/${site}/reports`, report);
      expect(tickets[0].joined).toBe(false);
      const merge = { saidBy: OFFICE, into: full };
      expect(await post(`tickets/${tickets[0].id}/merge`, merge, 409)).toMatchObject({ most });
    });

    it('has a bound where nothing is drawn', async () => {
      const { body: drawn } = await test.http.get(`/api/v1/sites/${site}`).expect(200);
      const fields = { clientId: drawn.clientId, name: 'Not drawn', zone: 'Etc/UTC' };
      const { id } = await post('sites', fields);
      const words = { saidBy: OFFICE, how: 'volunteered', observations: [], note: 'The hall' };
      const on = (await post(`sites/${id}/reports`, words)).tickets[0].id;
      const where = `ticket_id = '${on}' AND kind = 'report'`;
      await fill('ticket_entries', where, 1999, `'recorded_at', one.recorded_at`);
      await post(`sites/${id}/reports`, words);
      for (let more = 0; more < 3; more++)
        expect(await post(`sites/${id}/reports`, words, 409)).toMatchObject({ most: 2000 });
    });
  });

  async function anotherTicket(): Promise<string> {
    const site = await drawSite(test, [row('A', 3)]);
    const observations = [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }];
    const said = { saidBy: OFFICE, how: 'volunteered', observations };
    return (await post(`sites/${site}/reports`, said)).tickets[0].id;
  }

  it.each([
    [
      'readings',
      { kind: 'supply-volts', trunk: 'A', node: 'A1', entered: '23,1', takenBy: 'Ilvo' },
    ],
    ['looks', LOOK],
  ])('has a bound on a visit, for two at once as well: %s', async (table, body) => {
    const at = table === 'looks' ? 'looked_at' : 'taken_at';
    await post(`visits/${visitId}/${table}`, body);
    await fill(table, `visit_id = '${visitId}'`, 999, `'${at}', one.${at}`);
    const sent = [1, 2, 3].map(() =>
      test.http.post(`/api/v1/visits/${visitId}/${table}`).send(body),
    );
    const answers = await Promise.all(sent);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    expect(answers.find(({ status }) => status === 409)!.body).toMatchObject({ most: 1000 });
  });

  it('tells the newest of a visit’s log, and whether there is more', async () => {
    const log = `visits/${visitId}/log`;
    await post(`visits/${visitId}/moves`, {
      by: 'Mara Quill',
      to: 'called-off',
      reason: 'Holidays',
    });
    expect(await read(log)).toMatchObject({ items: { length: 1 }, hasOlder: false });
    await fill(
      'visit_moves',
      `visit_id = '${visitId}'`,
      1600,
      `'visit_version', one.visit_version + n`,
    );
    const { items, hasOlder } = await read(log);
    expect([items.length, items.at(-1).visitVersion, hasOlder]).toEqual([500, 1601, true]);
  });
});
