import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import type { LocateResult, PlaceChance } from '#app/locator/index.js';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const DAY = 24 * 60;

type Said = ReturnType<typeof heard>;
const heard = (node: string, outcome: string, name = 'announcement') => ({
  trunk: node.charAt(0),
  node,
  function: name,
  outcome,
});
const rooms = (outcomes: string, name?: string, trunk = 'A') =>
  [...outcomes].map((letter, n) =>
    heard(`${trunk}${n + 1}`, letter === 'x' ? 'fails' : 'works', name),
  );
const spanTo = (to: string) => {
  const n = Number(to.slice(1)) - 1;
  return { kind: 'span', trunk: to.charAt(0), from: n === 0 ? null : `${to.charAt(0)}${n}`, to };
};

describe('tickets over time', () => {
  let test: TestApp;
  let siteId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  beforeEach(async () => {
    siteId = await drawSite(test, [row('A', 6), row('B', 3)]);
  });

  afterAll(() => test.close());

  const post = async (path: string, body: object) =>
    (await test.http.post(`/api/v1${path}`).send(body).expect(201)).body;
  const get = async (path: string) => (await test.http.get(`/api/v1${path}`).expect(200)).body;
  const act = (id: string, what: string, body: object) =>
    post(`/tickets/${id}/${what}`, { saidBy: TECHNICIAN, ...body });
  const locationOf = (id: string) => get(`/tickets/${id}/location`);

  async function report(observations: Said[], saidBy = OFFICE): Promise<string> {
    const body = { saidBy, how: 'gone-through', observations };
    return (await post(`/sites/${siteId}/reports`, body)).tickets[0].id;
  }

  /** The whole of a ticket: reported, gone to, found, mended, walked, closed; a day apart from the next. */
  async function mend(observations: Said[], finding: object, walked: Said[]): Promise<string> {
    const id = await report(observations);
    await act(id, 'moves', { to: 'to-visit', reason: 'Told by telephone' });
    test.clock.tick(60);
    await act(id, 'findings', finding);
    await act(id, 'mendings', { mending: 'lasting', what: 'Remade' });
    test.clock.tick(10);
    await act(id, 'walk-tests', { observations: walked });
    await act(id, 'moves', { to: 'closed', reason: 'Done' });
    test.clock.tick(DAY);
    return id;
  }

  const placeOf = (result: LocateResult, wanted: object): PlaceChance =>
    result.places.find(({ place }) => JSON.stringify(place) === JSON.stringify(wanted))!;

  it('begins with the model’s rates, to the last digits', async () => {
    const observations = rooms('...xxx');
    const id = await report(observations);
    const location = await locationOf(id);
    expect(location).toMatchObject({ exposureDays: 180, provenPoints: 0, sittings: 1 });
    const asBuilt = await get(`/sites/${siteId}/as-built`);
    const trunks = asBuilt.trunks.map(({ trunk, nodes }: never) => ({
      id: trunk,
      nodes: (nodes as object[]).map((node) => {
        const { node: name, kind, fedFrom, cableMetres } = node as Record<string, unknown>;
        return { id: name, kind, fedFrom, cableMetres };
      }),
    }));
    const informant = { id: 'office mara quill', kind: 'office' };
    const { body: plain } = await test.http
      .post('/api/v1/locate')
      .send({
        trunks,
        exposureDays: 180,
        observations: observations.map((one) => ({ ...one, informant })),
      })
      .expect(200);
    expect(location.result.logEvidence).toBeCloseTo(plain.logEvidence, 11);
    for (const { place, probability } of plain.places)
      expect(placeOf(location.result, place).probability).toBeCloseTo(probability, 11);
  });

  it('learns from what was mended, at other sites too, and not from what was touched', async () => {
    const cableOf = async () => {
      const { result } = await locationOf(await report(rooms('...xxx')));
      const [, cable] = placeOf(result, spanTo('A4')).components;
      return 1 - cable!.modes.ok!;
    };
    const found = { place: spanTo('B2'), component: 'cable', mode: 'parted' };
    siteId = await drawSite(test, [row('A', 6), row('B', 3)]);
    await test.app.get(JobService).settle();
    const before = await cableOf();
    siteId = await drawSite(test, [row('A', 6), row('B', 3)]);
    const touched = await report(rooms('.xx', undefined, 'B'));
    await act(touched, 'findings', found);
    await act(touched, 'moves', { to: 'closed', reason: 'Works now' });
    siteId = await drawSite(test, [row('A', 6), row('B', 3)]);
    await test.app.get(JobService).settle();
    expect(await cableOf()).toBeCloseTo(before, 3);
    siteId = await drawSite(test, [row('A', 6), row('B', 3)]);
    await mend(rooms('.xx', undefined, 'B'), found, rooms('...', undefined, 'B'));
    siteId = await drawSite(test, [row('A', 6), row('B', 3)]);
    await test.app.get(JobService).settle();
    expect(await cableOf()).toBeGreaterThan(1.1 * before);
  });

  it('takes what comes and goes for the likeliest when it worked, failed and worked', async () => {
    const id = await report(rooms('.....x'), TECHNICIAN);
    for (const outcomes of ['......', '...xxx', '......']) {
      test.clock.tick(DAY);
      await act(id, 'reports', { how: 'gone-through', observations: rooms(outcomes) });
    }
    const { places, intermittent, sittings, result } = await locationOf(id);
    expect(sittings).toBe(4);
    expect(intermittent).toBeGreaterThan(0.9);
    expect(places[0].words).toMatch(
      /^comes and goes: between Room \d and Room \d on trunk A, \d+ %$/,
    );
    expect(places[0]).toMatchObject({ intermittent: true, place: spanTo('A4') });
    expect(places[0].silentIfSo).toHaveLength(3);
    expect(result.places).toHaveLength(9 + 9 + 2 + 1);
  });

  it('is not talked out of it by a joint that was merely touched', async () => {
    const id = await report(rooms('...xxx'), TECHNICIAN);
    test.clock.tick(10);
    await act(id, 'findings', { place: spanTo('A4'), note: 'Moved the wires, works now' });
    test.clock.tick(5);
    await act(id, 'walk-tests', { observations: rooms('......') });
    const { places, observationsLeftOut, intermittent } = await locationOf(id);
    expect(observationsLeftOut).toEqual([]);
    expect(intermittent).toBeGreaterThan(0.5);
    expect(places[0].place).toEqual(spanTo('A4'));
    await act(id, 'moves', { to: 'closed', reason: 'Works now' });
    test.clock.tick(DAY);
    // Nor do the rooms behind it count as proven good, or the touched joint as new.
    const again = await locationOf(await report(rooms('...xxx')));
    expect(again.provenPoints).toBe(3);
  });

  it('counts from what a walk test proved: announcements prove speech, not select', async () => {
    const place = { kind: 'station', trunk: 'A', node: 'A6' };
    const found = { place, component: 'station', mode: 'volume-down' };
    await mend(rooms('.....x'), found, rooms('......'));
    test.clock.tick(9 * DAY);
    const id = await report(rooms('...xxx', 'room-call'));
    const { provenPoints, result } = await locationOf(id);
    expect(provenPoints).toBe(6);
    const span = placeOf(result, spanTo('A4'));
    const joint = span.components.find(({ component }) => component === 'junction-in')!;
    expect(joint.modes['open-select']).toBeGreaterThan(10 * joint.modes['open-speech']!);
    const onB = placeOf(result, spanTo('B2')).components[2]!;
    expect(onB.modes['open-speech']).toBeCloseTo(onB.modes['open-select']!, 9);
  });

  it('starts anew after a closing: the walk test of last time does not speak against today', async () => {
    const found = { place: spanTo('A4'), component: 'cable', mode: 'parted' };
    const id = await mend(rooms('...xxx'), found, rooms('......'));
    await act(id, 'moves', { to: 'reported', reason: 'Silent again' });
    await act(id, 'reports', { how: 'gone-through', observations: rooms('...xxx') });
    const { observationsUsed, sittings, places } = await locationOf(id);
    expect([observationsUsed.length, sittings]).toEqual([6, 1]);
    expect(places[0]).toMatchObject({ place: spanTo('A4'), intermittent: false });
  });

  it('raises what was mended lately over what nobody touched', async () => {
    const found = { place: spanTo('A5'), component: 'junction-in', mode: 'open-speech' };
    await mend(rooms('....xx'), found, rooms('......'));
    const ofJoints = async () => {
      const { result } = await locationOf(await report(rooms('...xxx')));
      const joint = (to: string) => placeOf(result, spanTo(to)).components[2]!.modes;
      return 1 - joint('A5').ok! > 2 * (1 - joint('A6').ok!);
    };
    expect(await ofJoints()).toBe(true);
  });

  it('keeps what was predicted when somebody was sent, and nobody changes it', async () => {
    const id = await report(rooms('...xxx'));
    await act(id, 'moves', { to: 'to-visit', reason: 'Told by telephone' });
    await act(id, 'moves', { to: 'at-work', reason: 'Stands there' });
    const unsent = await report(rooms('.xx', undefined, 'B'));
    await act(unsent, 'findings', { place: spanTo('B2') });
    await act(unsent, 'findings', { place: spanTo('B3') });
    const app = new Client({ connectionString: test.appUrl });
    await app.connect();
    try {
      await app.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const { rows } = await app.query(
        `SELECT ticket_id, occasion, places FROM predictions WHERE ticket_id IN ($1, $2)
         ORDER BY made_at, id`,
        [id, unsent],
      );
      expect(rows.map(({ ticket_id, occasion }) => [ticket_id, occasion])).toEqual([
        [id, 'to-visit'],
        [unsent, 'finding'],
      ]);
      expect(rows[0].places).toHaveLength(9 + 9 + 2 + 1);
      expect(rows[0].places[0].place).toEqual(spanTo('A4'));
      await expect(app.query('DELETE FROM predictions')).rejects.toThrow('only grows');
      await expect(app.query(`UPDATE predictions SET occasion = 'x'`)).rejects.toThrow();
    } finally {
      await app.end();
    }
    const log = await get(`/tickets/${unsent}/log`);
    const { shares } = log.items.find(({ kind }: { kind: string }) => kind === 'finding').details;
    const events = shares.reduce((sum: number, share: { events: number }) => sum + share.events, 0);
    expect(events).toBeCloseTo(1, 9);
  });
});
