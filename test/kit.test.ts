import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';

import { uuidv7 } from 'uuidv7';

import { JobService } from '#app/jobs/job.service.js';
import { LocationService } from '#app/locating/location.service.js';
import { DEFAULT_EXPLANATIONS, locate } from '#app/locator/index.js';
import type { KitDto } from '#app/walks/kit.dto.js';

import { copyTicket } from './support/copy-ticket.js';
import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

describe('the kit of a ticket, and the desk', () => {
  let test: TestApp;
  let siteId: string;
  let ticketId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  afterAll(() => test?.close());

  beforeEach(async () => {
    siteId = await drawSite(test, [row('A', 9), row('B', 4)]);
    ticketId = await report([
      ['A4', 'works'],
      ['A6', 'fails'],
      ['A7', 'fails'],
    ]);
  });

  async function report(said: [node: string, outcome: string][]): Promise<string> {
    const observations = said.map(([node, outcome]) => {
      return { trunk: node[0], node, function: 'bell', outcome };
    });
    const saidBy = { name: 'Mara Quill', kind: 'office' };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    return body.tickets[0].id as string;
  }

  const readKit = () => test.http.get(`/api/v1/tickets/${ticketId}/kit`);

  it('gives a page all that it takes to answer as the service does, to the last digit', async () => {
    const { body: kit } = await readKit().expect(200);
    const { body: location } = await test.http
      .get(`/api/v1/tickets/${ticketId}/location`)
      .expect(200);
    const request = { ...kit.request, explanations: DEFAULT_EXPLANATIONS };
    const answer = locate(request, kit.errorRates, kit.expectedFaults);
    expect(JSON.parse(JSON.stringify(answer))).toEqual(location.result);
    // The expected faults are gone by, and none is left out.
    const [faults] = kit.expectedFaults.trunks;
    expect(faults.nodes).toHaveLength(9);
    const doubled = structuredClone(kit.expectedFaults);
    doubled.trunks[0].nodes[5].cable = Object.fromEntries(
      Object.entries<number>(faults.nodes[5].cable).map(([mode, count]) => [mode, count * 2]),
    );
    expect(locate(request, kit.errorRates, doubled).logEvidence).not.toBe(answer.logEvidence);
    expect(kit).toMatchObject({
      ticketId,
      asBuiltVersion: 1,
      drawing: { trunks: [{ trunk: 'A' }, { trunk: 'B' }] },
      site: { id: siteId, name: 'Larkfield Lower School', safetyNotes: null },
      sittings: null,
      lookedAt: { settings: [], knobs: [] },
    });
    expect(kit.cautions[0]).toContain('prove dead');
  });

  it('is another one only after something changed', async () => {
    const { headers } = await readKit().expect(200);
    const { etag } = headers;
    const again = await readKit().set('If-None-Match', etag!).expect(304);
    expect(again.text).toBe('');
    expect(again.headers.etag).toBe(etag);
    await test.http
      .patch(`/api/v1/sites/${siteId}`)
      .set('If-Match', '"1"')
      .send({ safetyNotes: 'Asbestos ceiling in block C: do not drill.' })
      .expect(200);
    const changed = await readKit().set('If-None-Match', etag!).expect(200);
    expect(changed.body.cautions[0]).toBe('Asbestos ceiling in block C: do not drill.');
    await report([['A5', 'works']]);
    const told = await readKit().set('If-None-Match', changed.headers.etag!).expect(200);
    expect(told.body.request.observations).toHaveLength(4);
    const saidBy = { name: 'Mara Quill', kind: 'office' };
    for (let note = 1; note <= 33; note++)
      await test.http
        .post(`/api/v1/tickets/${ticketId}/notes`)
        .send({ saidBy, note: `Note ${note}` })
        .expect(201);
    const noted = await readKit().set('If-None-Match', told.headers.etag!).expect(200);
    expect(noted.body.notes).toHaveLength(30);
    expect(noted.body.notes.at(-1)).toMatchObject({ saidBy: 'Mara Quill', words: 'Note 33' });
    expect(noted.body.notes[0]).toMatchObject({ words: 'Note 4' });
  });

  it('names the last hundred entries that it tells of, so that what a page entered is told once', async () => {
    const saidBy = { name: 'Ilvo Marsh', kind: 'technician' };
    const noted: string[] = [];
    for (let note = 1; note <= 130; note++) {
      const id = uuidv7();
      noted.unshift(id);
      await test.http.post(`/api/v1/tickets/${ticketId}/notes`).send({ id, saidBy, note: 'On' });
    }
    const { body } = await readKit().expect(200);
    expect(body.entryIds).toEqual(noted.slice(0, 100));
    const trunk = 'A';
    const heard = { trunk, node: 'A5', function: 'bell', outcome: 'works' };
    const looked = {
      place: { kind: 'span', trunk, from: 'A4', to: 'A5' },
      part: 'junction-in',
      seen: 'sound',
    };
    const entered = [
      ['reports', { how: 'gone-through', observations: [heard] }],
      ['looks', { looks: [looked] }],
      ['mendings', { mending: 'lasting', what: 'Terminals tightened' }],
    ] as const;
    for (const [route, said] of entered) {
      const id = uuidv7();
      const answer = await test.http
        .post(`/api/v1/tickets/${ticketId}/${route}`)
        .send({ id, saidBy, ...said });
      expect(answer.body.errors).toBeUndefined();
      const { body: kit } = await readKit().expect(200);
      expect(kit.entryIds[0]).toBe(id);
    }
  });

  it('names nothing that it does not tell, whatever arrives while it is read', async () => {
    const location = test.app.get(LocationService);
    const read = location.read.bind(location);
    const id = uuidv7();
    location.read = async (asked) => {
      location.read = read;
      const evidence = await read(asked);
      const heard = { trunk: 'A', node: 'A5', function: 'bell', outcome: 'works' };
      await test.http
        .post(`/api/v1/tickets/${ticketId}/reports`)
        .send({
          id,
          saidBy: { name: 'Ilvo Marsh', kind: 'technician' },
          how: 'gone-through',
          observations: [heard],
        })
        .expect(201);
      return evidence;
    };
    try {
      const { body: early } = await readKit().expect(200);
      expect([early.evidence.heard.length, early.entryIds.includes(id)]).toEqual([3, false]);
    } finally {
      location.read = read;
    }
    const { body: late } = await readKit().expect(200);
    expect([late.evidence.heard.length, late.entryIds.includes(id)]).toEqual([4, true]);
  });

  it('names all that it tells, whatever arrives after it was begun', async () => {
    const location = test.app.get(LocationService);
    const read = location.read.bind(location);
    const id = uuidv7();
    location.read = async (asked) => {
      location.read = read;
      const saidBy = { name: 'Ilvo Marsh', kind: 'technician' };
      const note = { id, saidBy, note: 'In between' };
      await test.http.post(`/api/v1/tickets/${ticketId}/notes`).send(note).expect(201);
      return read(asked);
    };
    const isTold = ({ notes, entryIds }: KitDto) => [
      notes.some(({ words }) => words === 'In between'),
      entryIds.includes(id),
    ];
    try {
      expect(isTold((await readKit().expect(200)).body as KitDto)).toEqual([false, false]);
    } finally {
      location.read = read;
    }
    expect(isTold((await readKit().expect(200)).body as KitDto)).toEqual([true, true]);
  });

  it('has the notes of what was merged into it, once each, and is another one by that', async () => {
    const noted = async (id: string, note: string) =>
      test.http
        .post(`/api/v1/tickets/${id}/notes`)
        .send({ saidBy: { name: 'Mara Quill', kind: 'office' }, note })
        .expect(201);
    test.clock.tick(1);
    const second = await report([['B2', 'fails']]);
    await noted(second, 'The key is with the caretaker');
    await noted(ticketId, 'Since Monday');
    const { headers } = await readKit().expect(200);
    await test.http
      .post(`/api/v1/tickets/${second}/merge`)
      .send({ saidBy: { name: 'Mara Quill', kind: 'office' }, into: ticketId })
      .expect(201);
    const { body } = await readKit().set('If-None-Match', headers.etag!).expect(200);
    expect(body.notes.map(({ words }: { words: string }) => words)).toEqual([
      'The key is with the caretaker',
      'Since Monday',
    ]);
  });

  it('is for people of the firm', async () => {
    const stranger = await test.addStranger();
    await stranger.http.get(`/api/v1/tickets/${ticketId}/kit`).expect(404);
    const technician = await test.addPerson('technician');
    await technician.http.get(`/api/v1/tickets/${ticketId}/kit`).expect(200);
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`);
    const client = await test.addPerson('client', { clientId: site.clientId });
    await client.http.get(`/api/v1/tickets/${ticketId}/kit`).expect(403);
    await client.http.get('/api/v1/desk').expect(403);
  });

  it('has every open ticket at the desk, longest waiting first, in one line and with who goes', async () => {
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    test.clock.tick(5);
    const other = await report([['B2', 'fails']]);
    const plan = (on: string, technicianId: string | null) =>
      test.http
        .post('/api/v1/visits')
        .send({ siteId, kind: 'call-out', on, technicianId, purpose: 'Go', ticketIds: [other] })
        .expect(201);
    await plan('2026-03-12', null);
    await plan('2026-03-10', technician.id);
    await test.app.get(JobService).settle();
    const { body } = await test.http.get('/api/v1/desk').expect(200);
    const mine = body.items.filter((one: { site: { id: string } }) => one.site.id === siteId);
    expect(mine).toMatchObject([
      {
        id: ticketId,
        silentRooms: 2,
        going: null,
        openedBy: 'Mara Quill',
        strips: [{ trunk: 'A', marks: '---h-ss--' }],
        likeliest: { words: expect.stringMatching(/^between Room 4 and Room|^the head-end/) },
      },
      {
        id: other,
        silentRooms: 1,
        strips: [{ trunk: 'B', marks: '-s--' }],
        going: { technician: 'Ilvo Marsh', on: '2026-03-10', isThere: false },
      },
    ]);
    // What was heard while cable was off is nothing that is heard there now.
    const off = { trunk: 'B', node: 'B3', function: 'bell', outcome: 'works' };
    const said = { name: 'Ilvo Marsh', kind: 'technician' };
    await test.http
      .post(`/api/v1/tickets/${other}/reports`)
      .send({
        saidBy: said,
        how: 'gone-through',
        observations: [{ ...off, disconnectedBelow: 'B3' }],
      })
      .expect(201);
    const { body: again } = await test.http.get('/api/v1/desk').expect(200);
    expect(again.items.find((one: { id: string }) => one.id === other).strips).toMatchObject([
      { trunk: 'B', marks: '-s--' },
    ]);
    expect(mine[0].strips[0].suspected.length).toBeGreaterThan(0);
    expect(body.more).toBe(0);
    const saidBy = { name: 'Bea Orne', kind: 'office' };
    await test.http
      .post(`/api/v1/tickets/${ticketId}/moves`)
      .send({ saidBy, to: 'closed', reason: 'Heard by the caretaker' })
      .expect(201);
    const { body: after } = await test.http.get('/api/v1/desk').expect(200);
    expect(after.items.map((one: { id: string }) => one.id)).not.toContain(ticketId);
    const { body: found } = await test.http
      .get(`/api/v1/tickets?number=${mine[1].number}`)
      .expect(200);
    expect(found.items.map((one: { id: string }) => one.id)).toEqual([other]);
  });

  it('has at most 500 at the desk, those that wait longest, and tells how many more are open', async () => {
    await test.app.get(JobService).settle();
    const { body: one } = await test.http.get(`/api/v1/tickets/${ticketId}`).expect(200);
    const { body: before } = await test.http.get('/api/v1/desk').expect(200);
    await copyTicket(test, one.number, 1600);
    const { body } = await test.http.get('/api/v1/desk').expect(200);
    expect(body.items).toHaveLength(500);
    expect(body.more).toBe(before.items.length + 1600 - 500);
    // The earliest of the copies are the last that were made.
    expect(body.items[0]).toMatchObject({ number: 2600, silentRooms: 2 });
    expect(body.items.at(-1).number).toBe(2101);
    expect(body.items[0].strips).toEqual(body.items.at(-1).strips);
  });
});
