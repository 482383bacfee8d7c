import { beforeEach, describe, expect, it } from '@jest/globals';
import type { Page } from 'playwright-core';
import { toString as toQrCode } from 'qrcode';

import { draw, drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { lookOver, takePicture } from '../support/look-over.js';
import { isMeasured } from '../support/open-browser.js';
import type { TestApp } from '../support/test-app.js';

/** Of each stack of parts of a ticket's page, where it begins, and where what is in it ends. */
const STACKS = `[...document.querySelectorAll('.ticket-parts > *')].map((stack) => {
  const { left, top } = stack.getBoundingClientRect();
  return { left, top, end: stack.lastElementChild.getBoundingClientRect().bottom };
})`;

describe('the record of a site and its tickets, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says, signIn } = at;
  let test: TestApp;
  let address: string;
  let page: Page;

  beforeEach(() => {
    ({ test, address, page } = at);
  });

  async function openTicket(silent: string) {
    const siteId = await drawSite(test, [row('A', 8)]);
    const said = (node: string, outcome: string) => {
      return { trunk: 'A', node, function: 'bell', outcome };
    };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'gone-through',
        observations: [said('A2', 'works'), said(silent, 'fails')],
      })
      .expect(201);
    return { siteId, number: body.tickets[0].number as number };
  }

  it('has a ticket go by the newer version, or says what would be lost by it', async () => {
    const { siteId, number } = await openTicket('A8');
    const redraw = (version: number, rooms: number) =>
      draw(test, { siteId, version, headEnd: {}, trunks: [row('A', rooms)] });
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await signIn(email, `/desk/tickets/${number}`);
    await heading('Why we think so');
    expect(await role('heading', 'The record was changed since').count()).toBe(0);

    await redraw(1, 7);
    await page.reload();
    await says('This ticket goes by version 1 of the record; the newest is version 2.');
    await role('button', 'Go by the newest version').click();
    await says('What was said of these would lose its place by the newer record: Room 8.');
    await lookOver(page, 'desk-ticket-newer-record', ['phone', 'desk']);

    await redraw(2, 9);
    await page.reload();
    await role('link', 'What changed').click();
    await heading(/^Versions of the record of/);
    expect(await page.getByLabel('From').inputValue()).toBe('1');
    expect(await page.getByLabel('To', { exact: true }).inputValue()).toBe('3');
    await says('Room 9 is new.');
    // Another pair has its own address, and Back leads away from it.
    await page.getByLabel('From').selectOption('2');
    await says('Room 8 is new.');
    expect(page.url()).toMatch(/\?from=2&to=3$/);
    await page.goBack();
    await says('the newest is version 3.');
    await role('button', 'Go by the newest version').focus();
    await page.keyboard.press('Enter');
    await says('Bea Orne had the ticket go by a newer version of the record');
    await role('button', /^Room 9: /).waitFor();
    expect(await role('heading', 'The record was changed since').count()).toBe(0);
  });

  it('has no hole in the parts of a ticket’s page, however wide it is', async () => {
    const { number } = await openTicket('A5');
    await signIn(test.owner.email, `/desk/tickets/${number}`);
    await heading('Why we think so');
    for (const width of [1024, 1280, 1600]) {
      await page.setViewportSize({ width, height: 900 });
      await isMeasured(page);
      await takePicture(page, `desk-ticket-${width}`);
      const stacks = await page.evaluate<Record<'left' | 'top' | 'end', number>[]>(STACKS);
      const [one, other] = stacks;
      expect(stacks).toHaveLength(2);
      expect(other!.left).toBeGreaterThan(one!.left + 400);
      expect(other!.top).toBe(one!.top);
      const [least, most] = stacks.map(({ end, top }) => end - top).sort((a, b) => a - b);
      expect(least! / most!).toBeGreaterThan(0.7);
    }
  });

  it('takes the figures of the head-end by hand, and keeps what was typed while another saved', async () => {
    const { siteId } = await openTicket('A4');
    await signIn(test.owner.email, `/desk/sites/${siteId}`);
    await heading('The head-end');
    await page.getByText('Change its figures').click();
    await page.getByLabel('Supply, volts').fill('24 V');
    await page.getByLabel('Supply, ohms inside').fill('0,25');
    await page.getByLabel('Model', { exact: true }).fill('HE-6');
    await role('button', 'Save as one new version').click();
    await says('Please give a number, such as 24 or 0.2.');
    expect(await page.locator(':focus').inputValue()).toBe('24 V');
    await page.getByLabel('Supply, volts').fill('2400');
    await role('button', 'Save as one new version').click();
    await says(/^Must be a number of volts, more than 0 and at most 1000/);
    const why = page.locator('details', { hasText: 'Change its figures' }).getByLabel('Why');
    expect(await why.getAttribute('aria-invalid')).toBe('true');
    await lookOver(page, 'desk-site-head-end', ['phone', 'desk']);

    await page.getByLabel('Supply, volts').fill('24');
    await why.fill('Read off its plate');
    await draw(test, { siteId, version: 1, headEnd: { place: 'Office' }, trunks: [row('A', 9)] });
    await page.reload();
    expect(await page.getByLabel('Supply, volts').inputValue()).toBe('24');
    await role('button', 'Save as one new version').click();
    await says('Saved as version 3.');
    const { body } = await test.http.get(`/api/v1/sites/${siteId}/as-built`).expect(200);
    expect(body.headEnd).toMatchObject({
      model: 'HE-6',
      place: 'Office',
      supplyVolts: 24,
      supplyOhms: 0.25,
    });
    expect(body.trunks[0].nodes).toHaveLength(9);
    await page.goto(`${address}/desk/sites/${siteId}/versions`);
    await says('The head-end, volts of the supply: – → 24');
  });

  it('prints the plan and a label for each room, whose code opens that room', async () => {
    const { siteId } = await openTicket('A6');
    await signIn(test.owner.email, `/desk/sites/${siteId}`);
    await role('link', 'Print plan and room labels').click();
    await heading('Larkfield Lower School');
    await page.locator('.cable', { hasText: 'Room 8' }).waitFor();
    await page.emulateMedia({ media: 'print' });
    // An A4 sheet within its margins.
    await page.setViewportSize({ width: 680, height: 960 });
    expect(await role('button', 'Print').isVisible()).toBe(false);
    expect(await role('navigation', 'Desk').isVisible()).toBe(false);
    expect(await page.locator('.cable svg').isVisible()).toBe(true);
    await takePicture(page, 'desk-print-plan');
    await page.emulateMedia({ media: 'screen' });

    await page.getByLabel('What to print').selectOption('a label for each room');
    const label = page.getByRole('listitem').filter({ hasText: 'Room 7' });
    await says('A A7', label);
    const src = (await label.locator('img').getAttribute('src'))!;
    const path = `/field/at/${siteId}/A/A7`;
    // As the service was told that people reach it, not as the page was opened.
    const link = `http://localhost${path}`;
    await says(`its code opens that room at http://localhost`);
    const expected = await toQrCode(link, { type: 'svg', margin: 2 });
    expect(decodeURIComponent(src.replace('data:image/svg+xml,', ''))).toBe(expected);
    expect(await page.locator('.labels img').count()).toBe(8);
    await lookOver(page, 'desk-print-labels', ['phone', 'desk']);
    await page.goto(`${address}${path}`);
    await heading('A7');
  });
});
