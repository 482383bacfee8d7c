import { once } from 'node:events';
import { type AddressInfo, connect } from 'node:net';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { bodyLimitsOf, ROUTES_WITH_LIMITS } from '#app/body-limits.js';
import { findRouteRule } from '#app/access/route-roles.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, PASSWORD, type TestApp } from './support/test-app.js';

const SESSION = '/api/v1/session';

describe('what is sent', () => {
  let test: TestApp;
  let port: number;

  beforeAll(async () => {
    test = await buildTestApp();
    await test.app.listen(0, '127.0.0.1');
    ({ port } = test.app.getHttpServer().address() as AddressInfo);
  });

  afterAll(() => test.close());

  const post = (path: string, text: string, http = test.browser()) =>
    http.post(path).set('content-type', 'application/json').send(text);

  /** Every answer of this layer is a problem that names its request, and has the headers of every other. */
  function expectProblem(
    { headers, body }: { headers: Record<string, string>; body: unknown },
    status: number,
  ): void {
    expect(headers['content-type']).toContain('application/problem+json');
    expect([headers['cache-control'], headers['content-language']]).toEqual(['no-store', 'en']);
    expect(headers['x-request-id']).toMatch(/^[0-9a-f-]{36}$/);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-security-policy']).toContain("default-src 'none'");
    expect(body).toMatchObject({
      type: expect.stringMatching(/^urn:lastheard:problem:/),
      title: expect.any(String),
      status,
      detail: expect.stringMatching(/\w/),
    });
  }

  const problemOf = (answer: {
    status: number;
    body: unknown;
    headers: Record<string, string>;
  }) => {
    expectProblem(answer, answer.status);
    return answer.body as {
      status: number;
      detail: string;
      errors?: { field: string; reason: string }[];
    };
  };

  describe('as a body', () => {
    it('may be so large, and the answer says how large', async () => {
      const text = `{"email":"${'a'.repeat(4096)}","password":"x"}`;
      const { status, detail } = problemOf(await post(SESSION, text));
      expect({ status, detail }).toEqual({
        status: 413,
        detail: 'The body is larger than 4096 bytes, the most that is taken here.',
      });
      const larger = `{"name":"${'a'.repeat(70_000)}"}`;
      expect(problemOf(await post('/api/v1/clients', larger, test.http)).detail).toContain('65536');
      // A chunked body says not how large it is.
      const chunk = `1000\r\n${'a'.repeat(0x1000)}\r\n`;
      const head = `POST ${SESSION} HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n`;
      expectProblem(await raw(head + chunk + chunk), 413);
    });

    it('may be so deep, signed in or not, on every route', async () => {
      for (const depth of [10, 1000, 30_000]) {
        for (const [open, close] of [
          ['[', ']'],
          ['{"a":', '}'],
        ] as const) {
          const value = open.repeat(depth) + '1' + close.repeat(depth);
          for (const http of [test.browser(), test.http]) {
            for (const path of [SESSION, '/api/v1/clients', '/api/v1/locate', '/api/v1/people']) {
              const answer = await post(path, `{"name":${value}}`, http);
              const { status } = problemOf(answer);
              if (status === 413) continue;
              expect(answer.body.errors).toEqual([
                {
                  field: '',
                  reason: expect.stringMatching(/^is nested more than \d levels deep$/),
                },
              ]);
            }
          }
        }
      }
    });

    it('may have so many fields and elements, and is not read to its end', async () => {
      const fields = Array.from({ length: 300_000 }, (_, index) => `"k${index}":1`).join();
      expect(problemOf(await post(SESSION, `{${fields}}`)).status).toBe(413);
      const inLocate = problemOf(
        await post('/api/v1/locate', `{${fields.slice(0, 2e6)}`, test.http),
      );
      expect(inLocate.errors).toEqual([
        { field: '', reason: 'has an object of more than 100 fields' },
      ]);
      const ids = JSON.stringify({
        ticketIds: Array.from({ length: 90_000 }, () => test.owner.id),
      });
      expect(problemOf(await post('/api/v1/visits', ids, test.http)).status).toBe(413);
    });

    it('has no text that cannot be kept, wherever it is, whoever sends it', async () => {
      const nul = 'holds the character NUL, which cannot be kept';
      const half = 'holds half a character (a lone surrogate), which cannot be kept';
      for (const http of [test.browser(), test.http]) {
        const { errors } = problemOf(
          await post('/api/v1/clients', String.raw`{"name":"a\u0000"}`, http),
        );
        expect(errors).toEqual([{ field: '/name', reason: nul }]);
        const { errors: halves } = problemOf(
          await post('/api/v1/people', String.raw`{"a":[1,{"b":"x\uD83D!"}]}`, http),
        );
        expect(halves).toEqual([{ field: '/a/1/b', reason: half }]);
        const query = await http.get('/api/v1/tickets?site=%00');
        expect(problemOf(query).errors).toEqual([{ field: 'site', reason: nul }]);
        const path = await http.get('/api/v1/sites/a%00b');
        expect(problemOf(path).errors).toEqual([{ field: 'id', reason: nul }]);
      }
      const name = String.raw`"\uD83D\uDE00 \\u0000"`;
      const { body } = await post('/api/v1/clients', `{"name":${name}}`, test.http).expect(201);
      expect(body.name).toBe('😀 \\u0000');
    });

    it('is text in UTF-8', async () => {
      const latin1 = Buffer.from('{"name":"Gr\xfc\xdfe"}', 'latin1');
      const head = `POST /api/v1/clients HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: ${latin1.length}\r\n\r\n`;
      const answer = await raw(Buffer.concat([Buffer.from(head), latin1]));
      expectProblem(answer, 422);
      expect(answer.body).toMatchObject({
        errors: [{ field: '', reason: 'is not text in UTF-8' }],
      });
    });

    it('is told what is wrong a hundred times at most', async () => {
      const observations = Array.from({ length: 4_000 }, () => ({ trunk: 7, outcome: 'perhaps' }));
      const answer = await test.http
        .post('/api/v1/sites/01900000-0000-7000-8000-000000000009/reports')
        .send({ saidBy: { name: 'A', kind: 'office' }, how: 'gone-through', observations });
      const { status, errors, detail } = problemOf(answer);
      expect(status).toBe(422);
      expect(errors).toHaveLength(100);
      expect(detail).toMatch(/^At least 400 things are wrong .* The first 100 are told\.$/);
    });

    it('that names nothing, or is of another shape, is no failure within', async () => {
      const { http } = test;
      const siteId = await drawSite(test, [row('A', 2)]);
      const observations = [{ trunk: 'A', node: 'A1', function: 'bell', outcome: 'fails' }];
      for (const saidBy of [[], [[]], [{ name: 'A', kind: 'office' }], 'A', 7, null]) {
        const report = { saidBy, how: 'gone-through', observations };
        problemOf(await http.post(`/api/v1/sites/${siteId}/reports`).send(report).expect(422));
      }
      const { email } = test.owner;
      const browser = test.browser();
      const signIn = { email, password: PASSWORD };
      const { body: session } = await browser.post(SESSION).send(signIn).expect(200);
      const answer = await browser
        .post('/api/v1/invitations')
        .set('X-CSRF-Token', session.csrfToken)
        .send({ name: 'B', email: 'b@firm.example', role: 'client', clientId: test.owner.id });
      expect(problemOf(answer)).toMatchObject({ status: 422, errors: [{ field: '/clientId' }] });
    });

    it('has limits of its own only on routes that there are', () => {
      for (const route of ROUTES_WITH_LIMITS)
        expect([route, findRouteRule(route)]).not.toContain(undefined);
      expect(bodyLimitsOf('POST', '/api/v1/session').bytes).toBe(4096);
    });
  });

  describe('as a request', () => {
    it.each([
      [
        'an address that is wrongly encoded',
        'GET /api/v1/sites/%E0%A4%A HTTP/1.1\r\nHost: x\r\n\r\n',
        400,
      ],
      ['no word of HTTP', 'HELO there\r\n\r\n', 400],
      ['a method that nobody knows', 'BREW /api/v1/sites HTTP/1.1\r\nHost: x\r\n\r\n', 400],
      ['no host', 'GET /api/v1/sites HTTP/1.1\r\n\r\n', 400],
      ['no host for a page', 'GET /sign-in HTTP/1.1\r\n\r\n', 400],
      ['NUL for a page', 'GET /desk/tickets?site=%00 HTTP/1.1\r\nHost: x\r\n\r\n', 422],
      ['NUL for the first page', 'GET /?x=%00 HTTP/1.1\r\nHost: x\r\n\r\n', 422],
      ['NUL for the page of the document', 'GET /api/docs?x=%00 HTTP/1.1\r\nHost: x\r\n\r\n', 422],
      ['no address', 'GET * HTTP/1.1\r\nHost: x\r\n\r\n', 404],
      ['no address but options', 'OPTIONS * HTTP/1.1\r\nHost: x\r\n\r\n', 404],
      [
        'an expectation that nobody meets',
        'POST /api/v1/session HTTP/1.1\r\nHost: x\r\nExpect: tea\r\nContent-Length: 2\r\n\r\n{}',
        417,
      ],
      ['NUL in a header', 'GET /health/live HTTP/1.1\r\nHost: x\r\nUser-Agent: a\0b\r\n\r\n', 400],
      [
        'a length that is none',
        'POST /api/v1/session HTTP/1.1\r\nHost: x\r\nContent-Length: x\r\n\r\n',
        400,
      ],
      [
        'two lengths',
        'POST /api/v1/session HTTP/1.1\r\nHost: x\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n',
        400,
      ],
      [
        'an address that is too long',
        `GET /api/v1/sites?after=${'a'.repeat(9_000)} HTTP/1.1\r\nHost: x\r\n\r\n`,
        414,
      ],
      [
        'a part of it that is too long',
        `GET /api/v1/sites/${'a'.repeat(3_000)} HTTP/1.1\r\nHost: x\r\n\r\n`,
        414,
      ],
      [
        'headers that are too large',
        `GET /health/live HTTP/1.1\r\nHost: x\r\nCookie: ${'a'.repeat(40_000)}\r\n\r\n`,
        431,
      ],
    ])('with %s is a problem like any other', async (_, text, status) => {
      expectProblem(await raw(text), status);
    });

    it.each([
      '/api/v1/%6c',
      '/%61pi/v1/nothing',
      '/api/%76%31/nothing',
      '/api/v1%2fsites',
      '/API/v1/sites',
      '//api/v1/sites',
      '/api/v1',
      '/api/docs/nothing',
      '/%2e%2e/x',
      '/../x',
      '/nothing',
      '/assets/nothing.js',
      '/assets/..%2f..%2fpackage.json',
      '/health/nothing',
      'http://x/api/v1/nothing',
    ])('to %s, where nothing is, is one that no cache keeps', async (address) => {
      expectProblem(await raw(`GET ${address} HTTP/1.1\r\nHost: x\r\n\r\n`), 404);
    });

    it('that a browser shows is told in words, and kept in no cache either', async () => {
      for (const address of ['/nothing', '/%2e%2e/x']) {
        const answer = await test.browser().get(address).set('accept', 'text/html').expect(404);
        expect(answer.text).toContain('<!doctype html>');
        expect(answer.headers['cache-control']).toBe('no-store');
      }
    });

    it('is refused with words in the language asked for, whoever refuses it', async () => {
      const headers = 'Host: x\r\nAccept-Language: fr\r\n';
      for (const address of ['/api/v1/sites/%zz', '/nothing']) {
        const answer = await raw(`GET ${address} HTTP/1.1\r\n${headers}\r\n`);
        expect([address, answer.headers['content-language']]).toEqual([address, 'en, fr']);
        expect(answer.headers['vary']).toBe('Accept-Language');
        expect(answer.body).toHaveProperty('words');
      }
    });

    it('may still be an ordinary one', async () => {
      const { status } = await raw(
        'GET /health/live HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n',
      );
      expect(status).toBe(200);
      const { email } = test.owner;
      await test.browser().post(SESSION).send({ email, password: PASSWORD }).expect(200);
    });
  });

  /** What comes back for these bytes until the other side ends the connection. */
  async function raw(bytes: string | Buffer) {
    const socket = connect(port, '127.0.0.1');
    let text = '';
    socket.setEncoding('utf8').on('data', (data: string) => {
      text += data;
      // An answer that keeps the connection is whole when its body is.
      if (isWhole(text)) socket.end();
    });
    socket.on('error', () => undefined);
    socket.write(bytes);
    await once(socket, 'close');
    const [head = '', body = ''] = text.split('\r\n\r\n');
    const [first = '', ...lines] = head.split('\r\n');
    const headers = Object.fromEntries(
      lines.map((line) => [line.split(': ')[0]!.toLowerCase(), line.slice(line.indexOf(': ') + 2)]),
    );
    return { status: Number(first.split(' ')[1]), headers, body: JSON.parse(body || 'null') };
  }

  function isWhole(text: string): boolean {
    const length = /content-length: (\d+)/i.exec(text)?.[1];
    const body = text.split('\r\n\r\n')[1];
    return length !== undefined && body !== undefined && Buffer.byteLength(body) >= Number(length);
  }
});
