import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';
import { uuidv7 } from 'uuidv7';

import { JobService } from '#app/jobs/job.service.js';
import { findRouteRule, TABLED_ROUTES } from '#app/access/route-roles.js';
import { withClient } from '#app/database/built-in-roles.js';

import { PIXEL } from './support/pictures.js';
import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

const OTHER_FIRM = '01900000-0000-7000-8000-0000000000f2';
const SAID = { saidBy: { name: 'Somebody', kind: 'technician' } };
const POINT = { trunk: 'A', node: 'A2', function: 'bell' };
const OBSERVATIONS = [{ ...POINT, outcome: 'fails' }];
const READING = {
  takenBy: SAID.saidBy,
  reading: { kind: 'continuity', trunk: 'A', to: 'A2', cores: ['supply'], passes: true },
};
const SEEN = { place: { kind: 'head-end' }, part: 'power', seen: 'sound' };
const LOOK = { ...SAID, ...SEEN };
const NEARBY = {
  ...SAID,
  rooms: [{ trunk: 'A', node: 'A1' }],
  on: '2026-02-20',
  byWhom: 'painters',
};

type Method = 'get' | 'post' | 'put' | 'patch' | 'delete';

/** What of a firm can be named by an id. */
interface Ids {
  site: string;
  client: string;
  person: string;
  ticket: string;
  visit: string;
  contract: string;
  calendarFeed: string;
  wish: string;
  calendar: string;
  observation: string;
  reading: string;
  mending: string;
  look: string;
  photo: string;
  walkTest: string;
  work: string;
  session: string;
  token: string;
  pass: string;
  passSecret: string;
}

