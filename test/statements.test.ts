import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import supertest from 'supertest';

import { createApp } from '#app/create-app.js';
import { JobService } from '#app/jobs/job.service.js';

import { statementsOf } from './support/count-statements.js';
import { drawSite, row } from './support/draw-site.js';
import {
  type Agent,
  buildTestApp,
  SEAL_KEY,
  type TestApp,
  type TestPerson,
} from './support/test-app.js';

const FUNCTIONS = ['announcement', 'bell', 'music'];
const ROOMS = 20;

/** At most so many statements to the database, of the guard, jobs that are asked for and all else. */
const AT_MOST = { report: 20, answer: 20, location: 8 };

/** Every room of a row, by each function; those from the given one on are silent. */
const observations = (firstSilent: number) =>
  Array.from({ length: ROOMS }, (_, room) =>
    FUNCTIONS.map((name) => ({
      trunk: 'A',
      node: `A${room + 1}`,
      function: name,
      outcome: room + 1 < firstSilent ? 'works' : 'fails',
    })),
  ).flat();

describe('what a request asks of the database', () => {
  let test: TestApp;
  let app: NestFastifyApplication;
  let siteId: string;
  let requests = 0;

  beforeAll(async () => {
    test = await buildTestApp();
  });

  beforeEach(async () => {
    siteId = await drawSite(test, [row('A', ROOMS)]);
    await test.app.get(JobService).settle();
    // A process that has just been started knows nothing yet. Its jobs are left to another: they are not the request's.
    const settings = { appUrl: test.appUrl, publicUrl: 'http://localhost', sealKey: SEAL_KEY };
    app = await createApp({ ...settings, clock: test.clock });
    await app.init();
    await app.getHttpAdapter().getInstance().ready();
    await app.get(JobService).beforeApplicationShutdown();
    // Long enough for its use to be written down again.
    test.clock.tick(10);
  });

  afterEach(() => app.close());
  afterAll(() => test.close());

  const as = ({ token }: TestPerson): Agent =>
    supertest.agent(app.getHttpServer()).auth(token, { type: 'bearer' });

  const saidBy = { name: 'Mara Quill', kind: 'office' };

  /** With an id of its own, as pages send it: that is kept with its answer. */
  const withId = (said: object) => {
    const id = `01900000-0000-7000-8000-${String(++requests).padStart(12, '0')}`;
    return { id, ...said };
  };

  const rooms = (firstSilent: number) =>
    withId({ how: 'gone-through', observations: observations(firstSilent) });

  /** What each takes the first time in a new process, and again; both change what is known. */
  const twice = async (ask: (time: number) => Promise<unknown>): Promise<number[]> => {
    const counts = [];
    for (const time of [0, 1]) {
      const sent = await statementsOf(app, () => ask(time));
      // A count that misses the request's own work is no count.
      expect(sent.filter((text) => text.startsWith('BEGIN'))).not.toEqual([]);
      counts.push(sent.length);
    }
    return counts;
  };

  const expectAtMost = (counts: number[], most: number) => {
    for (const count of counts) expect(count).toBeLessThanOrEqual(most);
    return counts;
  };

  it.each(['technician', 'client'] as const)(
    'stays within its bound for a report by a %s',
    async (role) => {
      const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`).expect(200);
      const clientId = role === 'client' ? (site.clientId as string) : undefined;
      const http = as(await test.addPerson(role, { clientId }));
      const path = `/api/v1/sites/${siteId}/reports`;
      const tickets: string[] = [];
      const reported = await twice(async (time) => {
        const { body } = await http
          .post(path)
          .send({ ...rooms(15 - time), saidBy })
          .expect(201);
        tickets.push(...(body.tickets as { id: string }[]).map(({ id }) => id));
      });
      expect(new Set(tickets).size).toBe(1);
      expectAtMost(reported, AT_MOST.report);

      const ticket = `/api/v1/tickets/${tickets[0]}`;
      const mayLocate = role === 'client' ? as(test.owner) : http;
      const located = await twice(() => mayLocate.get(`${ticket}/location`).expect(200));
      expectAtMost(located, AT_MOST.location);
      const questions = ['ordinary-day', 'head-end-on'];
      const answered = await twice((time) => {
        const answer = withId({ question: questions[time], answer: 'yes', saidBy });
        return http.post(`${ticket}/answers`).send(answer).expect(201);
      });
      expectAtMost(answered, AT_MOST.answer);
      const again = await twice(() => mayLocate.get(`${ticket}/location`).expect(200));
      expectAtMost(again, AT_MOST.location);
    },
  );

  it('stays within its bound where the first thing that a new process is asked is an answer or a location', async () => {
    const path = `/api/v1/sites/${siteId}/reports`;
    const { body } = await test.http
      .post(path)
      .send({ ...rooms(9), saidBy })
      .expect(201);
    const ticket = `/api/v1/tickets/${body.tickets[0].id}`;
    const http = as(await test.addPerson('owner'));
    const located = await statementsOf(app, () => http.get(`${ticket}/location`).expect(200));
    expect(located.length).toBeLessThanOrEqual(AT_MOST.location);
    const other = as(await test.addPerson('owner'));
    const answer = withId({ question: 'ordinary-day', answer: 'yes', saidBy });
    const answered = await statementsOf(app, () =>
      other.post(`${ticket}/answers`).send(answer).expect(201),
    );
    expect(answered.length).toBeLessThanOrEqual(AT_MOST.answer);
  });

  it('stays within its bound for an office that opens its site by a pass', async () => {
    const { body: pass } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const http = supertest.agent(app.getHttpServer());
    const secret = new URL(pass.link as string).hash.slice(1);
    const { body } = await http.post('/api/v1/pass/session').send({ pass: secret }).expect(200);
    test.clock.tick(10);
    const reported = await twice((time) => {
      const said = { ...rooms(15 - time), name: 'Mara Quill' };
      return http
        .post('/api/v1/pass/reports')
        .set('x-csrf-token', body.csrfToken)
        .send(said)
        .expect(201);
    });
    expectAtMost(reported, AT_MOST.report);
  });
});
