import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';

import { FirmTransaction } from '#app/database/firm-transaction.js';
import { JobService } from '#app/jobs/job.service.js';
import { TicketFactsRepository } from '#app/locating/ticket-facts.repository.js';

import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, type TestApp } from './support/test-app.js';

const AT_ONCE = 50;

/** Rooms of a row, the last of which are silent. */
const silentFrom = (first: number, of = 4) =>
  Array.from({ length: of }, (_, n) => ({
    trunk: 'A',
    node: `A${n + 1}`,
    function: 'announcement',
    outcome: n + 1 < first ? 'works' : 'fails',
  }));

describe('what a ticket’s location is worked out from', () => {
  let test: TestApp;
  let read: ReturnType<typeof spyOnReads>;

  const spyOnReads = () => jest.spyOn(test.app.get(TicketFactsRepository), 'read');

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    read = spyOnReads();
  });

  afterAll(async () => {
    read.mockRestore();
    await test.close();
  });

  async function report(siteId: string, first: number): Promise<string> {
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'gone-through',
        observations: silentFrom(first),
      })
      .expect(201);
    return body.tickets[0].id as string;
  }

  const ask = (http: Agent, ticketId: string, language = 'en') =>
    http.get(`/api/v1/tickets/${ticketId}/location`).set('accept-language', language);

  const placeOf = (answer: { body: { places: { words: string }[] } }) =>
    answer.body.places[0]?.words;

  async function openPass(siteId: string): Promise<Agent> {
    const { body: pass } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const http = test.browser();
    const secret = { pass: pass.link.split('#')[1] };
    await http.post('/api/v1/pass/session').send(secret).expect(200);
    return http;
  }

  /** When so many more have asked. */
  function whenAsked(count: number): Promise<void> {
    const transaction = test.app.get(FirmTransaction);
    return new Promise((resolve) => {
      let left = count;
      const spy = jest.spyOn(transaction, 'readTogether').mockImplementation((...given) => {
        const told = FirmTransaction.prototype.readTogether.apply(transaction, given);
        if (--left === 0) {
          spy.mockRestore();
          resolve();
        }
        return told;
      });
    });
  }

  /** What is read next is held until then; resolves when it was read. */
  function holdNext(until: Promise<void>): Promise<void> {
    const facts = test.app.get(TicketFactsRepository);
    return new Promise((resolve) => {
      read.mockImplementationOnce(async (...given) => {
        const row = await TicketFactsRepository.prototype.read.apply(facts, given);
        resolve();
        await until;
        return row;
      });
    });
  }

  it('is read once more for all who ask while it is read, whether it is kept or not', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    for (const settles of [false, true]) {
      const ticketId = await report(siteId, 3);
      if (settles) await test.app.get(JobService).settle();
      read.mockClear();
      void holdNext(whenAsked(AT_ONCE));
      const all = Array.from({ length: AT_ONCE }, () => ask(test.http, ticketId).expect(200));
      const texts = (await Promise.all(all)).map(({ text }) => text);
      expect(new Set(texts).size).toBe(1);
      expect(read).toHaveBeenCalledTimes(2);
    }
  });

  it('is what was committed before each asked, also while it is read for others', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const ticketId = await report(siteId, 4);
    for (const first of [3, 2, 3]) {
      let goOn = () => {};
      const isRead = holdNext(new Promise((resolve) => (goOn = resolve)));
      const before = Promise.all([ask(test.http, ticketId).expect(200)]);
      await isRead;
      await report(siteId, first);
      const isAsked = whenAsked(5);
      const after = Array.from({ length: 5 }, () => ask(test.http, ticketId).expect(200));
      const answered = Promise.all(after);
      await isAsked;
      goOn();
      const later = await ask(test.http, ticketId).expect(200);
      for (const one of await answered) expect(one.text).toBe(later.text);
      expect((await before)[0]?.text).not.toBe(later.text);
    }
  });

  it('is read for each who reaches another part of the firm, and told in the language of each', async () => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const elsewhere = await openPass(await drawSite(test, [row('A', 4)]));
    const stranger = await test.addStranger();
    const office = await openPass(siteId);
    const ticketId = await report(siteId, 3);
    const ofPass = (http: Agent) => http.get(`/api/v1/pass/tickets/${ticketId}`);
    for (let time = 0; time < 5; time++) {
      const [english, other, own, french, foreign] = await Promise.all([
        ask(test.http, ticketId),
        ofPass(elsewhere),
        ofPass(office),
        ask(test.http, ticketId, 'fr'),
        ask(stranger.http, ticketId),
        ...Array.from({ length: 5 }, () => ask(test.http, ticketId).expect(200)),
      ]);
      expect([english, other, own, french, foreign].map(({ status }) => status)).toEqual([
        200, 404, 200, 200, 404,
      ]);
      expect(placeOf(english)).toMatch(/^between Room 2 and Room 3 on trunk A/);
      expect(placeOf(french)).toMatch(/^entre Room 2 et Room 3, sur la ligne A/);
      expect(own.body.officeChecks).toEqual(english.body.officeChecks);
    }
  });
});
