import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { extractText } from 'unpdf';

import { jobPaper } from '#app/job-sheets/job-paper.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

const NOBODY = '01900000-0000-7000-8000-00000000dead';

describe('the job sheet of a visit', () => {
  let test: TestApp;
  let technician: TestPerson;
  let site: string;
  let visit: string;

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const heard = (trunk: string, node: number, outcome: string) => ({
    trunk,
    node: `${trunk}${node}`,
    function: 'announcement',
    outcome,
  });
  const paperOf = async (visitId: string, query = '') => {
    const { body } = await technician.http
      .get(`/api/v1/visits/${visitId}/job-sheet/paper${query}`)
      .buffer(true)
      .expect(200)
      .expect('content-type', 'application/pdf');
    const { text } = await extractText(new Uint8Array(body as Buffer), { mergePages: true });
    return text.replaceAll(/\s+/g, ' ');
  };

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    site = await drawSite(test, [row('A', 40), row('B', 2)]);
    const safetyNotes = 'Asbestos ceiling in block C: do not drill.';
    await test.http
      .patch(`/api/v1/sites/${site}`)
      .set('If-Match', '"1"')
      .send({ safetyNotes, servesEmergencyCalls: true })
      .expect(200);
    const silent = Array.from({ length: 40 }, (_, i) =>
      heard('A', i + 1, i < 19 ? 'works' : 'fails'),
    );
    const saidBy = { name: 'Mara Quill', kind: 'office' };
    const report = { saidBy, how: 'gone-through', observations: silent };
    const { tickets } = await post(`sites/${site}/reports`, report);
    const planned = { siteId: site, kind: 'call-out', technicianId: technician.id };
    const confirmed = ['double-booked'];
    const earlier = await post('visits', {
      ...planned,
      on: '2026-03-02',
      purpose: 'Upkeep',
      upkeep: true,
      confirmed,
    });
    const move = (to: string, more: object = {}) =>
      post(`visits/${earlier.id}/moves`, { by: 'Ilvo Marsh', to, ...more });
    await move('under-way');
    await move('done', { workDone: 'Terminals tightened', confirmed: ['not-all-heard'] });
    visit = (
      await post('visits', {
        ...planned,
        on: '2026-03-03',
        fromTime: '09:00',
        untilTime: '10:30',
        purpose: 'Rooms 20 on are silent',
        ticketIds: [tickets[0].id],
      })
    ).id;
  });

  afterAll(() => test.close());

  it('says where to go first and why, what to try, what to carry and what to mind', async () => {
    const { body } = await technician.http.get(`/api/v1/visits/${visit}/job-sheet`).expect(200);
    expect(body).toMatchObject({
      technician: 'Ilvo Marsh',
      fromTime: '09:00',
      site: { safetyNotes: 'Asbestos ceiling in block C: do not drill.' },
      lastVisits: [{ on: '2026-03-02', workDone: 'Terminals tightened' }],
      furtherTickets: [],
    });
    const [ticket] = body.tickets;
    const { body: location } = await technician.http.get(`/api/v1/tickets/${ticket.id}/location`);
    expect(ticket.first).toBe(location.first.words);
    expect(ticket.places[0]).toMatch(/^between Room 19 and Room 20 on trunk A, \d+ %$/);
    expect(ticket.trunks).toHaveLength(1);
    expect(ticket.trunks[0]).toMatchObject({ trunk: 'A', lookAt: 'A20' });
    expect(ticket.trunks[0].nodes).toHaveLength(40);
    expect(ticket.trunks[0].marks[18]).toEqual({ node: 'A19', outcome: 'works' });
    expect(ticket.plan.length).toBeGreaterThan(1);
    expect(ticket.parts[0].neededChance).toBeGreaterThan(0.2);
    expect(body.cautions[0]).toContain('evacuation or emergency calls');
    expect(body.cautions).toHaveLength(7);
  });

  it('is a PDF that another library reads, with every room of the trunk', async () => {
    const text = await paperOf(visit);
    for (const said of [
      'Job sheet: Larkfield Lower School, Tuesday 3 March 2026',
      'Asbestos ceiling in block C: do not drill.',
      'Isolate and prove dead before opening a head-end or a joint.',
      'between Room 19 and Room 20 on trunk A',
      'Room 20 (A20), silent: look before it first',
      'Room 40 (A40), silent',
      'goes on from A30',
      'Terminals tightened',
    ]) {
      expect(text).toContain(said);
    }
  });

  it('is in the language of whoever it is for', async () => {
    const french = await paperOf(visit, '?language=fr');
    for (const said of [
      'Fiche d’intervention : Larkfield Lower School, mardi 3 mars 2026',
      'Avant de commencer',
      'Pièces à emporter',
      'Room 40 (A40), sans son',
      'suite à partir de A30',
    ]) {
      expect(french).toContain(said);
    }
    const spanish = await technician.http
      .get(`/api/v1/visits/${visit}/job-sheet`)
      .set('Accept-Language', 'fr')
      .query({ language: 'es' })
      .expect(200)
      .expect('content-language', 'es');
    expect(spanish.body.tickets[0].places[0]).toMatch(/^entre Room 19 y Room 20, en la línea A/);
    // Letters that join are told apart differently by each reader of PDFs; these do not join.
    const hindi = await paperOf(visit, '?language=hi');
    expect(hindi).toContain('3 मा');
    for (const english of ['Before you begin', 'Parts to carry', 'Ticket']) {
      expect(hindi).not.toContain(english);
    }
    const { body } = await technician.http
      .get(`/api/v1/visits/${visit}/job-sheet/paper?language=xx`)
      .expect(422);
    expect(body.errors[0].field).toBe('language');
  });

  it('has fifty pieces of a ticket’s trunks at most, what is silent before others, and says how much it leaves out', async () => {
    const { body } = await technician.http.get(`/api/v1/visits/${visit}/job-sheet`).expect(200);
    const [ticket] = body.tickets;
    const trunkOf = (trunk: string, rooms: number, silent: number, lookAt: string | null) => ({
      trunk,
      nodes: Array.from({ length: rooms }, (_, i) => ({
        node: `${trunk}${i + 1}`,
        fedFrom: i === 0 ? null : `${trunk}${i}`,
        isStation: true,
        words: `Room ${i + 1}`,
        cableMetres: 8,
      })),
      marks: [
        { node: `${trunk}1`, outcome: 'works' },
        { node: `${trunk}${silent}`, outcome: 'fails' },
      ],
      lookAt,
    });
    const trunks = [trunkOf('C', 1_600, 1_575, null), trunkOf('D', 35, 2, 'D34')];
    const job = {
      ...body,
      madeAt: new Date(body.madeAt),
      tickets: [{ ...ticket, trunks, furtherSaid: 1 }],
    };
    const pdf = await extractText(jobPaper(job, 'en'), { mergePages: true });
    const text = pdf.text.replaceAll(/\s+/g, ' ');
    // 54 and 2 pieces; the last ones but one of trunk C, where nobody said anything, are left out.
    for (const drawn of [
      'Room 1 (C1), heard',
      'Room 1410 (C1410)',
      'goes on from C1560',
      'Room 1575 (C1575), silent',
      'Room 2 (D2), silent',
      'Room 34 (D34): look before it first',
      '160 more rooms and joints are not drawn here; the ticket shows them all.',
      'One more thing was said, and stands at the ticket alone.',
    ])
      expect(text).toContain(drawn);
    for (const left of ['Room 1411 (C1411)', 'Room 1560 (C1560)', 'Room 1600 (C1600)'])
      expect(text).not.toContain(left);
    expect(await paperOf(visit)).not.toMatch(/not drawn|at the ticket alone/);
  });

  it('does without a place where nothing was said, and names sites in Devanagari', async () => {
    const { body: read } = await test.http.get(`/api/v1/sites/${site}`);
    await test.http
      .patch(`/api/v1/sites/${site}`)
      .set('If-Match', `"${read.version}"`)
      .send({ name: 'विद्यालय' })
      .expect(200);
    const upkeep = await post('visits', {
      siteId: site,
      kind: 'planned',
      on: '2026-04-01',
      purpose: 'Upkeep',
      upkeep: true,
    });
    const { body } = await technician.http.get(`/api/v1/visits/${upkeep.id}/job-sheet`).expect(200);
    expect(body).toMatchObject({ tickets: [], technician: null, fromTime: null });
    expect(await paperOf(upkeep.id)).toContain('यालय');
  });

  it('is the firm’s', async () => {
    await technician.http.get(`/api/v1/visits/${NOBODY}/job-sheet`).expect(404);
    const { body } = await test.http.get(`/api/v1/sites/${site}`);
    const client = await test.addPerson('client', { clientId: body.clientId });
    await client.http.get(`/api/v1/visits/${visit}/job-sheet`).expect(403);
    await (await test.addStranger()).http.get(`/api/v1/visits/${visit}/job-sheet`).expect(404);
  });
});
