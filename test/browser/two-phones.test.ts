import { beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { complaintsOf, openContext } from '../support/open-browser.js';
import { signInOn } from '../support/sign-in-on.js';
import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import type { TestApp, TestPerson } from '../support/test-app.js';

const PHONE = { viewport: { width: 390, height: 844 }, ...AT_NOON };

/** Somebody's phone: a browser of its own. */
interface Phone {
  context: BrowserContext;
  page: Page;
  complaints: string[];
}

describe('two phones on one visit, in a browser', () => {
  const at = inBrowser(PHONE);
  let test: TestApp;
  let address: string;
  let ilvo: TestPerson;
  let sanna: TestPerson;
  let phones: [Phone, Phone];

  beforeAll(async () => {
    ({ test, address } = at);
    ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    sanna = await test.addPerson('technician', { name: 'Sanna Threlk' });
  });

  beforeEach(async () => {
    test.clock.catchUp();
    const context = await openContext(at.context.browser()!, PHONE);
    const page = await context.newPage();
    phones = [
      { context: at.context, page: at.page, complaints: [] },
      { context, page, complaints: complaintsOf(page) },
    ];
  });

  /** A ticket of a site of its own, with a visit of Ilvo's to it, today. */
  async function send() {
    const siteId = await drawSite(test, [row('A', 5)]);
    const said = (node: string, outcome: string) => {
      return { trunk: 'A', node, function: 'announcement', outcome };
    };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'gone-through',
        observations: [said('A1', 'works'), said('A4', 'fails')],
      })
      .expect(201);
    const { id, number } = body.tickets[0] as { id: string; number: number };
    const on = new Date().toISOString().slice(0, 10);
    const visit = { kind: 'call-out', on, purpose: 'Rooms silent', technicianId: ilvo.id };
    const confirmed = ['double-booked', 'outside-hours'];
    const { body: made } = await test.http
      .post('/api/v1/visits')
      .send({ siteId, ...visit, ticketIds: [id], confirmed })
      .expect(201);
    return { id, number, visitId: made.id as string };
  }

  const button = ({ page }: Phone, name: string) =>
    page.getByRole('button', { name, exact: true }).first();
  const says = ({ page }: Phone, words: string | RegExp) => page.getByText(words).first().waitFor();

  async function open(phone: Phone, who: TestPerson, number: number): Promise<void> {
    await signInOn(phone.page, `${address}/field`, who.email);
    await phone.page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
    await phone.page
      .getByRole('link', { name: new RegExp(`^${number}, `) })
      .first()
      .click();
    await button(phone, 'I have read this').click();
    await phone.page.locator('button.ending').first().waitFor();
  }

  async function hear(phone: Phone, number: number, node: string, heard: string): Promise<void> {
    const { page } = phone;
    await page.goto(`${address}/field/tickets/${number}/room?at=A/${node}`);
    await page.getByRole('radio', { name: 'Announcement' }).check();
    await button(phone, heard).click();
    await page.waitForURL(`${address}/field/tickets/${number}`);
  }

  async function note(phone: Phone, number: number, text: string): Promise<void> {
    const { page } = phone;
    await page.goto(`${address}/field/tickets/${number}/note`);
    await page.getByLabel('What should be known?').fill(text);
    await button(phone, 'Enter').click();
    await page.waitForURL(`${address}/field/tickets/${number}`);
  }

  const items = async (path: string) =>
    (await test.http.get(`/api/v1/${path}`).expect(200)).body.items;

  it('lose nothing and double nothing; each sees what the other entered, and who contradicts whom', async () => {
    const { id, number } = await send();
    const [one, other] = phones;
    await open(one, ilvo, number);
    await open(other, sanna, number);
    await Promise.all(phones.map(({ context }) => context.setOffline(true)));
    // The same, what contradicts it, and each something of their own.
    for (const phone of phones) await hear(phone, number, 'A3', 'heard');
    await hear(one, number, 'A2', 'silent');
    await hear(other, number, 'A2', 'heard');
    await hear(other, number, 'A5', 'silent');
    for (const phone of phones) await note(phone, number, 'The key is with the caretaker');
    await note(one, number, 'The lid of Room 2 is loose');
    await says(one, 'Waiting: 4');
    await says(other, 'Waiting: 4');
    await Promise.all(phones.map(({ context }) => context.setOffline(false)));
    for (const phone of phones) await says(phone, 'Waiting: 0');

    const heard = (await items(`tickets/${id}/observations`)) as Record<string, string>[];
    expect(
      heard
        .filter(({ saidBy }) => saidBy !== 'Mara Quill')
        .map(({ saidBy, node, outcome }) => `${saidBy}: ${node} ${outcome}`)
        .sort(),
    ).toEqual([
      'Ilvo Marsh: A2 fails',
      'Ilvo Marsh: A3 works',
      'Sanna Threlk: A2 works',
      'Sanna Threlk: A3 works',
      'Sanna Threlk: A5 fails',
    ]);
    const log = (await items(`tickets/${id}/log`)) as Record<string, never>[];
    const notes = log.filter(({ kind }) => kind === 'note');
    expect(notes.map(({ saidBy, details }) => `${saidBy}: ${details?.['note']}`).sort()).toEqual([
      'Ilvo Marsh: The key is with the caretaker',
      'Ilvo Marsh: The lid of Room 2 is loose',
      'Sanna Threlk: The key is with the caretaker',
    ]);

    const told = (phone: Phone) =>
      phone.page.locator('details', { hasText: 'What was said so far' });
    const ofTheKey = (phone: Phone) => told(phone).getByText(/^The key is with the caretaker/);
    for (const phone of phones) {
      // What a phone read while it sent tells of what it sent: that is there once all the same.
      await told(phone).locator('summary').click();
      expect([1, 2]).toContain(await ofTheKey(phone).count());
    }
    for (const phone of phones) {
      // The one that was done first may have read before the other told all.
      await phone.page.reload();
      await told(phone).locator('summary').click();
      await told(phone)
        .getByText(/^Room 5, .*silent Sanna Threlk/)
        .waitFor();
      await told(phone)
        .getByText(/^The lid of Room 2 is loose Ilvo Marsh/)
        .waitFor();
      await says(phone, /^Room 2, announcements: .*Ilvo Marsh.*Sanna Threlk/);
      await ofTheKey(phone).nth(1).waitFor();
      expect(await ofTheKey(phone).count()).toBe(2);
    }
    expect(phones.flatMap(({ complaints }) => complaints)).toEqual([]);
    await other.context.close();
  });

  it('of one person: what both said of the visit is once, and what only one did is kept', async () => {
    const { id, number, visitId } = await send();
    const [one, other] = phones;
    for (const phone of phones) await open(phone, ilvo, number);
    await Promise.all(phones.map(({ context }) => context.setOffline(true)));
    for (const phone of phones) await button(phone, 'I am here, begin').click();
    await says(one, 'Waiting: 2');
    await says(other, 'Waiting: 2');
    await note(other, number, 'The ladder is in the hall');
    await one.context.setOffline(false);
    await says(one, 'Waiting: 0');
    await other.context.setOffline(false);
    // Nothing is left to be settled by a person: it is so already.
    await says(other, 'Waiting: 0');
    const log = (await items(`tickets/${id}/log`)) as Record<string, never>[];
    expect(log.filter(({ kind }) => kind === 'move')).toHaveLength(1);
    expect(log.filter(({ kind }) => kind === 'note')).toHaveLength(1);
    const { body: visit } = await test.http.get(`/api/v1/visits/${visitId}`).expect(200);
    expect(visit.state).toBe('under-way');
    expect(phones.flatMap(({ complaints }) => complaints)).toEqual([]);
    await other.context.close();
  });
});
