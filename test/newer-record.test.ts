import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';

import { draw, drawSite, type RecordTrunk, row } from './support/draw-site.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const ID = '01a21f41-dbc8-7245-984c-596f3d2aa116';

const heard = (node: string, outcome: string) => {
  return { trunk: 'A', node, function: 'announcement', outcome };
};

interface Location {
  places: { place: { kind: string; to?: string }; probability: number }[];
}

const chanceInto4 = ({ places }: Location) =>
  places.find(({ place }) => place.kind === 'span' && place.to === 'A4')!.probability;

describe('a ticket and a newer version of the record', () => {
  let test: TestApp;
  let siteId: string;
  let id: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  beforeEach(async () => {
    siteId = await drawSite(test, [row('A', 6)]);
    id = (await report([heard('A3', 'works'), heard('A4', 'fails')])).tickets[0].id;
  });

  afterAll(() => test.close());

  const get = async (path: string) => (await test.http.get(`/api/v1${path}`).expect(200)).body;

  async function report(observations: object[]) {
    const body = { saidBy: OFFICE, how: 'gone-through', observations };
    return (await test.http.post(`/api/v1/sites/${siteId}/reports`).send(body).expect(201)).body;
  }

  const redraw = (version: number, trunks: RecordTrunk[]) =>
    draw(test, { siteId, version, headEnd: {}, trunks });

  const moveOn = (asBuiltVersion: number, more: object = {}, http = test.http) =>
    http
      .post(`/api/v1/tickets/${id}/newer-record`)
      .send({ saidBy: OFFICE, asBuiltVersion, ...more });

  it('goes by it at once, says so in its log, and does so once', async () => {
    const longer = row('A', 6);
    longer.nodes[3]!.cableMetres = 400;
    await redraw(1, [longer]);
    const was = await get(`/tickets/${id}/location`);
    test.clock.tick(1);
    const { body } = await moveOn(2, { id: ID, note: 'Measured today' }).expect(201);
    expect(body).toMatchObject({ id, asBuiltVersion: 2 });
    await moveOn(2, { id: ID, note: 'Measured today' }).expect(201);
    const { items } = await get(`/tickets/${id}/log`);
    expect(items).toHaveLength(2);
    expect(items[1]).toMatchObject({
      id: ID,
      kind: 'newer-record',
      saidBy: 'Mara Quill',
      details: { fromVersion: 1, toVersion: 2, note: 'Measured today' },
    });
    const is = await get(`/tickets/${id}/location`);
    expect(is.asBuiltVersion).toBe(2);
    // Forty times the cable: it is more often the cable.
    expect(chanceInto4(is)).toBeGreaterThan(chanceInto4(was) + 0.01);
    const refused = await moveOn(2).expect(409);
    expect(refused.body.detail).toMatch(/goes by that version already\.$/);
  });

  it('stays where something that was said would lose its place, and names it', async () => {
    await redraw(1, [{ trunk: 'A', nodes: row('A', 3).nodes }]);
    const { body } = await moveOn(2).expect(409);
    expect(body).toMatchObject({
      detail: 'What was said of these would lose its place by the newer record: Room 4.',
      lost: [{ kind: 'observation', trunk: 'A', node: 'A4', group: null }],
      lostCount: 1,
    });
    expect((await get(`/tickets/${id}`)).asBuiltVersion).toBe(1);
    expect((await get(`/tickets/${id}/log`)).items).toHaveLength(1);
    // What was taken back has no place to lose.
    const { items } = await get(`/tickets/${id}/observations`);
    const path = `/api/v1/tickets/${id}/observations`;
    const wrong = items.find(({ node }: { node: string }) => node === 'A4');
    const reason = 'The wrong room';
    await test.http
      .post(`${path}/${wrong.id}/withdraw`)
      .send({ saidBy: OFFICE, reason })
      .expect(201);
    await moveOn(2).expect(201);
  });

  it('counts readings, looks and findings too', async () => {
    const technician = { name: 'Ilvo Marsh', kind: 'technician' };
    const act = (what: string, body: object) =>
      test.http.post(`/api/v1/tickets/${id}/${what}`).send(body).expect(201);
    const cores = ['speech'];
    const reading = { kind: 'continuity', trunk: 'A', from: null, to: 'A5', cores, passes: true };
    await act('readings', { takenBy: technician, reading });
    const place = { kind: 'station', trunk: 'A', node: 'A5' };
    await act('looks', { saidBy: technician, looks: [{ place, part: 'unit', seen: 'sound' }] });
    const found = { kind: 'span', trunk: 'A', from: 'A5', to: 'A6' };
    await act('findings', { saidBy: technician, place: found });
    await redraw(1, [row('A', 4)]);
    const { body } = await moveOn(2).expect(409);
    const kinds = body.lost.map(({ kind, node }: { kind: string; node: string }) => [kind, node]);
    expect(kinds).toEqual([
      ['reading', 'A5'],
      ['look', 'A5'],
      ['finding', 'A6'],
    ]);
  });

  it('tells twenty at most of what would be lost', async () => {
    siteId = await drawSite(test, [row('A', 30)]);
    const silent = row('A', 30)
      .nodes.slice(4)
      .map(({ node }) => heard(node, 'fails'));
    id = (await report(silent)).tickets[0].id;
    await redraw(1, [row('A', 4)]);
    const { body } = await moveOn(2).expect(409);
    expect(body.lostCount).toBe(26);
    expect(body.lost).toHaveLength(20);
    expect(body.detail).toMatch(/Room 5, .*Room 24, … \(\+6\)\.$/);
  });

  it('is asked of the newest version, by the firm’s own people, on what is open', async () => {
    await redraw(1, [row('A', 7)]);
    await redraw(2, [row('A', 8)]);
    const stale = await moveOn(2).expect(409);
    expect(stale.body).toMatchObject({
      asBuiltVersion: 3,
      detail: 'The record is at version 3 now.',
    });
    for (const wrong of [undefined, 0, 1.5, '3']) {
      const { body } = await moveOn(3, { asBuiltVersion: wrong }).expect(422);
      expect(body.errors[0].field).toBe('/asBuiltVersion');
    }
    const { clientId } = await get(`/sites/${siteId}`);
    const { http } = await test.addPerson('client', { clientId });
    await moveOn(3, {}, http).expect(403);
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    await moveOn(3, {}, technician.http).expect(201);
    const { items } = await get(`/tickets/${id}/log`);
    expect(items.at(-1)).toMatchObject({ saidBy: 'Ilvo Marsh', saidByKind: 'technician' });
    const closing = { saidBy: OFFICE, to: 'closed', reason: 'A false alarm' };
    await test.http.post(`/api/v1/tickets/${id}/moves`).send(closing).expect(201);
    await redraw(3, [row('A', 9)]);
    await moveOn(4).expect(409);
  });

  it('moves once when two ask at once', async () => {
    await redraw(1, [row('A', 7)]);
    const answers = await Promise.all([moveOn(2), moveOn(2)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
    expect((await get(`/tickets/${id}/log`)).items).toHaveLength(2);
  });

  it('moves by itself when a room is told of that only the newer record has', async () => {
    await redraw(1, [row('A', 7)]);
    const { tickets } = await report([heard('A7', 'fails')]);
    expect(tickets).toMatchObject([{ id, joined: true, asBuiltVersion: 2 }]);
    const { items } = await get(`/tickets/${id}/log`);
    const kinds = items.map(({ kind }: { kind: string }) => kind);
    expect(kinds.sort()).toEqual(['newer-record', 'report', 'report']);
    expect((await get(`/tickets/${id}/location`)).asBuiltVersion).toBe(2);

    // Not where that would lose what was said; and an unknown room is refused as ever.
    const others = row('A', 8).nodes.filter(({ node }) => node !== 'A7');
    await redraw(2, [{ trunk: 'A', nodes: others }]);
    const path = `/api/v1/sites/${siteId}/reports`;
    const told = (node: string) => {
      return { saidBy: OFFICE, how: 'gone-through', observations: [heard(node, 'fails')] };
    };
    const { body } = await test.http.post(path).send(told('A8')).expect(409);
    expect(body.detail).toContain('Room 7');
    await test.http.post(path).send(told('A99')).expect(422);
    expect((await get(`/tickets/${id}`)).asBuiltVersion).toBe(2);
  });
});
