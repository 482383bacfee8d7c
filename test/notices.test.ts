import { createHmac } from 'node:crypto';
import { once } from 'node:events';
import { createServer, type IncomingMessage, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { text } from 'node:stream/consumers';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Webhook } from 'standardwebhooks';

import { FirmTransaction } from '#app/database/firm-transaction.js';
import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from './support/draw-site.js';
import {
  buildTestApp,
  FIRM_ID,
  PASSWORD,
  type TestApp,
  type TestPerson,
} from './support/test-app.js';

interface Hook {
  headers: IncomingMessage['headers'];
  body: string;
}

describe('who is told of what', () => {
  let test: TestApp;
  let site: string;
  let hooks: Server;
  let received: Hook[] = [];
  let answer = 204;

  const settle = () => test.app.get(JobService).settle();
  const url = () => `http://127.0.0.1:${(hooks.address() as AddressInfo).port}/in`;

  async function signedIn({ email }: TestPerson) {
    const http = test.browser();
    const { body } = await http.post('/api/v1/session').send({ email, password: PASSWORD });
    const csrf = body.csrfToken as string;
    return {
      post: (path: string, sent: object = {}) =>
        http.post(`/api/v1/notice-wishes${path}`).set('X-CSRF-Token', csrf).send(sent),
      get: (path: string) => http.get(`/api/v1/notice-wishes${path}`),
    };
  }

  const report = async (siteId: string, nodes = ['A1'], besides: object = {}) => {
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'The office', kind: 'office' },
        how: 'volunteered',
        ...besides,
        observations: nodes.map((node) => ({
          trunk: 'A',
          node,
          function: 'announcement',
          outcome: 'fails',
        })),
      })
      .expect(201);
    await settle();
    return body.tickets[0] as { id: string; number: number };
  };

  async function mailsTo(recipient: string) {
    const owner = test.browser();
    await owner.post('/api/v1/session').send({ email: test.owner.email, password: PASSWORD });
    const { body } = await owner.get('/api/v1/outbox').expect(200);
    return body.items.filter((one: { recipient: string }) => one.recipient === recipient) as {
      subject: string;
      text: string;
    }[];
  }

  /** As if the hour had come. */
  async function lookAhead() {
    await test.app
      .get(FirmTransaction)
      .run(FIRM_ID, 'write', () => test.app.get(JobService).enqueue('visits-ahead', {}));
    await settle();
  }

  beforeAll(async () => {
    test = await buildTestApp({ reachesPrivate: true });
    site = await drawSite(test, [row('A', 2)]);
    hooks = createServer((request, response) => {
      void text(request).then((body) => {
        received.push({ headers: request.headers, body });
        response.writeHead(answer).end();
      });
    }).listen(0, '127.0.0.1');
    await once(hooks, 'listening');
  });

  afterAll(async () => {
    hooks.close();
    await test.close();
  });

  it('mails a report once to each who asked, and to nobody else', async () => {
    const dispatcher = await test.addPerson('dispatcher');
    const manager = await test.addPerson('contract-manager');
    const ask = await signedIn(dispatcher);
    await ask.post('', { way: 'mail', kinds: ['new-report'], language: 'fr' }).expect(201);
    const other = await signedIn(manager);
    await other.post('', { way: 'mail', kinds: ['work-to-sign'] }).expect(201);
    const ticket = await report(site, ['A1', 'A2'], { urgentReason: 'Examens à 9 h' });
    const [mail, ...more] = await mailsTo(dispatcher.email);
    expect(more).toEqual([]);
    expect(mail!.subject).toBe('Larkfield Lower School : un problème a été signalé');
    expect(mail!.text).toContain(`Dossier ${ticket.number}`);
    expect(mail!.text).toContain('2 salles');
    expect(mail!.text).toContain('\n\nNe peut pas attendre : Examens à 9 h\n');
    expect(mail!.text).toContain(`/desk/tickets/${ticket.number}`);
    expect(await mailsTo(manager.email)).toEqual([]);
    // The same happening again is no second notice.
    const entryId = '01900000-0000-7000-8000-00000000e001';
    for (let times = 0; times < 3; times++) {
      await test.app
        .get(FirmTransaction)
        .run(FIRM_ID, 'write', () =>
          test.app
            .get(JobService)
            .enqueue('notices', { kind: 'new-report', ticketId: ticket.id, entryId }),
        );
    }
    await settle();
    expect(await mailsTo(dispatcher.email)).toHaveLength(2);
  });

  it('ends by the way out of the mail, without signing in, as a mail program does it', async () => {
    const [mail] = await mailsTo((await listener()).email);
    const key = /\/way-out#([\w-]{32})/.exec(mail!.text)![1]!;
    const leave = (sent: string) =>
      test.browser().post(`/api/v1/notice-wishes/way-out?key=${sent}`).type('form');
    await leave('k'.repeat(32)).send('List-Unsubscribe=One-Click').expect(404);
    await leave(key).send('List-Unsubscribe=One-Click').expect(204);
    await leave(key).send('List-Unsubscribe=One-Click').expect(204);
    await report(site);
    expect(await mailsTo((await listener()).email)).toHaveLength(1);
    // No other route takes a form.
    await test.browser().post('/api/v1/session').type('form').send('email=a').expect(415);
  });

  let told: TestPerson | undefined;
  async function listener(): Promise<TestPerson> {
    if (told !== undefined) return told;
    told = await test.addPerson('dispatcher');
    await (await signedIn(told)).post('', { way: 'mail', kinds: ['new-report'] }).expect(201);
    await report(site);
    return told;
  }

  it('signs webhooks so that a receiver can check them, and tries again what was not taken', async () => {
    const ask = await signedIn(test.owner);
    const { body: wish } = await ask
      .post('', { way: 'webhook', kinds: ['new-report'], url: url() })
      .expect(201);
    received = [];
    answer = 503;
    const ticket = await report(await drawSite(test, [row('A', 2)]), ['A1', 'A2'], {
      urgentReason: 'Examinations at nine',
    });
    expect(received).toHaveLength(1);
    const [waiting] = (await ask.get(`/${wish.id}/notices`).expect(200)).body.items;
    expect(waiting).toMatchObject({ sentAt: null, tries: 1, failure: 'it was answered 503' });
    answer = 204;
    await retryNow(test);
    await settle();
    expect(received).toHaveLength(2);
    const [first, second] = received as [Hook, Hook];
    expect(second.headers['webhook-id']).toBe(first.headers['webhook-id']);
    const { 'webhook-id': id, 'webhook-timestamp': at } = second.headers;
    // Standard Webhooks 1.0: HMAC-SHA-256 over id.timestamp.body with the bytes behind `whsec_`.
    const secret = Buffer.from((wish.signingSecret as string).replace('whsec_', ''), 'base64');
    const expected = createHmac('sha256', secret).update([id, at, second.body].join('.'));
    expect(second.headers['webhook-signature']).toBe(`v1,${expected.digest('base64')}`);
    expect(JSON.parse(second.body)).toMatchObject({
      type: 'new-report',
      data: {
        ticket: { number: ticket.number },
        silentRooms: 2,
        urgentReason: 'Examinations at nine',
        site: { name: 'Larkfield Lower School' },
      },
    });
    const [sent] = (await ask.get(`/${wish.id}/notices`).expect(200)).body.items;
    expect(sent).toMatchObject({ tries: 2, failure: null });
    expect(sent.sentAt).not.toBeNull();
    expect((await ask.get('').expect(200)).body.items[0]).not.toHaveProperty('signingSecret');
  });

  it('agrees with the example of the scheme', () => {
    // From the tests of its reference libraries (memory).
    const signed = new Webhook('whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw').sign(
      'msg_p5jXN8AQM9LWM0D4loKWxJek',
      new Date(1614265330 * 1000),
      '{"test": 2432232314}',
    );
    expect(signed).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
  });

  it('ends a webhook whose receiver says that it is gone', async () => {
    const ask = await signedIn(test.owner);
    const { body: wish } = await ask
      .post('', { way: 'webhook', kinds: ['new-report'], url: url() })
      .expect(201);
    answer = 410;
    await report(site);
    const { items } = (await ask.get('').expect(200)).body;
    const ended = items.find((one: { id: string }) => one.id === wish.id);
    expect(ended.endedAt).not.toBeNull();
    answer = 204;
    received = [];
    await report(site);
    expect(received).toEqual([]);
  });

  it('tells of tomorrow’s visits from the afternoon on, once, a technician of their own', async () => {
    const [ilvo, sanna] = [await test.addPerson('technician'), await test.addPerson('technician')];
    for (const one of [ilvo, sanna]) {
      await (await signedIn(one)).post('', { way: 'mail', kinds: ['visit-tomorrow'] }).expect(201);
    }
    await test.http
      .post('/api/v1/visits')
      .send({
        siteId: site,
        kind: 'planned',
        on: '2026-03-03',
        purpose: 'Upkeep',
        upkeep: true,
        technicianId: ilvo.id,
      })
      .expect(201);
    await lookAhead();
    expect(await mailsTo(ilvo.email)).toEqual([]);
    test.clock.tick(8 * 60);
    for (let times = 0; times < 3; times++) {
      await releaseJobs(test);
      await lookAhead();
    }
    const mails = await mailsTo(ilvo.email);
    expect(mails.map(({ subject }) => subject)).toEqual([
      'Larkfield Lower School: a visit tomorrow',
    ]);
    expect(await mailsTo(sanna.email)).toEqual([]);
  });

  it('tells whoever promised that the time is nearly gone, and whoever signs that work is done', async () => {
    const manager = await test.addPerson('contract-manager');
    const ask = await signedIn(manager);
    await ask.post('', { way: 'mail', kinds: ['breach-near', 'work-to-sign'] }).expect(201);
    const site = await drawSite(test, [row('A', 2)]);
    const { clientId } = (await test.http.get(`/api/v1/sites/${site}`)).body;
    await test.http
      .post('/api/v1/contracts')
      .send({
        clientId,
        title: 'Care of the school',
        siteIds: [site],
        from: '2026-01-01',
        until: '2027-01-01',
        kind: 'comprehensive',
        visitsPerYear: 2,
        feeMinor: 100_000,
        currency: 'EUR',
        promises: [{ troubleClass: 'whole-site', responseMinutes: 240 }],
        coverage: {
          windows: [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '18:00' })),
        },
      })
      .expect(201);
    const ticket = await report(site, ['A1', 'A2']);
    await releaseJobs(test, 'promise-clocks');
    await settle();
    test.clock.tick(17 * 60 + 40);
    await releaseJobs(test, 'promise-clocks');
    await settle();
    const [warned, ...more] = await mailsTo(manager.email);
    expect(more).toEqual([]);
    expect(warned!.text).toContain(`Ticket ${ticket.number}`);
    const day = test.clock.now().toISOString().slice(0, 10);
    const technicianId = (await test.addPerson('technician')).id;
    const { body: visit } = await test.http
      .post('/api/v1/visits')
      .send({
        siteId: site,
        kind: 'planned',
        on: day,
        purpose: 'Upkeep',
        upkeep: true,
        technicianId,
      })
      .expect(201);
    for (const to of ['under-way', 'done']) {
      const confirmed = ['not-all-heard'];
      const moved = { to, by: 'Ilvo Marsh', workDone: 'All heard', confirmed };
      await test.http.post(`/api/v1/visits/${visit.id}/moves`).send(moved).expect(201);
    }
    await settle();
    const [signing] = await mailsTo(manager.email);
    expect(signing!.subject).toBe('Larkfield Lower School: work to sign');
  });

  it('tells a client’s people of their own sites alone, and nobody whose sign-in ended', async () => {
    const other = await drawSite(test, [row('A', 2)]);
    const clientOf = async (id: string) =>
      (await test.http.get(`/api/v1/sites/${id}`)).body.clientId;
    const theirs = await test.addPerson('client', { clientId: await clientOf(site) });
    const ask = await signedIn(theirs);
    await ask.post('', { way: 'mail', kinds: ['new-report'] }).expect(201);
    await report(other);
    const isSame = (await clientOf(other)) === (await clientOf(site));
    expect(await mailsTo(theirs.email)).toHaveLength(isSame ? 1 : 0);
    await report(site);
    const before = (await mailsTo(theirs.email)).length;
    expect(before).toBeGreaterThan(0);
    // They have no place at the desk.
    for (const { text: sent } of await mailsTo(theirs.email)) expect(sent).not.toContain('/desk');
    const owner = test.browser();
    const { body } = await owner
      .post('/api/v1/session')
      .send({ email: test.owner.email, password: PASSWORD });
    await owner
      .post(`/api/v1/accounts/${theirs.id}/end`)
      .set('X-CSRF-Token', body.csrfToken)
      .expect(204);
    await report(site);
    expect(await mailsTo(theirs.email)).toHaveLength(before);
  });

  it('refuses what cannot be told, what is another’s, and more than may be', async () => {
    const dispatcher = await test.addPerson('dispatcher');
    const ask = await signedIn(dispatcher);
    const asOwner = await signedIn(test.owner);
    const wish = { way: 'webhook', kinds: ['new-report'], url: url() };
    await ask.post('', wish).expect(403);
    const fields = async (sent: object) =>
      (await asOwner.post('', sent).expect(422)).body.errors.map(
        ({ field }: { field: string }) => field,
      );
    expect(await fields({ ...wish, url: undefined })).toEqual(['/url']);
    expect(await fields({ ...wish, url: 'ftp://firm.example' })).toEqual(['/url']);
    expect(await fields({ way: 'mail', kinds: ['new-report'], url: url() })).toEqual(['/url']);
    expect(await fields({ way: 'mail', kinds: [] })).toEqual(['/kinds']);
    expect(await fields({ way: 'pigeon', kinds: ['new-report'] })).toEqual(['/way']);
    const mail = { way: 'mail', kinds: ['new-report'] };
    await ask.post('', { ...mail, siteId: test.owner.id }).expect(404);
    const { body: own } = await ask.post('', mail).expect(201);
    const stranger = await signedIn(await test.addPerson('contract-manager'));
    await stranger.post(`/${own.id}/end`).expect(404);
    await stranger.get(`/${own.id}/notices`).expect(404);
    await asOwner.post(`/${own.id}/end`).expect(204);
    for (let count = 0; count < 20; count++) await ask.post('', mail).expect(201);
    const refused = await Promise.all([1, 2, 3, 4].map(() => ask.post('', mail)));
    expect(refused.map(({ status }) => status)).toEqual([409, 409, 409, 409]);
  });
});

