import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { extractText } from 'unpdf';

import { TROUBLE_CLASSES } from '#app/contracts/class-of-trouble.js';
import { JobService } from '#app/jobs/job.service.js';
import { reviewWordsIn } from '#app/words/review-words-in.js';

import { statementsOf } from './support/count-statements.js';
import { draw, drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '17:00' }));
const HOUR = 60;
const NOBODY = '01900000-0000-7000-8000-00000000dead';

/** The clock stands at Monday, 2 March 2026, 08:00 in UTC, which is the sites’ zone. */
describe('the review of a contract’s year', () => {
  let test: TestApp;
  let site: string;
  let contract: string;
  let client: string;

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const get = async (path: string, status = 200) =>
    (await test.http.get(`/api/v1/${path}`).expect(status)).body;
  const say = (ticketId: string, what: string, body: object) =>
    post(`tickets/${ticketId}/${what}`, { saidBy: TECHNICIAN, ...body });

  async function mendedTicket(node: string, name: string, siteId = site): Promise<string> {
    const observations = [{ trunk: 'A', node, function: name, outcome: 'fails' }];
    const body = { saidBy: OFFICE, how: 'volunteered', observations };
    const { tickets } = await post(`sites/${siteId}/reports`, body);
    const { id, stillToProve } = tickets[0];
    test.clock.tick(2 * HOUR);
    await say(id, 'moves', { to: 'at-work', reason: 'There' });
    const place = { kind: 'span', trunk: 'A', from: 'A1', to: 'A2' };
    await say(id, 'findings', { place, component: 'junction-in', mode: 'open-speech' });
    test.clock.tick(HOUR);
    const parts = [{ name: 'wire ferrule', quantity: 2 }];
    await say(id, 'mendings', { mending: 'lasting', what: 'Joint remade', parts, minutes: 20 });
    const proven = stillToProve.map((point: object) => ({ ...point, outcome: 'works' }));
    await say(id, 'walk-tests', { observations: proven });
    await say(id, 'moves', { to: 'closed', reason: 'Proven' });
    return id as string;
  }

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    site = await drawSite(test, [row('A', 3)]);
    const { clientId } = await get(`sites/${site}`);
    client = clientId;
    contract = await makeContract('Upkeep of Larkfield', [site]);
    const prices = { currency: 'EUR', hourMinor: 6000, travelHourMinor: 3000 };
    await test.http.patch('/api/v1/prices').set('If-Match', '"0"').send(prices).expect(200);
    await mendedTicket('A2', 'bell');
    await test.app.get(JobService).settle();
  });

  async function makeContract(title: string, siteIds: string[], other = {}): Promise<string> {
    return (
      await post('contracts', {
        title,
        clientId: client,
        siteIds,
        from: '2026-03-02',
        until: '2028-03-02',
        kind: 'comprehensive',
        visitsPerYear: 2,
        feeMinor: 100_000,
        currency: 'EUR',
        promises: TROUBLE_CLASSES.map((troubleClass) => {
          return { troubleClass, responseMinutes: 60, restoreMinutes: 150 };
        }),
        coverage: { windows: WEEK },
        ...other,
      })
    ).id;
  }

  afterAll(() => test.close());

  it('has every ticket with its clock, what was found and mended, and what was promised', async () => {
    const review = await get(`contracts/${contract}/review?year=1`);
    expect(review).toMatchObject({
      title: 'Upkeep of Larkfield',
      year: 1,
      from: '2026-03-02',
      until: '2027-03-02',
      ticketsElsewhere: 0,
      promises: [
        { promise: 'response', met: 0, breached: 1, open: 0, meanMinutesTaken: 120 },
        { promise: 'restore', met: 0, breached: 1, open: 0, meanMinutesTaken: 180 },
      ],
    });
    const [ticket] = review.tickets;
    expect(ticket.clock.promises[0].lines[0].words).toBe(
      'Monday 2 March, 08:00 to 09:00: 1 h, used up',
    );
    expect(ticket.found[0].words).toBe(
      'terminals at Room 2 IN, between Room 1 and Room 2 on trunk A',
    );
    expect(ticket.mended).toMatchObject([
      { what: 'Joint remade', minutes: 20, parts: [{ name: 'wire ferrule', quantity: 2 }] },
    ]);
    expect(review.promisedVisits.map(({ standing }: { standing: string }) => standing)).toEqual([
      'due',
      'to-come',
    ]);
  });

  it('counts room-hours in covered time: three rooms for three hours, one bell lost all of them', async () => {
    const { availability } = await get(`contracts/${contract}/review`);
    const of = (name: string) =>
      availability.find((one: { function: string }) => one.function === name);
    expect(of('bell')).toMatchObject({ rooms: 3, roomHours: 9, lostRoomHours: 3 });
    expect(of('bell').available).toBeCloseTo(2 / 3, 9);
    expect(of('music')).toMatchObject({ roomHours: 9, lostRoomHours: 0, available: 1 });
  });

  it('says how often something fails with limits, the firm’s prior and the warning about few cases', async () => {
    const own = await get(`contracts/${contract}/review?evenHours=600&sureHours=250`);
    // A record of 11 hours (since midnight) with one failure beside a prior of 2.863 in 1522.5 hours (NIST 8.2.5).
    expect(own.reliability).toMatchObject({
      failures: 1,
      siteHours: 11,
      mtbfHours: 11,
      priorFrom: 'firm',
      growth: null,
      trend: { failures: 1, laplace: null, warning: 'too-few' },
      hoursToRestore: 3,
    });
    expect(own.reliability.posterior.shape).toBeCloseTo(3.863, 3);
    expect(own.reliability.posterior.hours).toBeCloseTo(1533.5, 1);
    const { reliability } = await get(`contracts/${contract}/review`);
    expect(reliability).toMatchObject({ priorFrom: 'model', priorShape: 4 });
    const errors = async (query: string) =>
      (await get(`contracts/${contract}/review?${query}`, 422)).errors;
    expect(await errors('evenHours=600')).toEqual([
      { field: 'sureHours', reason: 'is needed with evenHours' },
    ]);
    expect(await errors('evenHours=600&sureHours=700')).toEqual([
      { field: 'sureHours', reason: 'must be below evenHours' },
    ]);
    expect(await errors('year=3')).toEqual([{ field: 'year', reason: 'the contract has 2 years' }]);
    await get(`contracts/${NOBODY}/review`, 404);
  });

  it('advises the joint that failed, by chance and cost', async () => {
    test.clock.tick(5 * HOUR);
    await mendedTicket('A2', 'music');
    await test.app.get(JobService).settle();
    const { advised } = await get(`contracts/${contract}/review`);
    const [joint] = advised;
    expect(joint).toMatchObject({ component: 'junction-in', siteId: site });
    expect(joint.chance).toBeGreaterThan(joint.chanceRenewed);
    expect(joint.paysBackYears).toBeCloseTo(
      joint.renewalMinor / (joint.gain * joint.failureMinor),
      9,
    );
  });

  it('says what the next year should cost, by the firm’s record and prices, and for sites alone', async () => {
    const told = await get(`contracts/${contract}/should-cost`);
    expect(told).toMatchObject({
      coverage: 0.8,
      currency: 'EUR',
      feeMinor: 100_000,
      learnedFrom: { callOuts: 0, mendings: 2 },
      parts: [{ name: 'wire ferrule', minor: null }],
    });
    const { low, median, high } = told.costMinor;
    expect([low < median, median < high, told.sites.length]).toEqual([true, true, 1]);
    const alone = await get(`should-cost?sites=${site}&visitsPerYear=0&kind=labour-only`);
    expect(alone.feeMinor).toBeNull();
    expect(alone.callOuts.mean).toBeCloseTo(told.callOuts.mean, 1);
    expect(alone.costMinor.median).toBeLessThan(median);
    expect((await get('should-cost?sites=here', 422)).errors[0].field).toBe('sites');
    await get(`should-cost?sites=${NOBODY}`, 404);
  });

  it('is a sheet of every number, and a PDF that another library reads', async () => {
    const sheet = await test.http.get(`/api/v1/contracts/${contract}/review/sheet`).expect(200);
    expect(sheet.headers['content-type']).toBe('text/csv; charset=utf-8');
    const rows: Record<string, string>[] = parse(sheet.text, { columns: true, bom: true });
    const value = (of: string, figure: string) =>
      rows.find((one) => one.of === of && one.figure === figure)?.value;
    expect(value('bell', 'lostRoomHours')).toBe('3');
    expect(value('ticket 1, restore', 'minutesTaken')).toBe('180');
    const paper = await test.http
      .get(`/api/v1/contracts/${contract}/review/paper`)
      .buffer(true)
      .expect(200)
      .expect('content-type', 'application/pdf');
    const read = await extractText(new Uint8Array(paper.body as Buffer), { mergePages: true });
    const text = read.text.replaceAll(/\s+/g, ' ');
    for (const said of [
      'Review: Upkeep of Larkfield',
      'Monday 2 March, 08:00 to 09:00: 1 h, used up',
      'terminals at Room 2 IN',
      'For the client: name, day, signature',
      'With fewer than four failures no test can tell a trend.',
    ]) {
      expect(text).toContain(said);
    }
  });

  it('is in the language of the client, headings and all', async () => {
    const sheet = await test.http
      .get(`/api/v1/contracts/${contract}/review/sheet?language=es`)
      .expect(200);
    const [head]: string[][] = parse(sheet.text, { bom: true });
    expect(head).toEqual(['apartado', 'lugar', 'de', 'cifra', 'valor']);
    const rows: Record<string, string>[] = parse(sheet.text, { columns: true, bom: true });
    const sections = new Set(rows.map((one) => one['apartado']));
    expect([...sections]).toEqual(expect.arrayContaining(['avisos', 'plazos', 'disponibilidad']));
    expect(sheet.text).toContain('lunes 2 de marzo, de 08:00 a 09:00: 1 h, agotado');
    const { body: paper } = await test.http
      .get(`/api/v1/contracts/${contract}/review/paper?language=fr`)
      .buffer(true)
      .expect(200);
    const read = await extractText(new Uint8Array(paper as Buffer), { mergePages: true });
    const text = read.text.replaceAll(/\s+/g, ' ');
    for (const said of [
      'Bilan : Upkeep of Larkfield',
      'lundi 2 mars, de 08:00 à 09:00: 1 h, épuisé',
      'Pour le client : nom, jour, signature',
      'Avec moins de quatre pannes, aucun test ne distingue une tendance.',
    ]) {
      expect(text).toContain(said);
    }
    expect((await get(`contracts/${contract}/review?language=xx`, 422)).errors[0].field).toBe(
      'language',
    );
  });

  const readsOf = async (path: string) => {
    const ask = () => test.http.get(`/api/v1/${path}`).expect(200);
    return (await statementsOf(test.app, ask)).filter((sql) => !/jobs\.|api_tokens/.test(sql));
  };

  it('asks the database as often for many tickets as for one', async () => {
    const reads = () => readsOf(`contracts/${contract}/review`);
    const before = await reads();
    for (const node of ['A1', 'A2', 'A3']) await mendedTicket(node, 'bell');
    await test.app.get(JobService).settle();
    const after = await reads();
    expect(after).toEqual(before);
    expect(after.length).toBeLessThanOrEqual(40);
  });

  it('has each signature, as it was drawn', async () => {
    const technicianId = (await test.addPerson('technician')).id;
    const visit = { siteId: site, kind: 'planned', on: '2026-03-02', purpose: 'X', upkeep: true };
    const confirmed = ['outside-hours', 'in-the-past'];
    const { id } = await post('visits', { ...visit, technicianId, confirmed });
    await post(`visits/${id}/moves`, { to: 'under-way', by: 'X' });
    await post(`visits/${id}/moves`, {
      to: 'done',
      by: 'X',
      workDone: 'All',
      confirmed: ['not-all-heard'],
    });
    const pass = await post(`sites/${site}/passes`, {});
    const office = test.browser();
    const opened = { pass: pass.link.split('#')[1] };
    const { body: session } = await office.post('/api/v1/pass/session').send(opened).expect(200);
    const drawn = 'M20 150L60 40L90 160';
    await office
      .post(`/api/v1/pass/visits/${id}/signatures`)
      .set('X-CSRF-Token', session.csrfToken)
      .send({ name: 'Mara Quill', drawn })
      .expect(201);
    const review = await get(`contracts/${contract}/review`);
    const signed = review.visits.find((one: { id: string }) => one.id === id).signatures;
    expect(signed).toMatchObject([{ name: 'Mara Quill', drawn }]);
    const { body: paper } = await test.http
      .get(`/api/v1/contracts/${contract}/review/paper`)
      .buffer(true)
      .expect(200);
    const { text } = await extractText(new Uint8Array(paper as Buffer), { mergePages: true });
    // In the table of visits, and below what was drawn.
    expect(text.match(/Mara\s+Quill,/g)).toHaveLength(2);
  });

  it('asks the database as often for five sites as for one, once it has read their drawings', async () => {
    const sites = [];
    for (let number = 0; number < 5; number++) {
      const of = { clientId: client, name: `Pavilion ${number}`, zone: 'Etc/UTC' };
      const { id } = await post('sites', of);
      await draw(test, { siteId: id, version: 0, headEnd: {}, trunks: [row('A', 3)] });
      await mendedTicket('A2', 'bell', id);
      sites.push(id);
    }
    const [first] = sites;
    await test.app.get(JobService).settle();
    const readsAt = async (siteIds: string[], of: (id: string) => string) => {
      const path = of(await makeContract('Pavilions', siteIds));
      await test.app.get(JobService).settle();
      await get(path);
      return (await readsOf(path)).map((sql) => sql.replaceAll(/IN \([$\d, ]+\)|LIMIT \d+/g, '…'));
    };
    for (const what of ['review', 'should-cost']) {
      const of = (id: string) => `contracts/${id}/${what}`;
      const ofOne = await readsAt([first], of);
      expect(await readsAt(sites, of)).toEqual(ofOne);
    }
  });

  it('is of the last year that is over where none is asked for, and says the hours that count', async () => {
    const { id: siteId } = await post('sites', { clientId: client, name: 'Mill', zone: 'Etc/UTC' });
    await draw(test, { siteId, version: 0, headEnd: {}, trunks: [row('A', 3)] });
    const day = (later: number) =>
      new Date(test.clock.now().getTime() + later * 24 * HOUR * 60_000).toISOString().slice(5, 10);
    const [today, tomorrow] = [day(0), day(1)];
    const ofPeriod = async (from: string, until: string) => {
      const windows = [1, 2, 3, 4, 5, 6, 7].map((weekday) => {
        return { weekday, from: '00:00', until: '24:00' };
      });
      const other = { from, until, coverage: { windows } };
      return get(`contracts/${await makeContract('Mill', [siteId], other)}/review`);
    };
    // Over since midnight, and a day short of it.
    expect(await ofPeriod(`2024-${today}`, `2028-${today}`)).toMatchObject({ year: 2 });
    expect(await ofPeriod(`2024-${tomorrow}`, `2028-${tomorrow}`)).toMatchObject({ year: 1 });
    expect(await ofPeriod(`2025-${tomorrow}`, `2028-${tomorrow}`)).toMatchObject({ year: 1 });
    expect(await ofPeriod(`2027-${today}`, `2029-${today}`)).toMatchObject({ year: 1 });
    const ended = await ofPeriod(`2022-${today}`, `2025-${today}`);
    expect(ended.year).toBe(3);
    expect(ended.coveredHours).toHaveLength(7);
    expect(reviewWordsIn('en').coveredHours(ended.coveredHours)).toMatch(/round the clock/);
  });

  it('is for those who keep what was promised', async () => {
    const path = `/api/v1/contracts/${contract}/review`;
    await (await test.addPerson('contract-manager')).http.get(path).expect(200);
    await (await test.addPerson('technician')).http.get(path).expect(403);
    await (await test.addStranger()).http.get(path).expect(403);
  });
});
