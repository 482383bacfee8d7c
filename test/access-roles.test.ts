import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { findRouteRule, TABLED_ROUTES } from '#app/access/route-roles.js';
import { routeKey } from '#app/shared/route-key.js';
import { createAdapter } from '#app/create-app.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

/** Served beside the app's routes: the API document and the page that shows it. */
const OPEN_DOCUMENT = /^(GET|HEAD) \/api\/(docs|openapi\.(json|yaml))/;

describe('who may call what', () => {
  let test: TestApp;
  const routes = new Set<string>();

  beforeAll(async () => {
    const adapter = createAdapter();
    adapter.getInstance().addHook('onRoute', ({ method, url }) => {
      for (const one of [method].flat()) routes.add(routeKey(one, url));
    });
    test = await buildTestApp({ adapter, jobsRest: true });
  });

  afterAll(() => test.close());

  it('is in the table for every route, and the table has no other', () => {
    const served = [...routes].filter(
      (route) => !OPEN_DOCUMENT.test(route) && !route.startsWith('OPTIONS '),
    );
    expect(served.length).toBeGreaterThan(40);
    expect(served.filter((route) => findRouteRule(route) === undefined)).toEqual([]);
    expect(TABLED_ROUTES.filter((route) => !routes.has(route))).toEqual([]);
  });

  it('is what the table says, for every role and route', async () => {
    const client = await test.http.post('/api/v1/clients').send({ name: 'Some' }).expect(201);
    const roles = ['owner', 'dispatcher', 'contract-manager', 'technician', 'client'] as const;
    for (const role of roles) {
      const clientId = role === 'client' ? (client.body.id as string) : undefined;
      const { http } = await test.addPerson(role, { clientId });
      for (const route of TABLED_ROUTES) {
        const [method = '', path = ''] = route.split(' ');
        const rule = findRouteRule(route)!;
        const filled = path.replaceAll(/:\w+/g, '01900000-0000-7000-8000-00000000dead');
        const name = method.toLowerCase() as 'get' | 'post' | 'put' | 'patch' | 'delete';
        const { status } = await http[name](filled).send(name === 'get' ? undefined : {});
        const may = rule === 'open' || (rule.roles.includes(role) && rule.area !== null);
        // A pass's routes look at the pass's cookie alone: to them a person is nobody.
        const refusal = rule !== 'open' && rule.roles.includes('pass') ? 401 : 403;
        expect([role, route, status === refusal]).toEqual([role, route, !may]);
        expect([role, route, status]).not.toEqual([role, route, 500]);
      }
    }
  });

  it('is asked however an address is written', async () => {
    const guarded = TABLED_ROUTES.filter((route) => findRouteRule(route) !== 'open');
    expect(guarded.length).toBeGreaterThan(40);
    for (const route of guarded) {
      const [method = '', path = ''] = route.split(' ');
      const filled = path.replaceAll(/:\w+/g, '01900000-0000-7000-8000-00000000dead');
      for (const written of [filled.replace('/api', '/%61pi'), filled.replace('/v1', '/%76%31')]) {
        const name = method.toLowerCase() as 'get' | 'post' | 'put' | 'patch' | 'delete';
        const { status, headers } = await test.browser()[name](written);
        expect([route, written, status]).toEqual([route, written, 401]);
        expect([written, headers['cache-control'], headers['vary']]).toEqual([
          written,
          'no-store',
          'Accept-Language',
        ]);
      }
    }
  });

  it('is told to each of many who ask at once, by what they show', async () => {
    const technician = await test.addPerson('technician');
    const wrong = `lastheard_${'A'.repeat(41)}`;
    const people = '/api/v1/people';
    const asked = Array.from({ length: 36 }, (_, at) => {
      if (at % 12 === 7) return test.browser().get(people).auth(wrong, { type: 'bearer' });
      return (at % 2 === 0 ? test : technician).http.get(people);
    });
    const statuses = (await Promise.all(asked)).map(({ status }) => status);
    const owed = (at: number) => (at % 2 === 0 ? 200 : 403);
    expect(statuses).toEqual(statuses.map((_, at) => (at % 12 === 7 ? 401 : owed(at))));
  });

  describe('and of what', () => {
    let near: string;
    let far: string;
    let technician: TestPerson;

    beforeAll(async () => {
      near = await drawSite(test, [row('A', 3)]);
      far = await drawSite(test, [row('A', 3)]);
      technician = await test.addPerson('technician');
      for (const site of [near, far]) await reportSilent(test, site).expect(201);
    });

    const reportSilent = ({ http }: Pick<TestApp, 'http'>, site: string) =>
      http.post(`/api/v1/sites/${site}/reports`).send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
      });

    async function seen(http: TestApp['http']) {
      const { body: sites } = await http.get('/api/v1/sites').expect(200);
      const { body: tickets } = await http.get('/api/v1/tickets').expect(200);
      const { body: visits } = await http.get('/api/v1/visits').expect(200);
      return {
        sites: sites.items.map(({ id }: { id: string }) => id),
        tickets: tickets.items.map(({ siteId }: { siteId: string }) => siteId),
        visits: visits.items.map(({ siteId }: { siteId: string }) => siteId),
      };
    }

    it('lets a technician on call take any ticket of the firm', async () => {
      const { http } = technician;
      const all = await seen(http);
      expect(all.sites).toEqual(expect.arrayContaining([near, far]));
      expect(all.tickets).toEqual(expect.arrayContaining([near, far]));
      const visit = { kind: 'call-out', on: '2026-03-03', purpose: 'Look', upkeep: true };
      const sent = { ...visit, siteId: near, technicianId: technician.id };
      await test.http.post('/api/v1/visits').send(sent).expect(201);
      await reportSilent({ http }, far).expect(201);
      const { body: tickets } = await http.get(`/api/v1/tickets?site=${far}`).expect(200);
      const path = `/api/v1/tickets/${tickets.items[0].id}`;
      await http.get(`${path}/log`).expect(200);
      await http.get(`/api/v1/sites/${far}/as-built`).expect(200);
      const move = { saidBy: { name: 'I', kind: 'technician' }, to: 'closed', reason: 'No' };
      await http.post(`${path}/moves`).send(move).expect(201);
    });

    it('lets a client’s people see their own sites, visits and tickets, and no people', async () => {
      const { body: site } = await test.http.get(`/api/v1/sites/${near}`).expect(200);
      const { body: other } = await test.http.get(`/api/v1/sites/${far}`).expect(200);
      const { http } = await test.addPerson('client', { clientId: site.clientId });
      expect(await seen(http)).toEqual({ sites: [near], tickets: [near], visits: [near] });
      await http.get(`/api/v1/clients/${site.clientId}`).expect(200);
      await http.get(`/api/v1/clients/${other.clientId}`).expect(404);
      await http.get('/api/v1/people').expect(403);
      await reportSilent({ http }, near).expect(201);
      await reportSilent({ http }, far).expect(404);
    });

    it('does not count a client’s people among the firm’s', async () => {
      const { body: site } = await test.http.get(`/api/v1/sites/${near}`);
      const { id } = await test.addPerson('client', { clientId: site.clientId });
      await test.http.get(`/api/v1/people/${id}`).expect(404);
      const { body } = await test.http.get('/api/v1/people?limit=200');
      expect(body.items.some((person: { id: string }) => person.id === id)).toBe(false);
      const { body: accounts } = await test.http.get('/api/v1/accounts').expect(403);
      expect(accounts.detail).toContain('signed in');
    });
  });
});