/** Bodies that would be right if the ids in the path were one's own; every writing route has one. */
const BODIES: Record<string, (other: Ids, own: Ids) => object> = {
  'PATCH /api/v1/people/:id': () => ({ phone: '1' }),
  'PATCH /api/v1/clients/:id': () => ({ phone: '1' }),
  'PATCH /api/v1/sites/:id': () => ({ address: 'Elsewhere' }),
  'PUT /api/v1/sites/:siteId/as-built': () => ({
    changedBy: 'X',
    reason: 'X',
    headEnd: {},
    trunks: [],
  }),
  'PATCH /api/v1/sites/:siteId/as-built/trunks/:trunk/nodes/:node': () => ({
    changedBy: 'X',
    reason: 'X',
    room: 'X',
  }),
  'PUT /api/v1/sites/:siteId/as-built/sheet': () => ({}),
  'POST /api/v1/sites/:siteId/reports': () => ({
    ...SAID,
    how: 'volunteered',
    observations: OBSERVATIONS,
  }),
  'POST /api/v1/sites/:siteId/as-built/trunks/:trunk/survey': () => ({
    conductor: { kind: 'awg', gauge: 18 },
    sourceVolts: 24,
    stationAmps: 0.1,
    minimumVolts: 18,
  }),
  'POST /api/v1/sites/:siteId/passes': () => ({}),
  'POST /api/v1/passes/:passId/end': () => ({}),
  'POST /api/v1/accounts/:personId/end': () => ({}),
  'POST /api/v1/accounts/:personId/second-step/end': () => ({}),
  'POST /api/v1/accounts/:personId/anonymise': () => ({}),
  'DELETE /api/v1/sessions/:sessionId': () => ({}),
  'DELETE /api/v1/tokens/:tokenId': () => ({}),
  'POST /api/v1/sites/:siteId/works-nearby': () => NEARBY,
  'POST /api/v1/sites/:siteId/works-nearby/:workId/withdraw': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/tickets/:ticketId/reports': () => ({
    ...SAID,
    how: 'volunteered',
    observations: OBSERVATIONS,
  }),
  'POST /api/v1/tickets/:ticketId/notes': () => ({ ...SAID, note: 'X' }),
  'POST /api/v1/tickets/:ticketId/answers': () => ({
    ...SAID,
    question: 'head-end-on',
    answer: 'yes',
  }),
  'POST /api/v1/tickets/:ticketId/findings': () => ({ ...SAID }),
  'POST /api/v1/tickets/:ticketId/mendings': () => ({ ...SAID, mending: 'lasting', what: 'X' }),
  'POST /api/v1/tickets/:ticketId/walk-tests': () => ({ ...SAID, observations: OBSERVATIONS }),
  'POST /api/v1/tickets/:ticketId/readings': () => READING,
  'POST /api/v1/tickets/:ticketId/mendings/:mendingId/withdraw': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/tickets/:ticketId/readings/:readingId/withdraw': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/tickets/:ticketId/looks': () => LOOK,
  'POST /api/v1/tickets/:ticketId/looks/:lookId/withdraw': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/tickets/:ticketId/observations/:observationId/withdraw': () => ({
    ...SAID,
    reason: 'X',
  }),
  'POST /api/v1/tickets/:ticketId/moves': () => ({ ...SAID, to: 'closed', reason: 'X' }),
  'POST /api/v1/tickets/:ticketId/newer-record': () => ({ ...SAID, asBuiltVersion: 1 }),
  'POST /api/v1/tickets/:ticketId/merge': (_other, own) => ({ ...SAID, into: own.ticket }),
  'POST /api/v1/tickets/:ticketId/split': (other) => ({
    ...SAID,
    observationIds: [other.observation],
  }),
  'POST /api/v1/tickets/:ticketId/pauses': () => ({ ...SAID, reason: 'no-access', evidence: 'X' }),
  'POST /api/v1/tickets/:ticketId/pauses/end': () => ({ ...SAID }),
  'POST /api/v1/tickets/:ticketId/trouble-class': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/tickets/:ticketId/breach-causes': () => ({
    ...SAID,
    promise: 'response',
    cause: 'X',
  }),
  'PATCH /api/v1/visits/:visitId': () => ({ purpose: 'X' }),
  'POST /api/v1/visits/:visitId/moves': () => ({ to: 'called-off', by: 'X', reason: 'X' }),
  'POST /api/v1/visits/:visitId/readings': () => ({
    kind: 'supply-volts',
    entered: '24 V',
    takenBy: 'X',
  }),
  'POST /api/v1/visits/:visitId/looks': () => LOOK,
  'POST /api/v1/visits/:visitId/readings/:readingId/withdraw': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/visits/:visitId/looks/:lookId/withdraw': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/visits/:visitId/walk-tests/:walkTestId/withdraw': () => ({ ...SAID, reason: 'X' }),
  'POST /api/v1/visits/:visitId/walk-tests': () => ({
    testedBy: 'X',
    observations: [{ ...POINT, outcome: 'works' }],
  }),
  'POST /api/v1/tickets/:ticketId/photos': () => ({ image: PIXEL }),
  'POST /api/v1/visits/:visitId/photos': () => ({ image: PIXEL }),
  'POST /api/v1/photos/:photoId/withdraw': () => ({ reason: 'X' }),
  'POST /api/v1/visits/:visitId/signatures': () => ({ name: 'X' }),
  'PATCH /api/v1/contracts/:contractId': () => ({ title: 'X' }),
  'POST /api/v1/contracts/:contractId/renewal': () => ({ title: 'X' }),
  'PATCH /api/v1/closed-calendars/:calendarId': () => ({ name: 'X' }),
  'DELETE /api/v1/closed-calendars/:calendarId': () => ({}),
  'PUT /api/v1/closed-calendars/:calendarId/icalendar': () => ({
    icalendar:
      'BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART;VALUE=DATE:20261019\r\nEND:VEVENT\r\nEND:VCALENDAR',
  }),
  'POST /api/v1/calendars/:calendarFeedId/end': () => ({}),
  'POST /api/v1/notice-wishes/:wishId/end': () => ({}),
  'PUT /api/v1/people/:personId/working-time': () => ({ hours: [] }),
  'PUT /api/v1/people/:personId/van': () => ({ parts: [] }),
  'PUT /api/v1/plans/jobs/:jobId/wish': () => ({}),
  'POST /api/v1/pass/tickets/:ticketId/reports': () => ({
    name: 'X',
    how: 'volunteered',
    observations: OBSERVATIONS,
  }),
  'POST /api/v1/pass/tickets/:ticketId/answers': () => ({
    name: 'X',
    question: 'head-end-on',
    answer: 'yes',
  }),
  'POST /api/v1/pass/tickets/:ticketId/looks': () => ({ ...SEEN, name: 'X' }),
  'POST /api/v1/pass/visits/:visitId/signatures': () => ({ name: 'X' }),
};

