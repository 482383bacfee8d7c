import { connect } from 'node:net';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { bodyLimitsOf } from '#app/body-limits.js';
import { createAdapter } from '#app/create-app.js';

import { buildTestApp, PASSWORD, SEAL_KEY, type TestApp } from './support/test-app.js';

describe('abuse', () => {
  let test: TestApp;

  beforeAll(async () => {
    const limits = { openPerMinute: 10, wrongCredentialsPerMinute: 5, accountPerMinute: 60 };
    test = await buildTestApp({ limits });
  });

  afterAll(() => test.close());

  it('is answered with headers that let browsers load nothing foreign', async () => {
    const { headers } = await test.browser().get('/health/live').expect(200);
    expect(headers['content-security-policy']).toBe(
      "default-src 'none';script-src 'self';style-src 'self';img-src 'self' data:;" +
        "font-src 'self';connect-src 'self';manifest-src 'self';worker-src 'self';base-uri 'none';" +
        "form-action 'self';frame-ancestors 'none'",
    );
    expect(headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'strict-transport-security': 'max-age=31536000; includeSubDomains',
      'x-frame-options': 'DENY',
    });
    expect(headers['x-powered-by']).toBeUndefined();
    const { headers: api } = await test.http.get('/api/v1/sites').expect(200);
    expect(api['cache-control']).toBe('no-store');
    expect(api['access-control-allow-origin']).toBeUndefined();
  });

  it('leaves the page of the API document working: no script stands in it', async () => {
    const { text, headers } = await test.browser().get('/api/docs').expect(200);
    expect(headers['content-security-policy']).toContain("style-src 'self' 'unsafe-inline'");
    const { headers: escaped } = await test.browser().get('/%61pi/docs').expect(200);
    expect(escaped['content-security-policy']).toBe(headers['content-security-policy']);
    const scripts = [...text.matchAll(/<script([^>]*)>([^<]*)/g)];
    expect(scripts.length).toBeGreaterThan(1);
    for (const [, attributes, content] of scripts) {
      const source = /src="([^"]+)"/.exec(attributes!)![1]!;
      expect(content!.trim()).toBe('');
      await test.browser().get(new URL(source, 'http://x/api/docs').pathname).expect(200);
    }
  });

  it('may sign in only so often from one address, whichever process is asked', async () => {
    const limits = { openPerMinute: 10, wrongCredentialsPerMinute: 5, accountPerMinute: 60 };
    const { createApp } = await import('#app/create-app.js');
    const publicUrl = 'http://localhost';
    const { appUrl, clock } = test;
    const second = await createApp({ appUrl, publicUrl, sealKey: SEAL_KEY, limits, clock });
    await second.init();
    await second.getHttpAdapter().getInstance().ready();
    try {
      test.clock.tick(1);
      const url = '/api/v1/session';
      const payload = { email: test.owner.email, password: PASSWORD };
      const statuses: number[] = [];
      for (let attempt = 0; attempt < 12; attempt++) {
        const app = attempt % 2 === 0 ? test.app : second;
        statuses.push((await app.inject({ method: 'POST', url, payload })).statusCode);
      }
      expect(statuses).toEqual([...Array<number>(10).fill(200), 429, 429]);
      test.clock.tick(1);
      const { statusCode } = await second.inject({ method: 'POST', url, payload });
      expect(statusCode).toBe(200);
    } finally {
      await second.close();
    }
  });

  it('may try wrong tokens only so often from one address', async () => {
    test.clock.tick(1);
    const statuses: number[] = [];
    for (let attempt = 0; attempt < 7; attempt++) {
      const token = `lastheard_${'A'.repeat(40)}${attempt}`;
      const answer = await test.browser().get('/api/v1/sites').auth(token, { type: 'bearer' });
      statuses.push(answer.status);
    }
    expect(statuses).toEqual([401, 401, 401, 401, 401, 429, 429]);
    await test.http.get('/api/v1/sites').expect(200);
  });

  it('may ask only so often with one token', async () => {
    test.clock.tick(1);
    const statuses: number[] = [];
    for (let read = 0; read < 90; read++) {
      statuses.push((await test.http.get('/api/v1/sites')).status);
    }
    expect(statuses).toEqual([...Array<number>(60).fill(200), ...Array<number>(30).fill(429)]);
    test.clock.tick(1);
    await test.http.get('/api/v1/sites').expect(200);
  });

  it('cannot send more than fits, nor deep, nor of another kind', async () => {
    test.clock.tick(1);
    const send = (type: string, body: string) =>
      test.http.post('/api/v1/clients').set('content-type', type).send(body);
    const { bytes } = bodyLimitsOf('POST', '/api/v1/clients');
    await send('application/json', `{"name":"${'a'.repeat(bytes)}"}`).expect(413);
    await send('application/xml', '<name/>').expect(415);
    await send('application/x-www-form-urlencoded', 'name=a').expect(415);
    const { body } = await send('application/json', '{"__proto__":{"a":1},"name":"a"}').expect(400);
    expect(body.type).toBe('urn:lastheard:problem:request');
  });

  it('cannot hold a connection by sending slowly', async () => {
    const adapter = createAdapter();
    const { server } = adapter.getInstance();
    expect(server.requestTimeout).toBe(30_000);
    expect(server.headersTimeout).toBe(10_000);
    // The same server with its clock turned fast: what it does at its end is what is looked at.
    server.headersTimeout = 50;
    server.requestTimeout = 100;
    const slow = await buildTestApp({ adapter });
    try {
      await slow.app.listen(0, '127.0.0.1');
      const { port } = slow.app.getHttpServer().address() as AddressInfo;
      const socket = connect(port, '127.0.0.1');
      socket.write('POST /api/v1/session HTTP/1.1\r\nHost: x\r\nContent-Le');
      let answer = '';
      socket.on('data', (data) => (answer += data.toString()));
      await once(socket, 'close');
      expect(answer).toContain('408');
    } finally {
      await slow.close();
    }
  });

  it('learns nothing of the inside from a failure', async () => {
    test.clock.tick(1);
    const answers = [
      await test.http.get('/api/v1/people?after=WyJhIiwibm90LWEtdXVpZCJd'),
      await test.http.get(`/api/v1/sites/${encodeURIComponent("' OR 1=1 --")}`),
      await test.http.post('/api/v1/clients').send({ name: 'x\u0000y' }),
    ];
    for (const { status, text } of answers) {
      expect(text).not.toMatch(/select|syntax|typeorm|postgres|node_modules|\bat .+:\d+/i);
      expect(status).toBeGreaterThanOrEqual(400);
    }
  });
});
