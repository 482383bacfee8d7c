import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import { Client } from 'pg';
import { Piscina } from 'piscina';
import supertest from 'supertest';

import { ComputeService } from '#app/compute/compute.service.js';
import { createApp } from '#app/create-app.js';
import { JobService } from '#app/jobs/job.service.js';
import { type ReadTicket, TicketFactsRepository } from '#app/locating/ticket-facts.repository.js';
import type { TicketQuestion } from '#app/locating/ticket-facts.js';
import { BusyError } from '#app/shared/domain-error.js';

import { statementsOf } from './support/count-statements.js';
import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, FIRM_ID, SEAL_KEY, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };

/** Rooms in a row: `.` heard, `x` silent, `-` not asked. */
const rooms = (said: string, trunk = 'A') =>
  [...said].flatMap((one, n) =>
    one === '-'
      ? []
      : {
          trunk,
          node: `${trunk}${n + 1}`,
          function: 'announcement',
          outcome: one === 'x' ? 'fails' : 'works',
        },
  );

describe('what is worked out and kept', () => {
  let test: TestApp;
  let owner: Client;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    owner = new Client({ connectionString: test.ownerUrl });
    await owner.connect();
  });

  afterAll(async () => {
    await owner.end();
    await test.close();
  });

  const settle = () => test.app.get(JobService).settle();
  const send = (siteId: string, observations: object[], more: object = {}) =>
    test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy: OFFICE, how: 'gone-through', observations, ...more })
      .expect(201);

  async function report(siteId: string, observations: object[], more: object = {}) {
    return (await send(siteId, observations, more)).body.tickets[0].id as string;
  }

  const act = (ticketId: string, what: string, body: object) =>
    test.http
      .post(`/api/v1/tickets/${ticketId}/${what}`)
      .send({ saidBy: TECHNICIAN, ...body })
      .expect(201);

  const location = async (http: Agent, ticketId: string) =>
    (await http.get(`/api/v1/tickets/${ticketId}/location`).expect(200)).text;

  async function listed(ticketId: string) {
    const { body } = await test.http.get('/api/v1/tickets?limit=200').expect(200);
    return body.items.find(({ id }: { id: string }) => id === ticketId).likeliest;
  }

  /** A fault that was found, mended and closed: the firm learns from it. */
  async function mendOne(siteId: string): Promise<void> {
    const ticketId = await report(siteId, rooms('.xx', 'B'));
    const place = { kind: 'span', trunk: 'B', from: 'B1', to: 'B2' };
    await act(ticketId, 'findings', { place, component: 'cable', mode: 'parted' });
    await act(ticketId, 'mendings', { mending: 'lasting', what: 'New cable' });
    await act(ticketId, 'walk-tests', { observations: rooms('...', 'B') });
    await act(ticketId, 'moves', { to: 'closed', reason: 'Mended' });
  }

  async function openPass(siteId: string): Promise<Agent> {
    const { body: pass } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const http = test.browser();
    await http
      .post('/api/v1/pass/session')
      .send({ pass: pass.link.split('#')[1] })
      .expect(200);
    return http;
  }

  /** What is worked out on the pool while the work runs. */
  async function countWorkedOut(work: () => Promise<unknown>): Promise<number> {
    const spy = jest.spyOn(test.app.get(ComputeService), 'run');
    try {
      await work();
      return spy.mock.calls.length;
    } finally {
      spy.mockRestore();
    }
  }

  it('are told in the language of who asks, the facts alike', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const ticketId = await report(siteId, rooms('..xx'));
    await settle();
    const ask = async (path: string, languages: string) => {
      const answer = await test.http.get(`/api/v1${path}`).set('accept-language', languages);
      return { ...answer.headers, body: answer.body };
    };
    const path = `/tickets/${ticketId}/location`;
    const english = await ask(path, 'de');
    const french = await ask(path, 'fr-CA, en;q=0.5');
    const vary = 'Accept-Language, Accept-Encoding';
    expect(english).toMatchObject({ 'content-language': 'en', vary });
    expect(french).toMatchObject({ 'content-language': 'fr', vary });
    expect(english.body.places[0].words).toMatch(/^between Room 2 and Room 3 on trunk A, \d+ %$/);
    expect(french.body.places[0].words).toMatch(
      /^entre Room 2 et Room 3, sur la ligne A : \d+\s%$/,
    );
    expect(french.body.officeChecks[0].words).not.toEqual(english.body.officeChecks[0].words);
    expect(french.body.result).toEqual(english.body.result);
    const listed = async (language: string) =>
      (await ask(`/tickets?site=${siteId}`, language)).body.items[0].likeliest.words as string;
    expect(await listed('en')).toBe(english.body.places[0].words);
    expect(await listed('fr')).toBe(french.body.places[0].words);
    expect(await listed('hi')).toMatch(/Room 2 और Room 3 के बीच/);
    const asked = (await ask(`/tickets/${ticketId}`, 'es')).body.askFirst[0].text as string;
    expect(asked).toBe('¿Está encendido el armario de la oficina, con su piloto iluminado?');
    const wrong = await ask('/tickets/none/location', 'fr');
    expect(wrong).toMatchObject({ 'content-language': 'en, fr' });
  });

  it('tells owner, dispatcher, technician and office the same, byte for byte', async () => {
    const trunks = [row('A', 4), row('B', 3)];
    const elsewhere = await drawSite(test, trunks);
    const siteId = await drawSite(test, trunks);
    const dispatcher = await test.addPerson('dispatcher');
    const technician = await test.addPerson('technician');
    const ticketId = await report(siteId, rooms('.-xx'));
    await test.http
      .post('/api/v1/visits')
      .send({
        siteId,
        kind: 'call-out',
        on: '2026-03-02',
        purpose: 'Rooms silent',
        technicianId: technician.id,
        ticketIds: [ticketId],
      })
      .expect(201);
    const office = await openPass(siteId);
    const asked = async () => {
      const told = await Promise.all(
        [test.owner, dispatcher, technician].map(({ http }) => location(http, ticketId)),
      );
      const { body } = await office.get(`/api/v1/pass/tickets/${ticketId}`).expect(200);
      return { told, checks: JSON.stringify(body.officeChecks) };
    };
    const before = (await asked()).told[0]!;
    // Found where the office's pass does not reach.
    await mendOne(elsewhere);
    await settle();
    for (const kept of [true, false]) {
      if (!kept) await forget(ticketId);
      const { told, checks } = await asked();
      expect(new Set(told).size).toBe(1);
      expect(told[0]).not.toBe(before);
      expect(checks).toBe(JSON.stringify(JSON.parse(told[0]!).officeChecks));
    }
  });

  /** As if it had never been worked out. */
  async function forget(ticketId: string): Promise<void> {
    await owner.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    await owner.query('DELETE FROM ticket_locations WHERE id = $1', [ticketId]);
  }

  it('answers from what is kept as long as nothing has changed, and from nothing older', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const ticketId = await report(siteId, rooms('.xx-'));
    await settle();
    let first = '';
    const read = async () => (first = await location(test.http, ticketId));
    expect(await countWorkedOut(read)).toBe(0);
    await forget(ticketId);
    // What this process worked out last it has at hand.
    expect(
      await countWorkedOut(async () => expect(await location(test.http, ticketId)).toBe(first)),
    ).toBe(0);
    // Its job is still to come: the answer is of now all the same.
    await act(ticketId, 'reports', { how: 'gone-through', observations: rooms('..--') });
    let second = '';
    expect(await countWorkedOut(async () => (second = await location(test.http, ticketId)))).toBe(
      1,
    );
    expect(second).not.toBe(first);
    await settle();
    expect(
      await countWorkedOut(async () => expect(await location(test.http, ticketId)).toBe(second)),
    ).toBe(0);
  });

  it('is sent packed to whoever takes that, and is the same', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const ticketId = await report(siteId, rooms('..xx'));
    const ask = async (encodings: string) => {
      const { headers, text } = await test.http
        .get(`/api/v1/tickets/${ticketId}/location`)
        .set('accept-encoding', encodings)
        .expect(200);
      return { encoding: headers['content-encoding'], sent: headers['content-length'], text };
    };
    // Worked out just now, at hand, and as kept by the job.
    for (let time = 0; time < 3; time++) {
      const plain = await ask('identity');
      expect(plain.encoding).toBeUndefined();
      expect(Number(plain.sent)).toBe(Buffer.byteLength(plain.text));
      for (const taken of ['gzip', 'br, GZIP;q=0.5', 'deflate, gzip; q=1.0']) {
        const packed = await ask(taken);
        expect(packed).toMatchObject({ encoding: 'gzip', text: plain.text });
        expect(Number(packed.sent)).toBeLessThan(Number(plain.sent) / 3);
      }
      for (const other of ['gzip;q=0', 'br, gzip; Q=0.00', 'x-gzip2', '*;q=0', ''])
        expect(await ask(other)).toEqual(plain);
      await settle();
    }
  });

  it('is read whole by nobody whom it does not answer', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const ticketId = await report(siteId, rooms('..xx'));
    await settle();
    // Another process, which has none of it at hand.
    const settings = { appUrl: test.appUrl, publicUrl: 'http://localhost', sealKey: SEAL_KEY };
    const app = await createApp({ ...settings, clock: test.clock });
    try {
      await app.init();
      await app.getHttpAdapter().getInstance().ready();
      await app.get(JobService).beforeApplicationShutdown();
      const http = supertest.agent(app.getHttpServer()).auth(test.owner.token, { type: 'bearer' });
      const read = jest.spyOn(app.get(TicketFactsRepository), 'read');
      const reads = async () => {
        await location(http, ticketId);
        const { kept } = await (read.mock.results.at(-1)!.value as Promise<ReadTicket>);
        return kept!.answer === null ? 'not read' : 'read';
      };
      expect([await reads(), await reads()]).toEqual(['read', 'read']);
      await act(ticketId, 'reports', { how: 'gone-through', observations: rooms('..x-') });
      // That it is over shows when it was read.
      expect([await reads(), await reads(), await reads()]).toEqual([
        'read',
        'not read',
        'not read',
      ]);
      await settle();
      expect(await reads()).toBe('not read');
    } finally {
      await app.close();
    }
  });

  it('shows the place of every ticket in the list, by one query, brought up to date after a change', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const ticketId = await report(siteId, rooms('..xx'));
    await settle();
    expect(await listed(ticketId)).toEqual({
      words: expect.stringMatching(/^between Room 2 and Room 3 on trunk A, \d+ %$/),
      probability: expect.any(Number),
    });
    await act(ticketId, 'reports', { how: 'gone-through', observations: rooms('...x') });
    await settle();
    const { words, probability } = await listed(ticketId);
    const told = JSON.parse(await location(test.http, ticketId));
    expect({ words, probability }).toEqual({
      words: told.places[0].words,
      probability: told.places[0].probability,
    });
    const list = () => test.http.get('/api/v1/tickets?limit=200').expect(200);
    const sent = await statementsOf(test.app, list);
    expect(sent.filter((text) => /FROM "?(tickets|ticket_locations)/.test(text))).toHaveLength(1);
  });

  it('answers a repeat as the first time, also where the first had no time to be finished', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const id = '01900000-0000-7000-8000-00000000c001';
    const first = (await send(siteId, rooms('.xx-'), { id })).body;
    expect(first.tickets[0].officeChecks.length).toBeGreaterThan(0);
    await act(first.tickets[0].id, 'reports', {
      how: 'gone-through',
      observations: rooms('..x-'),
    });
    expect((await send(siteId, rooms('.xx-'), { id })).body).toEqual(first);
    const unfinished = { ...first, tickets: first.tickets.map(withoutChecks) };
    await owner.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    await owner.query(
      'UPDATE received_requests SET answer = $1, is_finished = false WHERE id = $2',
      [JSON.stringify(unfinished), id],
    );
    const finished = (await send(siteId, rooms('.xx-'), { id })).body;
    expect(finished.tickets[0].officeChecks.length).toBeGreaterThan(0);
    expect(unfinished).toEqual({ ...finished, tickets: finished.tickets.map(withoutChecks) });
    expect((await send(siteId, rooms('.xx-'), { id })).body).toEqual(finished);
    const { body } = await test.http.get(`/api/v1/tickets/${first.tickets[0].id}/log`).expect(200);
    expect(body.items).toHaveLength(2);
  });

  it('refuses more than the pool has room for, and gives up for who has left', async () => {
    const compute = test.app.get(ComputeService);
    const leaving = new AbortController();
    const task = { file: new URL('./support/endless.worker.js', import.meta.url), errors: {} };
    const waiting = compute.whileAsked(leaving.signal, () =>
      Promise.allSettled(Array.from({ length: 400 }, () => compute.run(task, undefined))),
    );
    const siteId = await drawSite(test, [row('A', 2)]);
    const ticketId = await openWithoutTime(siteId);
    const busy = await test.http.get(`/api/v1/tickets/${ticketId}/location`).expect(503);
    expect(busy.headers['retry-after']).toBe('2');
    expect(busy.headers['content-type']).toMatch(/^application\/problem\+json/);
    expect(busy.body.type).toBe('urn:lastheard:problem:busy');
    leaving.abort();
    const outcomes = await waiting;
    expect(new Set(outcomes.map(({ status }) => status))).toEqual(new Set(['rejected']));
    await test.http.get(`/api/v1/tickets/${ticketId}/location`).expect(200);
  });

  it('works out once what many ask, and the job keeps that', async () => {
    const siteId = await drawSite(test, [row('A', 6)]);
    // What the firm learns meanwhile makes it another question.
    await settle();
    const begun = jest.spyOn(Piscina.prototype, 'run');
    const workings = (ticketId: string) =>
      begun.mock.calls.filter(([asked]) => {
        const { file, input } = asked as { file: string; input: Partial<TicketQuestion> };
        return input.ticket?.id === ticketId && file.includes('locate-ticket.worker');
      });
    try {
      const ticketId = await report(siteId, rooms('..xx--'));
      const all = Array.from({ length: 20 }, () => location(test.http, ticketId));
      // The job of the report asks as well.
      const [texts] = await Promise.all([Promise.all(all), settle()]);
      expect(new Set(texts).size).toBe(1);
      expect(workings(ticketId)).toHaveLength(1);
      await report(siteId, rooms('----xx'));
      await location(test.http, ticketId);
      await settle();
      expect(await location(test.http, ticketId)).not.toBe(texts[0]);
      expect(workings(ticketId)).toHaveLength(2);
    } finally {
      begun.mockRestore();
    }
  });

  it('ends what was asked twice when both have left, and not before', async () => {
    const compute = test.app.get(ComputeService);
    const task = { file: new URL('./support/endless.worker.js', import.meta.url), errors: {} };
    const begun = jest.spyOn(Piscina.prototype, 'run');
    const ask = (key: string) => {
      const leaving = new AbortController();
      const left = jest.fn();
      const asked = compute
        .whileAsked(leaving.signal, () => compute.run(task, undefined, { key }))
        .catch(left);
      const leave = async () => {
        leaving.abort();
        await asked;
      };
      return { left, leave };
    };
    const signalOf = (call: number) =>
      (begun.mock.calls[call]![1] as { signal: AbortSignal }).signal;
    try {
      const [first, second, other] = [ask('same'), ask('same'), ask('other')];
      expect(begun).toHaveBeenCalledTimes(2);
      await first.leave();
      expect(first.left).toHaveBeenCalledWith(expect.any(BusyError));
      expect(second.left).not.toHaveBeenCalled();
      expect(signalOf(0).aborted).toBe(false);
      await second.leave();
      expect(signalOf(0).aborted).toBe(true);
      expect(signalOf(1).aborted).toBe(false);
      const third = ask('same');
      expect(begun).toHaveBeenCalledTimes(3);
      await third.leave();
      await other.leave();
    } finally {
      begun.mockRestore();
    }
  });

  it('answers while jobs work something out that does not end', async () => {
    const compute = test.app.get(ComputeService);
    const ended = new AbortController();
    const task = { file: new URL('./support/endless.worker.js', import.meta.url), errors: {} };
    const jobs = compute.whileAsked(ended.signal, () =>
      Promise.allSettled(Array.from({ length: 5 }, () => compute.runJob(task, undefined))),
    );
    const siteId = await drawSite(test, [row('A', 3)]);
    const { body } = await send(siteId, rooms('.xx'));
    expect(body.tickets[0].officeChecks.length).toBeGreaterThan(0);
    ended.abort();
    expect((await jobs).map(({ status }) => status)).toEqual(Array(5).fill('rejected'));
  });

  /** A report is taken when there is no time to work anything out. */
  async function openWithoutTime(siteId: string): Promise<string> {
    const { body } = await send(siteId, rooms('.x'));
    expect(body.tickets[0].officeChecks).toEqual([]);
    return body.tickets[0].id as string;
  }
});

/** Without what is worked out after its commit, from what is known then. */
function withoutChecks({
  officeChecks: _checks,
  contradictions: _contradictions,
  ...ticket
}: {
  officeChecks: unknown;
  contradictions: unknown;
}) {
  return ticket;
}
