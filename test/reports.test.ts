import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const UNKNOWN = '01900000-0000-7000-8000-00000000dead';
const span = (n: number) => ({
  kind: 'span',
  trunk: 'A',
  from: n === 1 ? null : `A${n - 1}`,
  to: `A${n}`,
});

describe('how right the predictions were', () => {
  let test: TestApp;
  let one: string;
  let other: string;
  let begun: string;
  let middle: string;

  const post = async (path: string, body: object) =>
    (
      await test.http
        .post(`/api/v1${path}`)
        .send({ saidBy: TECHNICIAN, ...body })
        .expect(201)
    ).body;
  const reliability = async (query = '') =>
    (await test.http.get(`/api/v1/reports/reliability?${query}`).expect(200)).body;

  /** A ticket for silence from a room on, on which something is found there, elsewhere or not at all. */
  async function ticket(siteId: string, silentFrom: number, found: object | null): Promise<void> {
    const observations = Array.from({ length: 6 }, (_, n) => ({
      trunk: 'A',
      node: `A${n + 1}`,
      function: 'announcement',
      outcome: n + 1 < silentFrom ? 'works' : 'fails',
    }));
    const { tickets } = await post(`/sites/${siteId}/reports`, {
      how: 'gone-through',
      observations,
    });
    const { id } = tickets[0];
    await post(`/tickets/${id}/moves`, { to: 'at-work', reason: 'Stands there' });
    test.clock.tick(60);
    if (found !== null) {
      await post(`/tickets/${id}/findings`, { place: found });
      await post(`/tickets/${id}/mendings`, { mending: 'lasting', what: 'Remade' });
    }
    await post(`/tickets/${id}/moves`, { to: 'closed', reason: 'Done' });
    test.clock.tick(60 * 24);
  }

  beforeAll(async () => {
    test = await buildTestApp();
    begun = test.clock.now().toISOString();
    one = await drawSite(test, [row('A', 6)]);
    other = await drawSite(test, [row('A', 6)]);
    await ticket(one, 3, span(3));
    await ticket(one, 4, span(4));
    await ticket(one, 5, null);
    middle = test.clock.now().toISOString();
    await ticket(other, 2, span(2));
    await ticket(other, 3, span(6));
  });

  afterAll(() => test.close());

  it('are held against what was found, over all sites', async () => {
    const all = await reliability();
    expect(all).toMatchObject({
      tickets: 5,
      nothingFound: 1,
      notPredicted: 0,
      notListed: 0,
      hits: { cases: 4, first: 3, firstShare: 0.75 },
      band: { coverage: 0.9 },
    });
    expect(all.logScoreBits).toBeGreaterThan(0);
    const forecasts = all.curve.reduce(
      (sum: number, { count }: { count: number }) => sum + count,
      0,
    );
    expect(forecasts).toBe(3 * 4);
    for (const { observed, low, high } of all.curve) {
      expect(low).toBeLessThanOrEqual(high);
      expect(observed).toBeGreaterThanOrEqual(0);
    }
    expect(await reliability()).toEqual(all);
  });

  it('are told by site and by period', async () => {
    expect(await reliability(`site=${one}`)).toMatchObject({ tickets: 3, hits: { first: 2 } });
    expect(await reliability(`site=${other}`)).toMatchObject({
      tickets: 2,
      hits: { cases: 2, first: 1 },
    });
    expect(await reliability(`from=${begun}&until=${middle}`)).toMatchObject({ tickets: 3 });
    expect(await reliability(`from=${middle}`)).toMatchObject({ tickets: 2 });
    expect(await reliability(`until=${begun}`)).toMatchObject({
      tickets: 0,
      hits: { firstShare: null },
      logScoreBits: null,
      curve: [],
    });
  });

  it('need a site that there is and instants that are some', async () => {
    await test.http.get(`/api/v1/reports/reliability?site=${UNKNOWN}`).expect(404);
    await test.http.get('/api/v1/reports/reliability?from=soon').expect(422);
    await test.http.get('/api/v1/reports/reliability?colour=red').expect(422);
  });
});
