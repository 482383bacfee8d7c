import { beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import type { TestApp, TestPerson } from '../support/test-app.js';

const PHONE = { viewport: { width: 390, height: 844 }, ...AT_NOON };

describe('what was entered in the field and is to be changed, in a browser', () => {
  const at = inBrowser(PHONE);
  let test: TestApp;
  let technician: TestPerson;
  let context: BrowserContext;
  let page: Page;

  beforeAll(async () => {
    ({ test } = at);
    technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
  });

  beforeEach(() => {
    test.clock.catchUp();
    ({ context, page } = at);
  });

  const role = (kind: Parameters<Page['getByRole']>[0], name: string | RegExp) =>
    at.role(kind, name).first();

  /** A ticket of a site of its own that nobody was sent to. */
  async function open(): Promise<{ id: string; number: number; home: string }> {
    const siteId = await drawSite(test, [row('A', 3)]);
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    const { id, number } = body.tickets[0] as { id: string; number: number };
    await at.signIn(technician.email, '/field');
    await at.openJob(number);
    return { id, number, home: `${at.address}/field/tickets/${number}` };
  }

  /** The service refuses the next one that is sent there. */
  async function refuseOnce(path: string, errors: object[]): Promise<void> {
    let refusals = 1;
    await context.route(path, async (asked) => {
      if (asked.request().method() !== 'POST' || refusals-- <= 0) return asked.continue();
      await asked.fulfill({ status: 422, json: { detail: 'One thing is wrong.', errors } });
    });
  }

  it('a room of a walk test: refused by the service, and touched wrongly', async () => {
    const { id, home } = await open();
    await page.goto(`${home}/walk-test`);
    await at.heading('Room 1');
    await refuseOnce('**/api/v1/tickets/*/walk-tests', [
      { field: '/observations/0/node', reason: 'there is no A1 on trunk A' },
    ]);
    await role('button', 'heard').click();
    await role('link', 'One entry was refused: please settle it').click();
    await role('link', 'Change it').click();
    await at.says('There is no A1 on trunk A.');
    expect(await page.getByLabel('Which room?').inputValue()).toBe('A/A1');
    await page.getByLabel('Which room?').selectOption('A/A2');
    await role('button', 'heard').click();
    // Back in the walk test: the second room is heard, the first is still to be tried.
    await page.waitForURL(`${home}/walk-test`);
    await at.heading('Room 1');
    await at.says('1 of 3 tried');
    await role('button', 'silent').click();
    await at.heading('Room 3');
    await role('button', 'Once more: Room 1').click();
    await at.heading('Room 1');
    await role('button', 'heard').click();
    await at.heading('Room 3');
    await lookOver(page, 'field-walk-test-again', ['phone']);
    await role('button', 'heard').click();
    await at.heading('Everything that was tried is heard');
    await at.says('Waiting: 0');
    const { body } = await test.http.get(`/api/v1/tickets/${id}/observations`).expect(200);
    const tried = (body.items as Record<string, string>[]).filter(
      ({ saidBy }) => saidBy === 'Ilvo Marsh',
    );
    expect(tried.map(({ node, outcome }) => `${node} ${outcome}`)).toEqual([
      'A2 works',
      'A1 fails',
      'A1 works',
      'A3 works',
    ]);
  });

  it('a ticket that is taken on: on the day that it is at the site, which need not be that of the phone', async () => {
    // Where it is yesterday already, or tomorrow.
    const zone = new Date().getUTCHours() < 12 ? 'Etc/GMT+12' : 'Etc/GMT-14';
    await at.leave();
    await at.open({ ...PHONE, timezoneId: zone });
    ({ context, page } = at);
    const { id } = await open();
    const confirmed: unknown[] = [];
    await context.route('**/api/v1/visits', async (asked) => {
      const body = asked.request().postDataJSON() as Record<string, unknown> | null;
      confirmed.push(body?.['confirmed']);
      await asked.continue();
    });
    const day = () => new Date().toISOString().slice(0, 10);
    const before = day();
    await context.setOffline(true);
    await role('button', 'I take it: I am going there').click();
    await at.says('Waiting: 1');
    const days = [before, day()];
    await context.setOffline(false);
    await at.says('Waiting: 0');
    const { body } = await test.http.get(`/api/v1/visits?ticket=${id}`).expect(200);
    expect(body.items).toHaveLength(1);
    expect(days).toContain(body.items[0].on);
    // It may come tomorrow only.
    expect(confirmed.at(-1)).toContain('in-the-past');
  });

  it('a ticket that was taken on', async () => {
    const { id, home } = await open();
    await refuseOnce('**/api/v1/visits', [{ field: '/on', reason: 'is in the past' }]);
    await role('button', 'I take it: I am going there').click();
    await role('link', 'One entry was refused: please settle it').click();
    await at.says('On which day?');
    await role('link', 'Change it').click();
    await at.heading('I take it: I am going there');
    await at.says('Is in the past.');
    await lookOver(page, 'field-take', ['phone']);
    const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
    await page.getByLabel('On which day?').fill(tomorrow);
    await page.getByLabel('What for?').fill('The bell of Room 3');
    await role('button', 'Enter').click();
    await page.waitForURL(home);
    await at.says('Waiting: 0');
    const { body } = await test.http.get(`/api/v1/visits?ticket=${id}`).expect(200);
    expect(body.items).toMatchObject([
      { kind: 'call-out', on: tomorrow, purpose: 'The bell of Room 3' },
    ]);
  });
});
