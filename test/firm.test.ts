import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { AccessSettings, DEFAULT_LIMITS } from '#app/access/access-settings.js';
import { PublicAddressController } from '#app/access/public-address.controller.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, SEAL_KEY, type TestApp } from './support/test-app.js';

describe('how a firm is known to its clients', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp();
  });

  afterAll(() => test.close());

  const change = (version: number, patch: object) =>
    test.http.patch('/api/v1/firm').set('If-Match', `"${version}"`).send(patch);

  it('knows where people reach the service, or that nobody has said so', async () => {
    const { body } = await test.http.get('/api/v1/public-address').expect(200);
    expect(body).toEqual({ address: 'http://localhost' });
    const technician = await test.addPerson('technician');
    await technician.http.get('/api/v1/public-address').expect(200);
    await test.browser().get('/api/v1/public-address').expect(401);
    const settings = new AccessSettings(() => 'http://127.0.0.1:3000', DEFAULT_LIMITS, SEAL_KEY);
    expect(new PublicAddressController(settings).get()).toEqual({ address: null });
  });

  it('is changed by an owner, once of two at once, and told behind a pass', async () => {
    const { body: firm } = await test.http.get('/api/v1/firm').expect(200);
    expect(firm).toEqual({ name: 'Test firm', phone: null, version: 1 });
    const technician = await test.addPerson('technician');
    await technician.http.get('/api/v1/firm').expect(200);
    const asked = technician.http.patch('/api/v1/firm').set('If-Match', '"1"');
    await asked.send({ phone: '0555 0100' }).expect(403);
    const wrong = await change(1, { name: '', phone: '5'.repeat(200) }).expect(422);
    expect(wrong.body.errors.map(({ field }: { field: string }) => field)).toEqual(
      expect.arrayContaining(['/name', '/phone']),
    );
    const both = await Promise.all([
      change(1, { phone: '0555 0100' }),
      change(1, { phone: '0555 0100' }),
    ]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 412]);
    const stranger = await test.addStranger();
    const { body: others } = await stranger.http.get('/api/v1/firm').expect(200);
    expect(others).toMatchObject({ phone: null, version: 1 });

    const siteId = await drawSite(test, [row('A', 3)]);
    const { body: pass } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const office = test.browser();
    const secret = pass.link.split('#')[1];
    await office.post('/api/v1/pass/session').send({ pass: secret }).expect(200);
    const { body: site } = await office.get('/api/v1/pass/site');
    expect(site.firm).toEqual({ name: 'Test firm', phone: '0555 0100' });
  });
});
