import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const UNKNOWN = '01900000-0000-7000-8000-00000000dead';

const heard = (node: string, outcome: string, name = 'announcement') => ({
  trunk: node.charAt(0),
  node,
  function: name,
  outcome,
});

describe('tickets', () => {
  let test: TestApp;
  let siteId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  beforeEach(async () => {
    siteId = await drawSite(test, [row('A', 6), row('B', 3)]);
  });

  afterAll(() => test.close());

  const post = (path: string, body: object) => test.http.post(`/api/v1${path}`).send(body);
  const get = (path: string) => test.http.get(`/api/v1${path}`);

  async function report(observations: object[], more: object = {}) {
    const body = { saidBy: OFFICE, how: 'gone-through', observations, ...more };
    return (await post(`/sites/${siteId}/reports`, body).expect(201)).body;
  }

  async function openTicket(observations = [heard('A3', 'works'), heard('A4', 'fails')]) {
    return (await report(observations)).tickets[0];
  }

  const act = (id: string, what: string, body: object) =>
    post(`/tickets/${id}/${what}`, { saidBy: TECHNICIAN, ...body });

  async function answerAll(ticket: { id: string; askFirst: { question: string }[] }) {
    for (const { question } of ticket.askFirst) {
      await act(ticket.id, 'answers', { question, answer: 'yes' }).expect(201);
    }
  }

  it('opens a ticket from rooms that were gone through', async () => {
    const answer = await report([
      heard('A3', 'works'),
      heard('A4', 'fails'),
      heard('A5', 'not-checked'),
    ]);
    expect(answer.tickets).toHaveLength(1);
    expect(answer.tickets[0]).toMatchObject({
      joined: false,
      state: 'reported',
      asBuiltVersion: 1,
      openedBy: 'Mara Quill',
      trunks: ['A'],
      stillToProve: [{ trunk: 'A', node: 'A4', function: 'announcement' }],
    });
    const { body } = await get(`/tickets/${answer.tickets[0].id}/log`).expect(200);
    expect(body.items).toHaveLength(1);
    expect(body.items[0]).toMatchObject({
      id: answer.id,
      kind: 'report',
      saidBy: 'Mara Quill',
      details: { how: 'gone-through', joined: false, notChecked: [{ node: 'A5' }] },
    });
  });

  it('locates the trouble in words and numbers', async () => {
    const silent = ['A4', 'A5', 'A6'].map((node) => heard(node, 'fails'));
    const ticket = await openTicket([heard('A3', 'works'), ...silent]);
    const { body } = await get(`/tickets/${ticket.id}/location`).expect(200);
    expect(body.places[0].words).toMatch(/^between Room 3 and Room 4 on trunk A, \d+ %$/);
    expect(body.places[0].silentIfSo.map((room: { node: string }) => room.node)).toEqual([
      'A4',
      'A5',
      'A6',
    ]);
    expect(body.observationsUsed).toHaveLength(4);
    expect(body.result.places).toHaveLength(9 + 9 + 2 + 1);
  });

  it('joins a report about the same trunk, visibly, and opens another for another trunk', async () => {
    const ticket = await openTicket();
    const joined = await report([heard('A6', 'fails'), heard('B1', 'works')]);
    expect(joined.tickets).toEqual([expect.objectContaining({ id: ticket.id, joined: true })]);
    const both = await report([heard('A5', 'fails'), heard('B2', 'fails')]);
    expect(both.tickets.map(({ joined }: { joined: boolean }) => joined)).toEqual([true, false]);
    const { body } = await get(`/tickets/${ticket.id}/observations`).expect(200);
    expect(body.items).toHaveLength(5);
  });

  it('opens one ticket when two reports come at once', async () => {
    const all = await Promise.all([
      report([heard('A4', 'fails')]),
      report([heard('A5', 'fails')]),
      report([heard('A6', 'fails')]),
    ]);
    const ids = all.flatMap(({ tickets }) => tickets.map(({ id }: { id: string }) => id));
    expect(new Set(ids).size).toBe(1);
    const { body } = await get(`/tickets?site=${siteId}&open=true`).expect(200);
    expect(body.items).toHaveLength(1);
  });

  it('takes the same report once, however often it is sent', async () => {
    const id = '01900000-0000-7000-8000-00000000b001';
    const first = await report([heard('A4', 'fails')], { id });
    test.clock.tick(3);
    expect(await report([heard('A4', 'fails')], { id })).toEqual(first);
    const body = { id, saidBy: OFFICE, how: 'volunteered', observations: [heard('A4', 'fails')] };
    await post(`/sites/${siteId}/reports`, body).expect(409);
    const { body: observations } = await get(`/tickets/${first.tickets[0].id}/observations`);
    expect(observations.items).toHaveLength(1);
  });

  it('names everything that is wrong with a report, and keeps nothing of it', async () => {
    const send = (observations: object[], how = 'gone-through') =>
      post(`/sites/${siteId}/reports`, { saidBy: OFFICE, how, observations }).expect(422);
    const { body } = await send([
      { ...heard('A4', 'fails'), trunk: 'Z' },
      heard('A99', 'fails'),
      heard('A1', 'fails'),
      heard('A1', 'works'),
    ]);
    expect(body.errors).toEqual([
      { field: '/observations/0/trunk', reason: 'there is no trunk Z on the drawing' },
      { field: '/observations/1/node', reason: 'there is no A99 on trunk A' },
      {
        field: '/observations/3',
        reason: 'says the same station and function as /observations/2',
      },
    ]);
    await send([heard('A1', 'works')]);
    await send([heard('A1', 'not-checked')]);
    await send([heard('A1', 'fails'), heard('A2', 'not-checked')], 'volunteered');
    await send([{ ...heard('A1', 'silent') }]);
    expect((await get(`/tickets?site=${siteId}`)).body.items).toEqual([]);
    const valid = { saidBy: OFFICE, how: 'volunteered', observations: [heard('A1', 'fails')] };
    await post(`/sites/${await drawSite(test, [])}/reports`, valid).expect(409);
    await post(`/sites/${UNKNOWN}/reports`, valid).expect(404);
  });

  it('asks what needs no visit before anybody is sent', async () => {
    const ticket = await openTicket([heard('A4', 'fails', 'bell')]);
    const refused = await act(ticket.id, 'moves', { to: 'to-visit' }).expect(409);
    expect(refused.body.unasked).toEqual(['head-end-on', 'ordinary-day', 'volume-up:A/A4']);
    await act(ticket.id, 'answers', { question: 'is-it-raining', answer: 'no' }).expect(422);
    await answerAll(ticket);
    const { body } = await act(ticket.id, 'moves', { to: 'to-visit' }).expect(201);
    expect(body.state).toBe('to-visit');
  });

  it('may be sent for without asking, with a reason that the log keeps', async () => {
    const ticket = await openTicket();
    const move = { to: 'at-work', reason: 'The technician stands in the room' };
    await act(ticket.id, 'moves', move).expect(201);
    const { body } = await get(`/tickets/${ticket.id}/log`);
    expect(body.items.at(-1)).toMatchObject({ kind: 'move', details: move });
  });

  it('answers a move that is not allowed with those that are', async () => {
    const ticket = await openTicket();
    await act(ticket.id, 'moves', { to: 'closed', reason: 'A false alarm' }).expect(201);
    const { body } = await act(ticket.id, 'moves', { to: 'at-work' }).expect(409);
    expect(body).toMatchObject({
      type: 'urn:lastheard:problem:move-not-allowed',
      allowed: ['reported'],
    });
    await act(ticket.id, 'moves', { to: 'reported' }).expect(422);
    await act(ticket.id, 'moves', { to: 'reported', reason: 'Silent again' }).expect(201);
  });

  it('closes after finding, mending and a walk test of every reported function', async () => {
    const ticket = await openTicket([heard('A4', 'fails'), heard('A5', 'weak', 'bell')]);
    const place = { kind: 'span', trunk: 'A', from: 'A3', to: 'A4' };
    await act(ticket.id, 'findings', {
      place,
      component: 'junction-in',
      mode: 'open-speech',
      minutes: 25,
    }).expect(201);
    const parts = [{ name: 'terminal block', quantity: 1 }];
    const mended = await act(ticket.id, 'mendings', {
      mending: 'lasting',
      what: 'Terminals remade',
      parts,
      minutes: 15,
    }).expect(201);
    expect(mended.body.state).toBe('mended');
    await act(ticket.id, 'moves', { to: 'closed' }).expect(409);
    test.clock.tick(10);
    await act(ticket.id, 'walk-tests', { observations: [heard('A4', 'works')] }).expect(201);
    const open = await act(ticket.id, 'moves', { to: 'closed' }).expect(409);
    expect(open.body.stillToProve).toEqual([{ trunk: 'A', node: 'A5', function: 'bell' }]);
    await act(ticket.id, 'walk-tests', { observations: [heard('A5', 'works', 'bell')] });
    const { body } = await act(ticket.id, 'moves', { to: 'closed' }).expect(201);
    expect(body).toMatchObject({ state: 'closed', stillToProve: [] });
    expect(body.closedAt).not.toBeNull();
    const log = await get(`/tickets/${ticket.id}/log`);
    expect(log.body.items.map(({ kind }: { kind: string }) => kind)).toEqual([
      'report',
      'finding',
      'mending',
      'walk-test',
      'walk-test',
      'move',
    ]);
  });

  it('says that a follow-up visit is due after a temporary mending', async () => {
    const ticket = await openTicket();
    const bridged = { mending: 'temporary', what: 'Station in Room 4 bridged over' };
    await act(ticket.id, 'mendings', bridged).expect(422);
    const timed = { ...bridged, followUpDueOn: '2026-03-09T23:30:00-05:00' };
    const noDay = await act(ticket.id, 'mendings', timed).expect(422);
    expect(noDay.body.errors[0].reason).toMatch(/^must be a day/);
    const { body } = await act(ticket.id, 'mendings', { ...bridged, followUpDueOn: '2026-03-09' });
    expect(body).toMatchObject({ state: 'bridged', followUpDueOn: '2026-03-09' });
    test.clock.tick(5);
    await act(ticket.id, 'walk-tests', { observations: [heard('A4', 'works')] }).expect(201);
    const refused = await act(ticket.id, 'moves', { to: 'closed' }).expect(409);
    expect(refused.body.detail).toContain('2026-03-09');
    const lasting = await act(ticket.id, 'mendings', { mending: 'lasting', what: 'New unit' });
    expect(lasting.body).toMatchObject({ state: 'mended', followUpDueOn: null });
  });

  it('records that nothing was found, and refuses a finding that cannot be', async () => {
    const ticket = await openTicket();
    await act(ticket.id, 'findings', { note: 'All well when I came' }).expect(201);
    const wrong = async (finding: object) =>
      (await act(ticket.id, 'findings', finding).expect(422)).body.errors[0].field;
    const span = { kind: 'span', trunk: 'A', from: 'A3', to: 'A4' };
    expect(await wrong({ place: { ...span, from: 'A2' } })).toBe('/place/from');
    expect(await wrong({ place: { kind: 'station', trunk: 'A', node: 'A9' } })).toBe('/place/node');
    expect(await wrong({ place: span, component: 'station' })).toBe('/component');
    expect(await wrong({ place: span, component: 'cable', mode: 'speaker' })).toBe('/mode');
    expect(await wrong({ mode: 'parted' })).toBe('/mode');
  });

  it('merges and splits without losing anything', async () => {
    const one = await openTicket([heard('A4', 'fails')]);
    const other = (await report([heard('B2', 'fails')])).tickets[0];
    const { body: merged } = await act(other.id, 'merge', { into: one.id }).expect(201);
    expect(merged).toMatchObject({ id: one.id, trunks: ['A', 'B'] });
    expect((await get(`/tickets/${other.id}`)).body).toMatchObject({
      state: 'merged',
      mergedInto: one.id,
    });
    const log = await get(`/tickets/${one.id}/log`);
    expect(log.body.items.map(({ kind }: { kind: string }) => kind).sort()).toEqual([
      'merged-away',
      'merged-in',
      'report',
      'report',
    ]);
    const late = await act(other.id, 'notes', { note: 'late' }).expect(409);
    expect(late.body.mergedInto).toBe(one.id);

    const { body: all } = await get(`/tickets/${one.id}/observations`);
    const moved = all.items.filter(({ trunk }: { trunk: string }) => trunk === 'B');
    const observationIds = moved.map(({ id }: { id: string }) => id);
    const { body: split } = await act(one.id, 'split', { observationIds }).expect(201);
    expect(split).toMatchObject({ state: 'reported', trunks: ['B'] });
    expect((await get(`/tickets/${one.id}`)).body.trunks).toEqual(['A']);
    await act(one.id, 'split', { observationIds }).expect(422);
    const rest = (await get(`/tickets/${one.id}/observations`)).body.items;
    await act(one.id, 'split', { observationIds: [rest[0].id] }).expect(422);
    await act(one.id, 'merge', { into: one.id }).expect(422);
    await act(one.id, 'merge', { into: UNKNOWN }).expect(404);
  });

  it('undoes a merge with the reports coming back', async () => {
    const one = await openTicket([heard('A4', 'fails')]);
    const other = (await report([heard('B2', 'fails')])).tickets[0];
    await act(other.id, 'merge', { into: one.id }).expect(201);
    const { body } = await act(other.id, 'moves', { to: 'reported', reason: 'Two faults' });
    expect(body).toMatchObject({ state: 'reported', mergedInto: null, trunks: ['B'] });
    expect((await get(`/tickets/${one.id}`)).body.trunks).toEqual(['A']);
  });

  /** The last that was said of a room. */
  async function saidOf(id: string, node: string) {
    const { body } = await get(`/tickets/${id}/observations`).expect(200);
    return body.items.findLast((one: { node: string }) => one.node === node);
  }

  const withdraw = (id: string, said: { id: string }, more: object = {}) =>
    act(id, `observations/${said.id}/withdraw`, { reason: 'Another room was meant', ...more });

  it('withdraws what was said of the wrong room: it stays, and nothing goes by it any more', async () => {
    const { id } = await openTicket();
    const { body: before } = await get(`/tickets/${id}/location`).expect(200);
    const report = { how: 'gone-through', saidBy: OFFICE, observations: [heard('A2', 'weak')] };
    await act(id, 'reports', report).expect(201);
    const said = await saidOf(id, 'A2');
    const { body } = await withdraw(id, said, { saidBy: OFFICE }).expect(201);
    expect(body).toMatchObject({ version: 3, stillToProve: [{ node: 'A4' }] });
    const { body: observations } = await get(`/tickets/${id}/observations`).expect(200);
    expect(said.withdrawal).toBeNull();
    const withdrawal = {
      id: expect.any(String),
      saidBy: 'Mara Quill',
      saidByKind: 'office',
      happenedAt: test.clock.now().toISOString(),
      recordedAt: test.clock.now().toISOString(),
      reason: 'Another room was meant',
    };
    expect(observations.items).toHaveLength(3);
    expect(observations.items).toContainEqual({ ...said, withdrawal });
    const { body: log } = await get(`/tickets/${id}/log`).expect(200);
    expect(log.items.find(({ kind }: { kind: string }) => kind === 'withdrawal')).toMatchObject({
      details: { observationIds: [said.id], reason: withdrawal.reason },
    });
    const { body: after } = await get(`/tickets/${id}/location`).expect(200);
    expect(after).toEqual({
      ...before,
      observationsLeftOut: [{ id: said.id, reason: 'was withdrawn' }],
    });
  });

  it('has nothing to prove, to walk for or to join when all its trouble was withdrawn', async () => {
    const { id } = await openTicket();
    const { body } = await withdraw(id, await saidOf(id, 'A4')).expect(201);
    expect(body).toMatchObject({ trunks: [], stillToProve: [] });
    expect((await get(`/tickets/${id}/location`).expect(200)).body.surprise).toBeNull();
    await get(`/tickets/${id}/walk`).expect(200);
    const left = await saidOf(id, 'A3');
    const split = await act(id, 'split', { observationIds: [left.id] }).expect(422);
    expect(split.body.errors[0].field).toBe('/observationIds');
    expect((await openTicket()).id).not.toBe(id);
    await act(id, 'moves', { to: 'closed' }).expect(201);
  });

  it('takes what a walk test said of the wrong room for unproven again', async () => {
    const { id } = await openTicket();
    await act(id, 'mendings', { mending: 'lasting', what: 'Terminals remade' }).expect(201);
    test.clock.tick(10);
    const observations = [heard('A4', 'works'), heard('A5', 'works')];
    const { body: tested } = await act(id, 'walk-tests', { observations }).expect(201);
    expect(tested.stillToProve).toEqual([]);
    const { body } = await withdraw(id, await saidOf(id, 'A4')).expect(201);
    expect(body.stillToProve).toMatchObject([{ node: 'A4' }]);
    await act(id, 'moves', { to: 'closed' }).expect(409);
    await act(id, 'moves', { to: 'closed', reason: 'Heard by the office' }).expect(201);
    test.clock.tick(60);
    const next = await openTicket([heard('A6', 'fails')]);
    const { body: location } = await get(`/tickets/${next.id}/location`).expect(200);
    expect(location.provenPoints).toBe(1);
  });

  it('withdraws once, with a reason, what is of an open ticket, for the firm’s own people', async () => {
    const { id } = await openTicket();
    const said = await saidOf(id, 'A4');
    const { body } = await withdraw(id, said, { reason: ' ' }).expect(422);
    expect(body.errors).toEqual([{ field: '/reason', reason: 'should not be empty' }]);
    const other = await openTicket([heard('B2', 'fails')]);
    await withdraw(other.id, said).expect(404);
    await withdraw(id, { id: UNKNOWN }).expect(404);
    const { body: site } = await get(`/sites/${siteId}`).expect(200);
    const client = await test.addPerson('client', { clientId: site.clientId });
    const path = `/api/v1/tickets/${id}/observations/${said.id}/withdraw`;
    await client.http.post(path).send({ saidBy: OFFICE, reason: 'X' }).expect(403);
    await withdraw(id, said).expect(201);
    await withdraw(id, said).expect(409);
    await act(id, 'moves', { to: 'closed', reason: 'A false alarm' }).expect(201);
    await withdraw(id, await saidOf(id, 'A3')).expect(409);
  });

  it('keeps the drawing that a ticket was opened on', async () => {
    const ticket = await openTicket();
    const record = await get(`/sites/${siteId}/as-built`);
    const trunks = record.body.trunks.map((trunk: { trunk: string; nodes: object[] }) =>
      trunk.trunk === 'A' ? { ...trunk, nodes: trunk.nodes.slice(0, 3) } : trunk,
    );
    await test.http
      .put(`/api/v1/sites/${siteId}/as-built`)
      .set('If-Match', '"1"')
      .send({ changedBy: 'Tester', reason: 'Rooms given up', headEnd: {}, trunks })
      .expect(200);
    const { body } = await get(`/tickets/${ticket.id}/location`).expect(200);
    expect(body).toMatchObject({ asBuiltVersion: 1 });
    expect(body.places[0].words).toContain('Room 4');
  });

  it('pages through tickets and logs, and filters', async () => {
    const ticket = await openTicket();
    for (const note of ['one', 'two', 'three']) await act(ticket.id, 'notes', { note }).expect(201);
    const { body: first } = await get(`/tickets/${ticket.id}/log?limit=2`).expect(200);
    const { body: second } = await get(`/tickets/${ticket.id}/log?limit=2&after=${first.next}`);
    expect([...first.items, ...second.items].map(({ details }) => details.note)).toEqual([
      null,
      'one',
      'two',
      'three',
    ]);
    expect(second.next).toBeNull();
    const { body: page } = await get('/tickets?limit=1').expect(200);
    expect(page.items[0].number).toBe(ticket.number);
    expect((await get(`/tickets?site=${siteId}&state=closed`)).body.items).toEqual([]);
    await get('/tickets?state=limbo').expect(422);
    await get('/tickets?open=maybe').expect(422);
    expect((await get(`/tickets?site=${siteId}&open=false`)).body.items).toHaveLength(1);
    await get(`/tickets/${UNKNOWN}`).expect(404);
    await get('/tickets?after=bm9uc2Vuc2U').expect(422);
  });

  it('refuses what is dated in the future', async () => {
    const ticket = await openTicket();
    const note = { note: 'from tomorrow', saidAt: '2027-01-01T00:00:00Z' };
    const { body } = await act(ticket.id, 'notes', note).expect(422);
    expect(body.errors).toEqual([{ field: '/saidAt', reason: 'is in the future' }]);
  });

  it('takes no instant that is another one elsewhere, and null for left out', async () => {
    const ticket = await openTicket();
    const reason =
      'must be a day and time with its offset, such as 2026-05-04T09:30:00+02:00 or 2026-05-04T07:30:00Z';
    for (const saidAt of ['2026-03-02T07:00:00', '2026-03-02', 'now', 5, true, {}]) {
      const { body } = await act(ticket.id, 'notes', { note: 'When?', saidAt }).expect(422);
      expect(body.errors).toEqual([{ field: '/saidAt', reason }]);
    }
    await act(ticket.id, 'notes', { note: 'Unsaid when', saidAt: null }).expect(201);
    const said = { note: 'Ten past nine', saidAt: '2026-03-02T09:10:00+02:00' };
    await act(ticket.id, 'notes', said).expect(201);
    const { body } = await get(`/tickets/${ticket.id}/log`).expect(200);
    expect(body.items.slice(-2)).toMatchObject([
      { happenedAt: test.clock.now().toISOString() },
      { happenedAt: '2026-03-02T07:10:00.000Z' },
    ]);
  });

  it('gives one instant to all that one thing said changes', async () => {
    test.clock.run(1);
    const observations = [heard('A3', 'works'), heard('A4', 'fails')];
    const report = { saidBy: OFFICE, how: 'gone-through', observations };
    const reported = await post(`/sites/${siteId}/reports`, report).expect(201);
    const { id, openedAt } = reported.body.tickets[0];
    const closed = await act(id, 'moves', { to: 'closed', reason: 'A mistake' }).expect(201);
    test.clock.run(0);
    const { body: log } = await get(`/tickets/${id}/log`);
    const { body: told } = await get(`/tickets/${id}/observations`);
    const times = told.items.map(({ observedAt }: { observedAt: string }) => observedAt);
    expect([log.items[0].happenedAt, ...times]).toEqual([openedAt, openedAt, openedAt]);
    expect(log.items[1].happenedAt).toBe(closed.body.closedAt);
  });

  it('refuses what nobody says', async () => {
    const ticket = await openTicket();
    const { body } = await post(`/tickets/${ticket.id}/notes`, { note: 'Hm' }).expect(422);
    expect(body.errors).toEqual([{ field: '/saidBy', reason: 'is missing' }]);
  });

  it('has a log that the database itself refuses to change', async () => {
    const ticket = await openTicket();
    const client = new Client({ connectionString: test.appUrl });
    await client.connect();
    try {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      const where = `WHERE ticket_id = '${ticket.id}'`;
      for (const sql of [
        `UPDATE ticket_entries SET said_by = 'Nobody' ${where}`,
        `DELETE FROM ticket_entries ${where}`,
        `UPDATE observations SET outcome = 'works' ${where}`,
        `DELETE FROM observations ${where}`,
      ]) {
        await expect(client.query(sql)).rejects.toThrow(/only grows/);
      }
    } finally {
      await client.end();
    }
  });

  it('computes a location from a drawing and evidence alone', async () => {
    const trunks = [{ id: 'A', nodes: [{ id: 'A1', kind: 'station', cableMetres: 9 }] }];
    const observations = [{ trunk: 'A', node: 'A1', function: 'bell', outcome: 'fails' }];
    const request = { trunks, exposureDays: 90, observations };
    const { body } = await post('/locate', request).expect(200);
    expect(body.logEvidence).toBeLessThan(0);
    expect(body.places).toHaveLength(4);
    const wrong = await post('/locate', { trunks, exposureDays: -1, observations, colour: 'red' });
    expect(wrong.status).toBe(422);
    const fields = wrong.body.errors.map(({ field }: { field: string }) => field).sort();
    expect(fields).toEqual(['/colour', '/exposureDays']);
  });
});