function contractOf(clientId: string, siteId: string, calendarId: string): object {
  return {
    title: 'Larkfield upkeep',
    clientId,
    siteIds: [siteId],
    from: '2026-01-01',
    until: '2027-01-01',
    kind: 'comprehensive',
    visitsPerYear: 4,
    feeMinor: 100,
    currency: 'EUR',
    promises: [{ troubleClass: 'one-room', responseMinutes: 240 }],
    coverage: {
      windows: [{ weekday: 1, from: '08:00', until: '16:00' }],
      calendarIds: [calendarId],
    },
  };
}

/** What a path's parameters stand for; `id` is told by what stands before it. */
function fill(path: string, ids: Ids): string {
  return path
    .replace('/people/:id', `/people/${ids.person}`)
    .replace('/clients/:id', `/clients/${ids.client}`)
    .replace('/sites/:id', `/sites/${ids.site}`)
    .replace(':siteId', ids.site)
    .replace(':personId', ids.person)
    .replace(':ticketId', ids.ticket)
    .replace(':readingId', ids.reading)
    .replace(':mendingId', ids.mending)
    .replace(':walkTestId', ids.walkTest)
    .replace(':lookId', ids.look)
    .replace(':photoId', ids.photo)
    .replace(':workId', ids.work)
    .replace(':observationId', ids.observation)
    .replace(':contractId', ids.contract)
    .replace(':calendarId', ids.calendar)
    .replace(':calendarFeedId', ids.calendarFeed)
    .replace(':wishId', ids.wish)
    .replace(':visitId', ids.visit)
    .replace(':jobId', ids.visit)
    .replace(':sessionId', ids.session)
    .replace(':tokenId', ids.token)
    .replace(':passId', ids.pass)
    .replace(':trunk', 'A')
    .replace(':node', 'A1');
}