describe('webhooks of an installation that keeps to itself', () => {
  it('do not reach its own network, by number or by name', async () => {
    const test = await buildTestApp();
    try {
      const site = await drawSite(test, [row('A', 2)]);
      const http = test.browser();
      const { body } = await http
        .post('/api/v1/session')
        .send({ email: test.owner.email, password: PASSWORD });
      const wish = (url: string) =>
        http
          .post('/api/v1/notice-wishes')
          .set('X-CSRF-Token', body.csrfToken)
          .send({ way: 'webhook', kinds: ['new-report'], url });
      await wish('http://hooks.firm.example/').expect(422);
      const ids: string[] = [];
      for (const url of ['https://127.0.0.1:9/', 'https://localhost:9/', 'https://[::1]:9/']) {
        ids.push((await wish(url).expect(201)).body.id);
      }
      await test.http
        .post(`/api/v1/sites/${site}/reports`)
        .send({
          saidBy: { name: 'The office', kind: 'office' },
          how: 'volunteered',
          observations: [{ trunk: 'A', node: 'A1', function: 'bell', outcome: 'fails' }],
        })
        .expect(201);
      await test.app.get(JobService).settle();
      for (const id of ids) {
        const { items } = (await http.get(`/api/v1/notice-wishes/${id}/notices`)).body;
        expect(items).toHaveLength(1);
        expect(items[0].failure).toContain('is not a public address');
      }
    } finally {
      await test.close();
    }
  });
});

/** What waits to be tried again is due now. */
async function retryNow(test: TestApp): Promise<void> {
  await releaseJobs(test, 'webhook');
}

async function releaseJobs(test: TestApp, kind = 'visits-ahead'): Promise<void> {
  await test.app.get(FirmTransaction).run(FIRM_ID, 'write', async () => {
    const manager = await test.app.get(FirmTransaction).manager();
    await manager.query(
      `UPDATE jobs.job SET start_after = now() WHERE name = $1 AND state < 'active'`,
      [kind],
    );
  });
}
