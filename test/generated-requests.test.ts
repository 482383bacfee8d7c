import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';

import { SetUpService } from '#app/access/set-up.service.js';

import { ArbitraryValues, type Schema } from './support/arbitrary-values.js';
import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, PASSWORD, type TestApp } from './support/test-app.js';

/** GENERATED_REQUESTS=100000 asks longer; GENERATED_SEED asks otherwise. */
const REQUESTS = Number(process.env.GENERATED_REQUESTS ?? 2_000);
const SEED = Number(process.env.GENERATED_SEED ?? 20_260_302);
const AT_ONCE = 4;

interface Content {
  schema?: Schema;
}

interface Operation {
  method: string;
  path: string;
  parameters?: { name: string; in: string; required?: boolean; schema: Schema }[];
  requestBody?: { content: Record<string, Content> };
  responses: Record<string, { content?: Record<string, Content> }>;
}

interface Answer {
  statusCode: number;
  headers: Record<string, unknown>;
  body: string;
}

describe('requests made from the API document', () => {
  let test: TestApp;
  let operations: Operation[];
  let values: ArbitraryValues;
  let principals: Record<string, string>[];
  const ajv = new Ajv2020({ strict: false, validateFormats: true });
  const validators = new Map<string, ValidateFunction>();

  beforeAll(async () => {
    test = await buildTestApp();
    const { body: document } = await test.http.get('/api/openapi.json').expect(200);
    (formats as unknown as (ajv: Ajv2020) => void)(ajv);
    ajv.addSchema({ $id: 'doc', components: document.components });
    values = new ArbitraryValues(SEED, document.components.schemas);
    operations = Object.entries(
      document.paths as Record<string, Record<string, Operation>>,
    ).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => ({ ...operation, method, path })),
    );
    values.ids.push(...(await makeThings()));
    principals = await makePrincipals();
  });

  afterAll(() => test.close());

  it(`${REQUESTS} are answered as it says, and none fails within`, async () => {
    const wrong = new Map<string, string>();
    const statuses: Record<number, number> = {};
    for (let asked = 0; asked < REQUESTS; asked += AT_ONCE) {
      const requests = Array.from({ length: AT_ONCE }, () => makeRequest());
      await Promise.all(
        requests.map(async ({ operation, request }) => {
          const answer: Answer = await ask(request);
          statuses[answer.statusCode] = (statuses[answer.statusCode] ?? 0) + 1;
          const reason = whatIsWrong(operation, answer);
          const key = `${operation.method} ${operation.path} ${answer.statusCode}: ${reason}`;
          const { body, url } = request;
          if (reason !== undefined)
            wrong.set(key, `${url} ${body?.slice(0, 500)} → ${answer.body.slice(0, 300)}`);
        }),
      );
    }
    expect(Object.fromEntries(wrong)).toEqual({});
    // It would say nothing of an API that refuses everything.
    expect(Object.keys(statuses)).toEqual(expect.arrayContaining(['200', '201', '404', '422']));
    expect((statuses[200] ?? 0) + (statuses[201] ?? 0)).toBeGreaterThan(REQUESTS / 20);
  });

  it('would find an answer that the document does not have', () => {
    const operation = { ...operations[0]!, responses: { 200: {} } };
    const headers = { 'content-type': 'application/json' };
    const answered = (statusCode: number, body: string) => ({ statusCode, headers, body });
    expect(whatIsWrong(operation, answered(200, ''))).toBeUndefined();
    expect(whatIsWrong(operation, answered(418, ''))).toBe('the document has no such answer');
    expect(whatIsWrong(operation, answered(503, ''))).toBe('a failure within');
    const schema = { type: 'object', required: ['id'] };
    const strict = {
      ...operation,
      responses: { 200: { content: { 'application/json': { schema } } } },
    };
    expect(whatIsWrong(strict, answered(200, '{}'))).toContain("must have required property 'id'");
  });

  const inject = () => test.app.getHttpAdapter().getInstance();

  async function ask({ method, url, headers, body }: ReturnType<typeof makeRequest>['request']) {
    return inject().inject({ method: method as 'GET', url, headers, payload: body });
  }

  function makeRequest() {
    const operation = values.pick(operations);
    values.strangeness = values.pick([0, 0, 0.02, 0.1]);
    const headers: Record<string, string> = { ...values.pick(principals) };
    let url = operation.path;
    const query: string[] = [];
    for (const { name, in: place, required, schema } of operation.parameters ?? []) {
      const text = toText(/Id$|^id$/.test(name) ? idOrStrange() : values.value(schema));
      if (place === 'path') url = url.replace(`{${name}}`, encodeURIComponent(text) || '-');
      else if (required !== true && values.next() < 0.6) continue;
      else if (place === 'query') query.push(`${name}=${encodeURIComponent(text)}`);
      else
        headers[name.toLowerCase()] = values.pick([
          '"0"',
          '"1"',
          '"2"',
          'x',
          '"99999999999999999999"',
        ]);
    }
    if (query.length > 0) url += `?${query.join('&')}`;
    const content = Object.entries(operation.requestBody?.content ?? {});
    let body: string | undefined;
    if (content.length > 0) {
      const [type, { schema = {} }] = values.pick(content);
      headers['content-type'] = type;
      body = /json/.test(type)
        ? JSON.stringify(values.value(schema))
        : toText(values.value(schema));
    }
    return { operation, request: { method: operation.method.toUpperCase(), url, headers, body } };
  }

  function idOrStrange(): unknown {
    return values.next() < values.strangeness ? values.value({}) : values.id();
  }

  function toText(value: unknown): string {
    const text = typeof value === 'string' ? value : JSON.stringify(value ?? null);
    return /\p{Surrogate}/u.test(text) ? 'half' : text.slice(0, 1_000);
  }

  function whatIsWrong({ responses }: Operation, { statusCode, headers, body }: Answer) {
    if (statusCode >= 500) return 'a failure within';
    const described = responses[String(statusCode)];
    if (described === undefined) return 'the document has no such answer';
    if (described.content === undefined) return body === '' ? undefined : undefinedContent(body);
    const type = String(headers['content-type']).split(';')[0]!;
    const content = described.content[type];
    if (content === undefined) return `the document has no ${type} for it`;
    if (!/json/.test(type) || content.schema === undefined) return undefined;
    const validate = validatorOf(content.schema);
    return validate(JSON.parse(body)) ? undefined : ajv.errorsText(validate.errors);
  }

  function undefinedContent(body: string) {
    return body === 'null' ? undefined : 'the document describes no body';
  }

  function validatorOf(schema: Schema): ValidateFunction {
    const text = JSON.stringify(schema).replaceAll('"#/components', '"doc#/components');
    const known = validators.get(text) ?? ajv.compile(JSON.parse(text) as object);
    validators.set(text, known);
    return known;
  }

  /** A site with tickets, a visit and people, whose ids the requests name. */
  async function makeThings(): Promise<string[]> {
    const { http } = test;
    const siteId = await drawSite(test, [row('A', 6), row('B', 4)]);
    const { body: site } = await http.get(`/api/v1/sites/${siteId}`).expect(200);
    const { body: person } = await http
      .post('/api/v1/people')
      .send({ name: 'P', work: 'technician' })
      .expect(201);
    const observations = [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }];
    const saidBy = { name: 'Office', kind: 'office' };
    const report = { saidBy, how: 'gone-through', observations };
    const { body: told } = await http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send(report)
      .expect(201);
    const visit = { siteId, kind: 'planned', on: '2026-03-02', purpose: 'Upkeep', upkeep: true };
    const { body: planned } = await http.post('/api/v1/visits').send(visit).expect(201);
    return [siteId, site.clientId, person.id, told.tickets[0].id, planned.id];
  }

  async function makePrincipals(): Promise<Record<string, string>[]> {
    const roles = ['owner', 'dispatcher', 'technician'] as const;
    const sessions = await Promise.all(roles.map((role) => signIn(role)));
    const tokens = await Promise.all(roles.map((role) => tokenOf(role)));
    const [siteId] = values.ids;
    const { body: pass } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const opened = await test
      .browser()
      .post('/api/v1/pass/session')
      .send({ pass: pass.link.split('#')[1] });
    const office = toHeaders(opened);
    // Sessions are soon ended by what is asked with them; tokens last.
    return [{}, ...sessions, office, ...tokens, ...tokens, ...tokens.slice(0, 2)];
  }

  async function tokenOf(role: 'owner' | 'dispatcher' | 'technician') {
    const { id } = await test.addPerson(role);
    const token = await test.app.get(SetUpService).createToken(FIRM_ID, id, 'Generated');
    return { authorization: `Bearer ${token}` };
  }

  async function signIn(role: 'owner' | 'dispatcher' | 'technician') {
    const { email } = await test.addPerson(role);
    return toHeaders(
      await test.browser().post('/api/v1/session').send({ email, password: PASSWORD }),
    );
  }

  function toHeaders(answer: { headers: Record<string, string>; body: { csrfToken: string } }) {
    const cookie = String(answer.headers['set-cookie']).split(';')[0]!;
    return { cookie, 'x-csrf-token': answer.body.csrfToken };
  }
});
