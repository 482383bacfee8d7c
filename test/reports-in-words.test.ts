import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { JobService } from '#app/jobs/job.service.js';
import { TicketLogService } from '#app/tickets/ticket-log.service.js';

import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, type TestApp } from './support/test-app.js';

const MARA = { name: 'Mara Quill', kind: 'office' };
const silent = (node: string, outcome = 'fails') => ({
  trunk: 'A',
  node,
  function: 'announcement',
  outcome,
});

describe('what a report says besides its rooms', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  afterAll(() => test.close());

  const post = (path: string, body: object) =>
    test.http.post(`/api/v1${path}`).send({ saidBy: MARA, ...body });
  const report = (siteId: string, body: object) =>
    post(`/sites/${siteId}/reports`, { how: 'volunteered', ...body });
  const get = async (path: string) => (await test.http.get(`/api/v1${path}`).expect(200)).body;
  const logOf = async (id: string) => (await get(`/tickets/${id}/log`)).items;
  const onDesk = async (id: string) =>
    (await get('/desk')).items.find((one: { id: string }) => one.id === id);
  const pass = async (siteId: string): Promise<{ http: Agent; csrf: string }> => {
    const { body } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const http = test.browser();
    const sent = { pass: body.link.split('#')[1] };
    const opened = await http.post('/api/v1/pass/session').send(sent).expect(200);
    return { http, csrf: opened.body.csrfToken };
  };

  it('is kept word by word, and why it cannot wait stands on the desk', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const sent = {
      observations: [silent('A3'), silent('A4', 'weak')],
      urgentReason: 'Examinations begin at nine',
      callBackPhone: '0555 0142',
      oddities: ['humming', 'wrong-time'],
      note: 'Since the painters left',
    };
    const { body } = await report(siteId, sent).expect(201);
    const [ticket] = body.tickets;
    expect(ticket.urgentReason).toBe('Examinations begin at nine');
    const [entry] = await logOf(ticket.id);
    expect(entry.details).toMatchObject({
      urgentReason: 'Examinations begin at nine',
      callBackPhone: '0555 0142',
      oddities: ['humming', 'wrong-time'],
      note: 'Since the painters left',
    });
    expect((await onDesk(ticket.id)).urgentReason).toBe('Examinations begin at nine');

    // Who joins it without a reason takes none away; who has one says the newest.
    await report(siteId, { observations: [silent('A4')] }).expect(201);
    expect((await get(`/tickets/${ticket.id}`)).urgentReason).toBe('Examinations begin at nine');
    const later = { observations: [silent('A2')], urgentReason: 'A parents’ evening at six' };
    await post(`/tickets/${ticket.id}/reports`, { how: 'volunteered', ...later }).expect(201);
    expect((await get(`/tickets/${ticket.id}`)).urgentReason).toBe('A parents’ evening at six');
  });

  it('goes along when tickets are merged and split', async () => {
    const siteId = await drawSite(test, [row('A', 2), row('B', 3)]);
    const on = (trunk: string, node: string) => ({ ...silent(node), trunk });
    const observations = [on('B', 'B1'), on('B', 'B2')];
    const urgent = { observations, urgentReason: 'The bell for the buses' };
    const first = (await report(siteId, urgent).expect(201)).body.tickets[0];
    const second = (await report(siteId, { observations: [on('A', 'A1')] }).expect(201)).body
      .tickets[0];
    await post(`/tickets/${first.id}/merge`, { into: second.id }).expect(201);
    expect((await get(`/tickets/${second.id}`)).urgentReason).toBe('The bell for the buses');
    const { items } = await get(`/tickets/${second.id}/observations`);
    const ofB1 = items.find(({ node }: { node: string }) => node === 'B1');
    const split = { observationIds: [ofB1.id] };
    const apart = (await post(`/tickets/${second.id}/split`, split).expect(201)).body;
    expect(apart.urgentReason).toBe('The bell for the buses');
  });

  it.each([
    ['/urgentReason', { urgentReason: 'x'.repeat(201) }],
    ['/urgentReason', { urgentReason: '' }],
    ['/callBackPhone', { callBackPhone: '5'.repeat(41) }],
    ['/oddities', { oddities: ['humming', 'humming'] }],
    ['/oddities', { oddities: ['smells'] }],
  ])('is refused at %s', async (field, wrong) => {
    const siteId = await drawSite(test, [row('A', 2)]);
    const { body } = await report(siteId, {
      observations: [silent('A1')],
      ...wrong,
    }).expect(422);
    expect(body.errors.map((one: { field: string }) => one.field)).toEqual([
      expect.stringContaining(field),
    ]);
  });

  it('is all there is to say of a site that nobody has drawn', async () => {
    const siteId = await drawSite(test, []);
    const bare = await report(siteId, { observations: [] }).expect(422);
    expect(bare.body.errors).toEqual([
      {
        field: '/note',
        reason: 'must say which rooms are silent: this site has no as-built record yet',
      },
    ]);
    const inWords = { observations: [], note: 'No bell in the old wing' };
    const { body } = await report(siteId, inWords).expect(201);
    const [ticket] = body.tickets;
    expect(ticket).toMatchObject({ asBuiltVersion: 0, state: 'reported', joined: false });
    const more = { observations: [], note: 'Nor in the gymnasium', urgentReason: 'Examinations' };
    const again = (await report(siteId, more).expect(201)).body.tickets[0];
    expect(again).toMatchObject({ id: ticket.id, joined: true, urgentReason: 'Examinations' });
    expect(
      (await logOf(ticket.id)).map(({ details }: never) => (details as { note: string }).note),
    ).toEqual(['No bell in the old wing', 'Nor in the gymnasium']);
    // Everything that people open for a ticket opens for this one.
    expect(await onDesk(ticket.id)).toMatchObject({ strips: [], silentRooms: 0 });
    await test.app.get(JobService).settle();
    const technician = { saidBy: { name: 'Ilvo Marsh', kind: 'technician' } };
    await post(`/tickets/${ticket.id}/moves`, { to: 'at-work', reason: 'Goes', ...technician });
    const closing = { to: 'closed', reason: 'Plugged in again', ...technician };
    await post(`/tickets/${ticket.id}/moves`, closing).expect(201);
  });

  it('is a kit in words, for whoever goes to a site that nobody has drawn', async () => {
    const siteId = await drawSite(test, []);
    const place = { address: '4 Sluice Lane', safetyNotes: 'The key is at the gate' };
    await test.http.patch(`/api/v1/sites/${siteId}`).set('If-Match', '"1"').send(place).expect(200);
    const said = { note: 'No bell in the hall', callBackPhone: '0555 0142', oddities: ['humming'] };
    const sent = { observations: [], ...said, urgentReason: 'Examinations at nine' };
    const { body } = await report(siteId, sent).expect(201);
    const [{ id, number }] = body.tickets;
    await post(`/tickets/${id}/notes`, { note: 'Ring before you come' }).expect(201);
    const kit = await get(`/tickets/${id}/kit-in-words`);
    expect(kit).toMatchObject({
      ticketId: id,
      number,
      urgentReason: 'Examinations at nine',
      said: [
        { saidBy: 'Mara Quill', words: 'No bell in the hall', callBackPhone: '0555 0142' },
        { words: 'Ring before you come', callBackPhone: null, oddities: [] },
      ],
      site: { id: siteId, address: '4 Sluice Lane' },
    });
    expect(kit.said[0].oddities).toEqual(['humming']);
    expect(kit.cautions[0]).toBe('The key is at the gate');
    for (let more = 0; more < 31; more++) {
      await post(`/tickets/${id}/notes`, { note: `Note ${more}` }).expect(201);
    }
    const longer = (await get(`/tickets/${id}/kit-in-words`)).said;
    expect([longer.length, longer[0].words, longer[29].words]).toEqual([30, 'Note 1', 'Note 30']);
    const stranger = await test.addStranger();
    await stranger.http.get(`/api/v1/tickets/${id}/kit-in-words`).expect(404);
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`);
    const client = await test.addPerson('client', { clientId: site.clientId });
    await client.http.get(`/api/v1/tickets/${id}/kit-in-words`).expect(403);
  });

  it('names in such a kit all that it tells, whatever arrives after it was begun', async () => {
    const { body } = await report(await drawSite(test, []), {
      observations: [],
      note: 'No bell in the hall',
    }).expect(201);
    const [{ id }] = body.tickets;
    const log = test.app.get(TicketLogService);
    const list = log.listLastTogether.bind(log);
    log.listLastTogether = async (...asked) => {
      log.listLastTogether = list;
      await post(`/tickets/${id}/notes`, { note: 'In between' }).expect(201);
      return list(...asked);
    };
    const told = async () => {
      const { said, entryIds } = await get(`/tickets/${id}/kit-in-words`);
      return [said.length, entryIds.length];
    };
    try {
      expect(await told()).toEqual([1, 1]);
    } finally {
      log.listLastTogether = list;
    }
    expect(await told()).toEqual([2, 2]);
  });

  it('is answered to whoever holds the pass of such a site', async () => {
    const siteId = await drawSite(test, []);
    const { http, csrf } = await pass(siteId);
    const { body: site } = await http.get('/api/v1/pass/site').expect(200);
    expect(site.rooms).toEqual([]);
    const sent = {
      name: 'Mara Quill',
      how: 'volunteered',
      observations: [],
      note: 'Hall silent',
    };
    const { body } = await http
      .post('/api/v1/pass/reports')
      .set('x-csrf-token', csrf)
      .send(sent)
      .expect(201);
    const [ticket] = body.tickets;
    expect(ticket).toMatchObject({ stillToProve: [] });
    // What can be looked at in the cabinet needs no drawing.
    const kinds = ticket.officeChecks.map(({ kind }: { kind: string }) => kind);
    expect(new Set(kinds)).toEqual(new Set(['head-end']));
    await http.get(`/api/v1/pass/tickets/${ticket.id}`).expect(200);
    const read = ['location', 'walk', 'kit', 'clock'];
    const statuses = await Promise.all(
      read.map(async (one) => (await test.http.get(`/api/v1/tickets/${ticket.id}/${one}`)).status),
    );
    expect(statuses).toEqual([422, 422, 422, 200]);
    const located = await test.http.get(`/api/v1/tickets/${ticket.id}/location`);
    expect(located.body.errors).toEqual([
      {
        field: '/asBuiltVersion',
        reason: 'is 0: nobody has drawn this site yet, and no place can be worked out',
      },
    ]);
  });
});
