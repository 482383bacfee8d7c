import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { TOTP } from 'otpauth';

import { BackgroundService } from '#app/shared/background.service.js';
import { createAdapter } from '#app/create-app.js';
import { createJsonLog } from '#app/observability/json-log.js';
import { startMetricsServer } from '#app/observability/metrics-server.js';
import { MetricsService } from '#app/observability/metrics.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

describe('what is logged and measured', () => {
  let test: TestApp;
  const lines: string[] = [];

  beforeAll(async () => {
    const log = createJsonLog('trace', { write: (line) => lines.push(line) });
    test = await buildTestApp({ adapter: createAdapter({ log }) });
  });

  afterAll(() => test.close());

  it('is a line of JSON for each request: which, by whom, how it ended', async () => {
    const { headers } = await test.http.get('/api/v1/sites?limit=1').expect(200);
    const answered = lines.map((line) => JSON.parse(line)).find(({ route }) => route);
    expect(answered).toMatchObject({
      level: 'info',
      reqId: headers['x-request-id'],
      method: 'GET',
      path: '/api/v1/sites',
      route: '/api/v1/sites',
      status: 200,
      address: '127.0.0.1',
      firm: FIRM_ID,
      actor: test.owner.id,
      msg: 'answered',
    });
    expect(answered.time).toMatch(/^\d{4}-\d\d-\d\dT[\d:.]+Z$/);
  });

  it('never is a secret, in a whole run', async () => {
    const secrets: string[] = [PASSWORD, 'an otter under the jetty'];
    const http = test.browser();
    const { email } = test.owner;
    const signIn = (body: object) => http.post('/api/v1/session').send({ email, ...body });
    const answer = await signIn({ password: PASSWORD }).expect(200);
    const csrf = answer.body.csrfToken as string;
    secrets.push(csrf, /lastheard=([\w-]+)/.exec(answer.headers['set-cookie']![0]!)![1]!);
    const post = (path: string, body: object) =>
      http.post(`/api/v1${path}`).set('X-CSRF-Token', csrf).send(body);

    const scopes = ['sites:read', 'passes:write'];
    const { body: token } = await post('/tokens', { name: 'Export', scopes }).expect(201);
    secrets.push(token.token);
    await test.browser().get('/api/v1/sites').auth(token.token, { type: 'bearer' }).expect(200);
    const wrong = `lastheard_${'Q'.repeat(43)}`;
    secrets.push(wrong);
    await test.browser().get('/api/v1/sites').auth(wrong, { type: 'bearer' }).expect(401);
    await signIn({ password: 'a wrong one, and logged nowhere' }).expect(401);
    secrets.push('a wrong one, and logged nowhere');

    const siteId = await drawSite(test, [row('A', 3)]);
    const { body: pass } = await post(`/sites/${siteId}/passes`, {}).expect(201);
    const shown = pass.link.split('#')[1] as string;
    secrets.push(shown);
    const office = test.browser();
    const opened = await office.post('/api/v1/pass/session').send({ pass: shown }).expect(200);
    secrets.push(/lastheard-pass=([\w-]+)/.exec(opened.headers['set-cookie']![0]!)![1]!);
    await office.get('/api/v1/pass/site').expect(200);

    const invited = { name: 'Runa Feld', email: 'runa@firm.example', role: 'dispatcher' };
    await post('/invitations', invited).expect(201);
    await http.post('/api/v1/password-resets').send({ email: invited.email }).expect(202);
    await test.app.get(BackgroundService).settle();
    const { body: outbox } = await http.get('/api/v1/outbox').expect(200);
    for (const { text } of outbox.items) secrets.push(/#([\w-]{43})/.exec(text as string)![1]!);
    const password = 'an otter under the jetty';
    await http.post('/api/v1/password-from-link').send({ link: secrets.at(-1), password });
    await http.post('/api/v1/password-from-link').send({ link: secrets.at(-2), password });

    const { body: begun } = await post('/second-step', { password: PASSWORD }).expect(201);
    const code = new TOTP({ secret: begun.secret }).generate({
      timestamp: test.clock.now().getTime(),
    });
    const { body: confirmed } = await post('/second-step/confirm', { code }).expect(200);
    secrets.push(begun.secret, ...(confirmed.recoveryCodes as string[]));
    await signIn({ password: PASSWORD, code: confirmed.recoveryCodes[0] }).expect(200);

    expect(secrets.length).toBeGreaterThan(18);
    expect(lines.length).toBeGreaterThan(20);
    const log = lines.join('');
    expect(secrets.filter((secret) => log.includes(secret))).toEqual([]);
  });

  it('is read by Prometheus on a port of its own, and not on the public one', async () => {
    await test.http.post('/api/v1/locate').send({
      trunks: [{ id: 'A', nodes: [{ id: 'A1', kind: 'station', cableMetres: 9 }] }],
      exposureDays: 90,
      observations: [{ trunk: 'A', node: 'A1', function: 'bell', outcome: 'fails' }],
    });
    await test.browser().get('/metrics').expect(404);
    const { registry } = test.app.get(MetricsService);
    const server = await startMetricsServer(registry, '127.0.0.1', 0);
    try {
      const text = await (await fetch(server.address)).text();
      expect(text).toMatch(/^lastheard_locations_total 1$/m);
      expect(text).toMatch(
        /lastheard_request_seconds_count\{method="GET",route="\/api\/v1\/sites",status="200"\} \d+/,
      );
      expect(text).toMatch(
        /lastheard_request_seconds_count\{method="GET",route="none",status="404"\} 1/,
      );
      expect(text).toMatch(/lastheard_database_connections\{state="idle"\} \d+/);
      expect(text).toMatch(/^lastheard_process_cpu_seconds_total /m);
      expect((await fetch(server.address.replace('metrics', 'other'))).status).toBe(404);
    } finally {
      await server.stop();
    }
  });
});