describe('two firms with the same shape of data', () => {
  let test: TestApp;
  let one: Ids;
  let other: Ids;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    await test.addFirm(OTHER_FIRM);
    one = await fillFirm(FIRM_ID);
    other = await fillFirm(OTHER_FIRM);
  });

  afterAll(() => test.close());

  async function fillFirm(firmId: string): Promise<Ids> {
    const { http, id: person, email } = await test.addPerson('owner', { firmId });
    const site = await drawSite({ http }, [row('A', 3)]);
    const created = async (path: string, body: object) =>
      (await http.post(`/api/v1${path}`).send(body).expect(201)).body;
    const report = { ...SAID, how: 'volunteered', observations: OBSERVATIONS };
    const ticket = (await created(`/sites/${site}/reports`, report)).tickets[0].id as string;
    const { readings } = await created(`/tickets/${ticket}/readings`, READING);
    const work = await created(`/sites/${site}/works-nearby`, NEARBY);
    const photo = await created(`/tickets/${ticket}/photos`, { image: PIXEL });
    const looks = await created(`/tickets/${ticket}/looks`, LOOK);
    const mending = uuidv7();
    const mended = { ...SAID, id: mending, mending: 'lasting', what: 'X' };
    await created(`/tickets/${ticket}/mendings`, mended);
    const visit = await created('/visits', {
      siteId: site,
      kind: 'planned',
      on: '2026-03-04',
      purpose: 'Upkeep',
      upkeep: true,
      technicianId: person,
    });
    await created(`/visits/${visit.id}/moves`, { to: 'under-way', by: 'X' });
    const walkTest = await created(`/visits/${visit.id}/walk-tests`, {
      testedBy: 'X',
      observations: [{ ...POINT, outcome: 'works' }],
    });
    const calendar = await created('/closed-calendars', { name: 'Larkfield holidays' });
    const { body: drawn } = await http.get(`/api/v1/sites/${site}`);
    const contract = await created('/contracts', contractOf(drawn.clientId, site, calendar.id));
    const { body: observations } = await http.get(`/api/v1/tickets/${ticket}/observations`);
    const pass = await created(`/sites/${site}/passes`, {});
    const browser = test.browser();
    const signedIn = await browser.post('/api/v1/session').send({ email, password: PASSWORD });
    const { body: calendarFeed } = await browser
      .post('/api/v1/calendars')
      .set('X-CSRF-Token', signedIn.body.csrfToken)
      .send({ siteId: site })
      .expect(201);
    const { body: wish } = await browser
      .post('/api/v1/notice-wishes')
      .set('X-CSRF-Token', signedIn.body.csrfToken)
      .send({ way: 'mail', kinds: ['new-report'] })
      .expect(201);
    const { body: sessions } = await browser.get('/api/v1/sessions').expect(200);
    const { body: tokens } = await browser.get('/api/v1/tokens').expect(200);
    return {
      site,
      client: drawn.clientId,
      person,
      ticket,
      visit: visit.id,
      contract: contract.id,
      calendarFeed: calendarFeed.id,
      wish: wish.id,
      calendar: calendar.id,
      observation: observations.items[0].id,
      reading: readings[0].id,
      mending,
      look: looks.items[0].id,
      photo: photo.id,
      walkTest: walkTest.id,
      work: work.id,
      session: sessions.items[0].id,
      token: tokens.items[0].id,
      pass: pass.id,
      passSecret: pass.link.split('#')[1],
    };
  }

  /** All rows of a firm, as text: what has changed shows. Uses of credentials are not changes. */
  async function contentOf(firmId: string): Promise<string> {
    return withClient(test.appUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [firmId]);
      const { rows } = await client.query<{ name: string }>(
        `SELECT relname AS name FROM pg_class WHERE relkind = 'r' AND relname <> 'migrations'
           AND relnamespace = 'public'::regnamespace ORDER BY 1`,
      );
      expect(rows.length).toBeGreaterThan(18);
      const contents: string[] = [];
      for (const { name } of rows) {
        const sql = `SELECT coalesce(jsonb_agg(to_jsonb(t) - 'last_used_at' - 'last_seen_at'
          ORDER BY to_jsonb(t)::text), '[]')::text AS content FROM ${name} t`;
        const answer = await client.query<{ content: string }>(sql);
        contents.push(`${name} ${answer.rows[0]!.content}`);
      }
      return contents.join('\n');
    });
  }

  /** Everybody of the first firm, each with a session of their own, so that no route is closed to it. */
  async function everybody(): Promise<{ role: string; http: Agent; csrf: string }[]> {
    const roles = ['owner', 'dispatcher', 'contract-manager', 'technician', 'client'] as const;
    const all: { role: string; http: Agent; csrf: string }[] = [];
    for (const role of roles) {
      const clientId = role === 'client' ? one.client : undefined;
      const { email } = await test.addPerson(role, { clientId });
      const http = test.browser();
      const { body } = await http.post('/api/v1/session').send({ email, password: PASSWORD });
      all.push({ role, http, csrf: body.csrfToken });
    }
    const http = test.browser();
    const { body } = await http.post('/api/v1/pass/session').send({ pass: one.passSecret });
    all.push({ role: 'pass', http, csrf: body.csrfToken });
    return all;
  }

  const routesWithIds = TABLED_ROUTES.filter((route) => /\/:(?!day\b)/.test(route));

  it('has a body for every route that writes by an id', () => {
    const writing = routesWithIds.filter((route) => !route.startsWith('GET '));
    expect(writing.filter((route) => BODIES[route] === undefined)).toEqual([]);
  });

  it('answers 404 to everybody of one for every id of the other, and nothing changes', async () => {
    const people = await everybody();
    // What was asked for before and is done later is no change.
    await test.app.get(JobService).settle();
    const before = await contentOf(OTHER_FIRM);
    let asked = 0;
    for (const { role, http, csrf } of people) {
      for (const route of routesWithIds) {
        const rule = findRouteRule(route)!;
        const isTheirs = rule !== 'open' && (rule.roles as readonly string[]).includes(role);
        const [verb = '', path = ''] = route.split(' ');
        const method = verb.toLowerCase() as Method;
        const query = path.endsWith('/compare') ? '?from=0&to=1' : '';
        const sheet = path.endsWith('/sheet') ? '?changedBy=X&reason=X' : query;
        const request = http[method](fill(path, other) + (method === 'get' ? query : sheet));
        if (method !== 'get') request.set({ 'X-CSRF-Token': csrf, 'If-Match': '"1"' });
        const isSheet = method === 'put' && path.endsWith('/sheet');
        const answer = isSheet
          ? await request.set('content-type', 'text/csv').send('trunk,node,cable metres\nA,A1,9\n')
          : await request.send(method === 'get' ? undefined : BODIES[route]!(other, one));
        // Whoever may not call a route at all is told so before any id is looked at.
        const expected = isTheirs ? [404] : [401, 403];
        expect([role, route, answer.status, expected.includes(answer.status)]).toEqual([
          role,
          route,
          answer.status,
          true,
        ]);
        if (isTheirs) asked++;
        expect(JSON.stringify(answer.body)).not.toContain('Larkfield');
      }
    }
    expect(asked).toBeGreaterThan(100);
    expect(await contentOf(OTHER_FIRM)).toEqual(before);
  }, 60_000);

  it('would notice a change', async () => {
    const before = await contentOf(OTHER_FIRM);
    await withClient(test.appUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [OTHER_FIRM]);
      await client.query(`UPDATE sites SET address = 'Changed'`);
    });
    expect(await contentOf(OTHER_FIRM)).not.toEqual(before);
  });

  it('lists and filters nothing of the other', async () => {
    const { http } = await test.addPerson('owner');
    const ids = Object.values(other);
    const reads = TABLED_ROUTES.filter((route) => route.startsWith('GET ') && !route.includes(':'));
    for (const route of reads) {
      const { status, text, body } = await http.get(route.slice('GET '.length));
      // Pictures come as bytes.
      const told = text ?? Buffer.from(body as Uint8Array).toString();
      expect([route, status < 500]).toEqual([route, true]);
      // The record names what was asked for, also in vain: ids that this firm itself sent.
      const isRecord = route.startsWith('GET /api/v1/audit');
      expect(ids.filter((id) => !isRecord && told.includes(id))).toEqual([]);
    }
    for (const query of [
      `/tickets?site=${other.site}`,
      `/visits?site=${other.site}`,
      `/visits?technician=${other.person}`,
      `/sites?client=${other.client}`,
      `/contracts?client=${other.client}`,
      `/contracts?site=${other.site}`,
      `/audit?actor=${other.person}`,
      `/audit?actor=${other.pass}`,
    ]) {
      const { body } = await http.get(`/api/v1${query}`).expect(200);
      expect(body.items).toEqual([]);
    }
  });

  it('takes an id of the other in a body for one that does not exist', async () => {
    const { http } = await test.addPerson('owner');
    const visit = { kind: 'planned', on: '2026-03-04', purpose: 'X', upkeep: true };
    const refused = async (path: string, body: object) =>
      (await http.post(`/api/v1${path}`).send(body).expect(422)).body.errors[0].field;
    const site = { name: 'X', zone: 'Etc/UTC' };
    expect(await refused('/sites', { ...site, clientId: other.client })).toBe('/clientId');
    expect(await refused('/visits', { ...visit, siteId: other.site })).toBe('/siteId');
    expect(
      await refused('/visits', { ...visit, siteId: one.site, technicianId: other.person }),
    ).toBe('/technicianId');
    const ticketIds = [other.ticket];
    expect(await refused('/visits', { ...visit, siteId: one.site, ticketIds })).toBe(
      '/ticketIds/0',
    );
    expect(await refused('/contracts', contractOf(one.client, other.site, one.calendar))).toBe(
      '/clientId',
    );
    expect(await refused('/contracts', contractOf(one.client, one.site, other.calendar))).toBe(
      '/coverage/calendarIds/0',
    );
    const into = { ...SAID, into: other.ticket };
    await http.post(`/api/v1/tickets/${one.ticket}/merge`).send(into).expect(404);
  });

  it('lets an id that the other has be used here, as if nobody had it', async () => {
    const { http } = await test.addPerson('owner');
    const before = await contentOf(OTHER_FIRM);
    const client = { id: other.client, name: 'Another' };
    await http.post('/api/v1/clients').send(client).expect(201);
    expect(await contentOf(OTHER_FIRM)).toEqual(before);
  });

  describe('by raw SQL through the app’s connection', () => {
    let client: Client;
    let tables: string[];

    beforeAll(async () => {
      client = new Client({ connectionString: test.appUrl });
      await client.connect();
      const { rows } = await client.query<{ name: string }>(
        `SELECT relname AS name FROM pg_class WHERE relkind = 'r' AND relname <> 'migrations'
           AND relnamespace = 'public'::regnamespace`,
      );
      tables = rows.map(({ name }) => name);
    });

    afterAll(() => client.end());

    async function rowsOf(table: string): Promise<number> {
      const { rows } = await client.query<{ count: string }>(`SELECT count(*) FROM ${table}`);
      return Number(rows[0]!.count);
    }

    it('shows nothing without a firm', async () => {
      for (const table of tables) {
        const count = await rowsOf(table).catch(() => 0);
        expect([table, count]).toEqual([table, 0]);
      }
    });

    it('shows and changes nothing of the other with the wrong firm', async () => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      for (const table of tables) {
        const foreign = `SELECT count(*) FROM ${table} WHERE firm_id = '${OTHER_FIRM}'`;
        const { rows } = await client.query<{ count: string }>(foreign);
        expect([table, rows[0]!.count]).toEqual([table, '0']);
        const removed = await client
          .query(`DELETE FROM ${table} WHERE firm_id = '${OTHER_FIRM}'`)
          .then(({ rowCount }) => rowCount)
          .catch(() => 0);
        expect([table, removed]).toEqual([table, 0]);
      }
    });

    it('shows of a secret’s table the row alone whose secret is known', async () => {
      await client.query(`SELECT set_config('app.firm_id', '', false)`);
      await client.query(`SELECT set_config('app.secret_hash', 'unknown', false)`);
      for (const table of ['sessions', 'api_tokens', 'site_passes', 'pass_sessions']) {
        expect([table, await rowsOf(table)]).toEqual([table, 0]);
      }
      const { SecretService } = await import('#app/access/secret.service.js');
      const hash = new SecretService().hash(other.passSecret);
      await client.query(`SELECT set_config('app.secret_hash', $1, false)`, [hash]);
      expect(await rowsOf('site_passes')).toBe(1);
      const { rowCount } = await client.query('UPDATE site_passes SET ended_at = now()');
      expect(rowCount).toBe(0);
    });

    it('is limited to sites on every table that is of a site, a ticket or a visit', async () => {
      // The office alone gives out passes and a site’s calendar; nobody who is limited to sites comes near the tables.
      const withoutReach = ['calendar_feeds', 'site_passes'];
      const { rows } = await client.query<{ name: string; limited: boolean }>(
        `SELECT relname AS name, EXISTS (
           SELECT FROM pg_policy WHERE polrelid = pg_class.oid AND NOT polpermissive) AS limited
         FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace
           AND EXISTS (SELECT FROM pg_attribute WHERE attrelid = pg_class.oid
             AND attname IN ('site_id', 'ticket_id', 'visit_id'))`,
      );
      expect(rows.length).toBeGreaterThan(9);
      const unlimited = rows.filter(({ limited }) => !limited).map(({ name }) => name);
      expect(unlimited.sort()).toEqual(withoutReach);
    });

    it('reaches the sites alone that the transaction names', async () => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [OTHER_FIRM]);
      await client.query(`SELECT set_config('app.site_ids', '{}', false)`);
      for (const table of ['sites', 'tickets', 'ticket_entries', 'observations', 'visits']) {
        expect([table, await rowsOf(table)]).toEqual([table, 0]);
      }
      await client.query(`SELECT set_config('app.site_ids', $1, false)`, [`{${other.site}}`]);
      expect(await rowsOf('sites')).toBe(1);
      expect(await rowsOf('observations')).toBe(1);
    });
  });
});
