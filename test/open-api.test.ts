import { readFileSync } from 'node:fs';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Validator } from '@seriousme/openapi-schema-validator';

import { buildTestApp, type TestApp } from './support/test-app.js';

interface Operation {
  summary?: string;
  responses: Record<string, { content?: Record<string, unknown> }>;
}

describe('the API document', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp();
  });

  afterAll(() => test.close());

  it('is valid OpenAPI 3.1', async () => {
    const { body } = await test.http.get('/api/openapi.json').expect(200);
    expect(body.openapi).toBe('3.1.0');
    expect(await new Validator().validate(body)).toEqual({ valid: true });
  });

  it('would not pass a document that is not valid', async () => {
    const { body } = await test.http.get('/api/openapi.json');
    body.paths['/api/v1/people'].get.responses = 'none';
    expect(await new Validator().validate(body)).toMatchObject({ valid: false });
  });

  it('says of every route what it does and how it may fail', async () => {
    const { body } = await test.http.get('/api/openapi.json');
    const routes = Object.entries(body.paths as Record<string, Record<string, Operation>>)
      .filter(([path]) => path.startsWith('/api/v1/'))
      .flatMap(([path, methods]) =>
        Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
      );
    expect(routes.length).toBeGreaterThan(3);
    const silent = routes.filter(({ operation }) => !operation.summary);
    expect(silent.map(({ path, method }) => `${method} ${path}`)).toEqual([]);
    const unfailing = routes.filter(
      ({ operation }) => !Object.keys(operation.responses).some((status) => status.startsWith('4')),
    );
    expect(unfailing.map(({ path, method }) => `${method} ${path}`)).toEqual([]);
  });

  it('has every route that README names', async () => {
    const { body } = await test.http.get('/api/openapi.json');
    const known = Object.entries(body.paths as Record<string, object>).flatMap(([path, methods]) =>
      Object.keys(methods).map(
        (method) => `${method.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/g, ':$1')}`,
      ),
    );
    const readme = readFileSync('README.md', 'utf8');
    const named = readme.match(/(GET|POST|PUT|PATCH|DELETE) \/api\/v1\/[\w:/-]+/g) ?? [];
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((route) => !known.includes(route))).toEqual([]);
  });

  it('serves a page to read it', async () => {
    await test.http.get('/api/docs').expect(200).expect('content-type', /html/);
  });
});
