import { beforeAll, describe, expect, it } from '@jest/globals';

import { CuttingProxy } from '../support/cutting-proxy.js';
import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { signInOn } from '../support/sign-in-on.js';
import { onSlowPhone } from '../support/slow-phone.js';
import type { TestApp } from '../support/test-app.js';

const PHONE = { viewport: { width: 390, height: 844 }, ...AT_NOON };

describe('the pages with a bad signal, in a browser', () => {
  const at = inBrowser(PHONE);
  let test: TestApp;
  let siteId: string;

  beforeAll(async () => {
    ({ test } = at);
    siteId = await drawSite(test, [row('A', 40)]);
  });

  it('ask little before an office can use its page', async () => {
    const { body } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    const link = new URL(body.link as string);
    const asked = await onSlowPhone(at.page);
    await at.page.goto(`${at.address}${link.pathname}${link.hash}`);
    await at.page
      .getByRole('button', { name: /^Room 40 / })
      .first()
      .waitFor();
    // The page, its style sheets and scripts, the sitting that the link opens, and what stands on the page.
    expect(asked.paths.filter((path) => !path.startsWith('/assets/')).sort()).toEqual([
      '/api/v1/pass/session',
      '/api/v1/pass/site',
      '/pass',
    ]);
    expect(asked.paths.length).toBeLessThanOrEqual(20);
    expect(asked.bytes()).toBeLessThan(75_000);
  });

  it('take an answer that ends in its middle for none, and lose and double nothing', async () => {
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    const { id, number } = body.tickets[0] as { id: string; number: number };
    test.clock.catchUp();
    const proxy = new CuttingProxy();
    const address = await proxy.before(at.address);
    await signInOn(at.page, `${address}/field`, technician.email);
    await at.page
      .getByRole('link', { name: new RegExp(`^${number}, `) })
      .first()
      .click();
    await at.page.getByRole('button', { name: 'I have read this' }).click();
    await at.page.locator('button.ending').first().waitFor();
    const noteIsCut = proxy.cutNext('POST', /\/notes$/);
    void proxy.cutNext('GET', /\/desk$/);
    void proxy.cutNext('GET', /\/kit$/);
    await at.page.goto(`${address}/field/tickets/${number}/note`);
    await at.page.getByLabel('What should be known?').fill('The key is with the caretaker');
    await at.page.getByRole('button', { name: 'Enter' }).click();
    // It waits then, if only for a moment: the app has told already that something changed.
    await noteIsCut;
    await at.says('Waiting: 0');
    expect(proxy.cut).toContain(`POST /api/v1/tickets/${id}/notes`);
    expect(proxy.cut).toContain('GET /api/v1/desk');
    const { body: log } = await test.http.get(`/api/v1/tickets/${id}/log`).expect(200);
    expect(log.items.filter(({ kind }: { kind: string }) => kind === 'note')).toHaveLength(1);
    // What was read before is still shown.
    await at.page.locator('h1.next-words').waitFor();
    await at.page.close();
    await proxy.close();
  });
});
