import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { lookOver } from '../support/look-over.js';
import { openBrowser } from '../support/open-browser.js';
import { buildTestApp, PASSWORD, type TestApp } from '../support/test-app.js';

const SUPPLY = { supplyVolts: 24, supplyOhms: 0.2, stationAmps: 0.02, coreOhmsPerKm: 18.1 };

describe('what was learned, on the desk, in a browser', () => {
  let test: TestApp;
  let browser: Browser;
  let address: string;
  let context: BrowserContext;
  let page: Page;
  let complaints: string[];

  beforeAll(async () => {
    test = await buildTestApp();
    await test.app.listen(0, '127.0.0.1');
    address = (await test.app.getUrl()).replace('localhost', '127.0.0.1');
    browser = await openBrowser();
  });

  afterAll(async () => {
    await browser?.close();
    await test?.close();
  });

  beforeEach(async () => {
    context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    page = await context.newPage();
    complaints = [];
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => {
      const isRefusal = message.text().startsWith('Failed to load resource');
      if (message.type() === 'error' && !isRefusal) complaints.push(message.text());
    });
  });

  afterEach(async () => {
    await context.close();
    expect(complaints).toEqual([]);
  });

  const role = (kind: Parameters<Page['getByRole']>[0], name: string | RegExp) =>
    page.getByRole(kind, { name });
  const heading = (name: string | RegExp) => role('heading', name).first().waitFor();
  const says = (words: string | RegExp, within: Page | Locator = page) =>
    within.getByText(words).first().waitFor();

  async function signIn(to: string): Promise<void> {
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await page.goto(`${address}${to}`);
    await role('link', 'Sign in').click();
    await page.getByLabel('E-mail').fill(email);
    await page.getByLabel('Password').fill(PASSWORD);
    await role('button', 'Sign in').click();
    await page.waitForURL(`${address}${to}`);
  }

  type Said = [node: string, outcome: 'works' | 'fails', by?: string];

  async function report(siteId: string, said: Said[], name = 'Mara Quill'): Promise<number> {
    const observations = said.map(([node, outcome]) => {
      return { trunk: 'A', node, function: 'announcement', outcome };
    });
    const saidBy = { name, kind: 'office' };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    return body.tickets[0].number as number;
  }

  it('takes readings, looks and what came back with cable off, and takes each back with a reason', async () => {
    const first = { ...row('A', 12).nodes[3]!, groups: ['upper floor'] };
    const nodes = row('A', 12).nodes.map((node, i) => (i === 3 ? first : node));
    const siteId = await drawSite(test, [{ trunk: 'A', nodes }], SUPPLY);
    const number = await report(siteId, [
      ['A4', 'works'],
      ['A9', 'fails'],
    ]);
    await signIn(`/desk/tickets/${number}`);
    await heading('What was learned');
    await says('Room 9: announcement silent', page.locator('.learned'));

    const form = (summary: string) => page.locator('details', { hasText: summary }).last();
    const reading = form('A reading off a meter');
    await reading.locator('summary').click();
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await says('Please say where.', reading);
    await says('Please give the number that the meter shows, such as 18.2.', reading);
    await says('Please say who says so.', reading);
    await reading.getByLabel('Where').selectOption('A/A8');
    // What the service alone can know is wrong is said at its field too.
    await reading.getByLabel('What the meter shows, V').fill('2300');
    await reading.getByLabel('Who says so').fill('Ilvo Marsh');
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await reading.locator('[aria-invalid=true]').waitFor();
    expect(await reading.locator('[aria-invalid=true]').inputValue()).toBe('2300');
    await reading.getByLabel('What the meter shows, V').fill('22,6');
    await reading.getByLabel('How uncertain, ± V').fill('0.2');
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await says('Entered: Supply voltage at a place');
    await says('Supply at Room 8: 22.6 V ± 0.2 V');

    await reading.getByLabel('What was measured').selectOption('continuity');
    await reading.getByLabel('To', { exact: true }).selectOption('A/A4');
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await says('Core supply, return from the head-end to Room 4: gets through');

    const look = form('A part was looked at');
    await look.locator('summary').click();
    await look.getByLabel('Who that is').selectOption('office');
    await look.getByLabel('Where').selectOption('A/A9');
    expect(await look.getByLabel('Which part').locator('option').allTextContents()).toEqual([
      'Please choose',
      'the station in Room 9 on trunk A',
      'the volume of the unit',
      'its setting for the bell',
      'its setting for announcements',
      'its setting for music',
    ]);
    await look.getByLabel('Where').selectOption('');
    const ofGroup = 'the group “upper floor” switched off at the head-end';
    await look.getByLabel('Which part').selectOption(ofGroup);
    await look.getByRole('button', { name: 'Enter it' }).click();
    await says(`Entered: ${ofGroup}: sound`);
    await look.getByLabel('Who that is').selectOption('technician');
    await look.getByLabel('Where').selectOption('A/A6');
    await look.getByLabel('Which part').selectOption({ label: 'terminals at Room 6 IN' });
    await look.getByLabel('How it was found').selectOption('sound');
    await look.getByRole('button', { name: 'Enter it' }).click();
    await says('terminals at Room 6 IN: sound');

    const off = form('Cable was taken off, and somebody listened');
    await off.locator('summary').click();
    await off.getByLabel('Cable taken off after').selectOption('A/A6');
    await off.getByLabel('Where somebody listened').selectOption('A/A5');
    await off.getByLabel('What was tried').selectOption('announcement');
    await off.getByRole('button', { name: 'Enter it' }).click();
    await says(/^Room 5: announcement heard, with the cable off after Room 6/);
    await lookOver(page, 'desk-ticket-learned', ['phone', 'desk']);

    const item = page.locator('.learned > li', { hasText: 'Supply at Room 8' });
    await item.locator('summary').click();
    await item.getByRole('button', { name: 'Take back' }).click();
    await item.locator('[aria-invalid=true]').waitFor();
    await item.getByLabel('Why?').fill('Read in Room 7');
    await item.getByRole('button', { name: 'Take back' }).click();
    await says(/^Taken back by Bea Orne, .*: Read in Room 7$/, item);
    expect(await item.locator('summary').count()).toBe(0);
    const taken = page.locator('.learned > li', { hasText: 'terminals at Room 6 IN' });
    await taken.locator('summary').click();
    await taken.getByLabel('Why?').fill('It was Room 7');
    await taken.getByRole('button', { name: 'Take back' }).click();
    await says(/^Taken back by Bea Orne/, taken);
    const heard = page.locator('.learned > li', { hasText: 'with the cable off after Room 6' });
    await heard.locator('summary').click();
    await heard.getByLabel('Why?').fill('The cable was on');
    await heard.getByRole('button', { name: 'Take back' }).click();
    await says(/^Taken back by Bea Orne/, heard);
    await says(/Ilvo Marsh read off a meter\. Supply at Room 8: 22\.6 V ± 0\.2 V/);
  });
});
