import { readdirSync } from 'node:fs';

import { beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import type { TestApp } from '../support/test-app.js';

const tees = {
  trunk: 'A',
  nodes: [
    ...row('A', 22).nodes,
    { node: 'J1', kind: 'junction-box' as const, fedFrom: 'A6', cableMetres: 4 },
    { node: 'S1', fedFrom: 'J1', cableMetres: 8, room: 'Gymnasium' },
    { node: 'S2', fedFrom: 'S1', cableMetres: 8, room: 'Caretaker' },
  ],
};

describe('the desk, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says, signIn } = at;
  let test: TestApp;
  let address: string;
  let siteId: string;
  let context: BrowserContext;
  let page: Page;

  beforeEach(() => {
    ({ test, address, context, page } = at);
  });

  beforeAll(async () => {
    siteId = await drawSite(at.test, [tees, row('B', 3)]);
  });

  async function report(said: [node: string, outcome: string][]): Promise<number> {
    const observations = said.map(([node, outcome]) => {
      const trunk = node[0] === 'B' ? 'B' : 'A';
      return { trunk, node, function: 'bell', outcome };
    });
    const saidBy = { name: 'Mara Quill', kind: 'office' };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    return body.tickets[0].number as number;
  }

  it('takes a call, shows what is silent, why, what if, and sends somebody', async () => {
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await test.addPerson('technician', { name: 'Ilvo Marsh' });
    await signIn(email, '/desk');
    await heading('Silent now');
    await says('Nothing is silent.');
    await lookOver(page, 'desk-empty', ['phone', 'desk']);

    await role('link', 'Take a call').click();
    await page.getByLabel('Which site?').fill('lower lark');
    await role('link', /Larkfield Lower School/).waitFor();
    await page.keyboard.press('Enter');
    await heading('Larkfield Lower School');
    await role('button', 'Send').click();
    await says('Please say what they tried.');
    await role('radio', 'Bell').check();
    await role('button', 'Room 9: nothing said.').first().click();
    await role('button', 'Room 10: nothing said.').click();
    // By keys: along the cable, and a letter.
    await role('button', 'Room 5: nothing said.').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('h');
    await role('button', 'Room 6: heard.').waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    expect(await page.locator(':focus').getAttribute('aria-label')).toBe(
      'Gymnasium: nothing said.',
    );
    await page.keyboard.press('w');
    await page.keyboard.press('Backspace');
    await page.keyboard.press('ArrowUp');
    expect(await page.locator(':focus').getAttribute('aria-label')).toBe('Room 6: heard.');
    await says('2 silent, 1 heard, 0 weak');
    await page.reload();
    await says('2 silent, 1 heard, 0 weak');
    await page.getByLabel('Who is ringing?').fill('Mara Quill');
    await lookOver(page, 'desk-call', ['phone', 'desk']);
    await role('button', 'Send').click();
    await heading('It is taken');
    await says('It is a new ticket.');
    await lookOver(page, 'desk-call-taken', ['phone', 'desk']);

    await role('link', 'Silent now').click();
    await says('1 ticket is open');
    await says('Nobody goes yet');
    await lookOver(page, 'desk-now', ['phone', 'desk']);
    await role('link', /^Larkfield Lower School/).click();
    await heading(/^Larkfield Lower School/);
    await says(/^First: /);
    await says('The causes add up to 100 %.');
    await heading('Before anybody opens anything');
    await says(/prove dead/);
    const percents = await page
      .locator('section:has(h2:text("Why we think so")) td')
      .allTextContents();
    expect(percents.reduce((sum, text) => sum + parseInt(text, 10), 0)).toBe(100);
    await lookOver(page, 'desk-ticket', ['phone', 'desk']);

    await role('button', /^Room 8: nothing said/).click();
    await heading('Room 8');
    await role('group', /^What if\?/)
      .getByRole('button', { name: 'silent' })
      .click();
    await says('Supposed only: nothing was recorded.');
    await says(/ % → /);
    await lookOver(page, 'desk-ticket-suppose', ['phone', 'desk']);
    await role('button', 'Ask for this check').click();
    await says('Bea Orne noted. Please check: bell in Room 8');
    await role('button', 'Stop supposing').click();

    await page.keyboard.press('Escape');
    await role('button', 'Show as a table').click();
    await role('columnheader', 'Cable at fault').first().waitFor();
    await lookOver(page, 'desk-ticket-table', ['phone', 'desk']);
    await role('button', 'Show the drawing').click();

    await page.getByText('Send somebody').click();
    await page.getByLabel('Who goes').selectOption('Ilvo Marsh');
    await page.getByLabel('On which day').fill('2026-03-03');
    await page.getByLabel(/^Why somebody must go/).fill('The school is closed');
    await role('button', 'Send').click();
    await says(/^Tue 3 Mar(?: 2026)?: Ilvo Marsh, planned/);
    await says('somebody must go');

    // A new report appears by itself, and is announced.
    await role('link', 'Silent now').click();
    await says('Ilvo Marsh, Tue 3 Mar');
    const number = await report([['B2', 'fails']]);
    await page.evaluate('document.dispatchEvent(new Event("visibilitychange"))');
    await says('1 new ticket');
    expect(await page.title()).toBe('(1 new ticket) Silent now');
    await page.goto(`${address}/desk/tickets/${number}`);
    await page.getByText('Join to another ticket').click();
    const other = page.getByLabel('The ticket of the same fault');
    await other.selectOption({ index: 1 });
    await page.getByText('Split', { exact: true }).click();
    const apart = page.getByRole('checkbox', { name: /bell/i });
    await apart.check();
    // Both are there after a reload, and ringed on the drawing.
    await page.reload();
    expect(await apart.isChecked()).toBe(true);
    expect(await other.inputValue()).not.toBe('');
    await apart.uncheck();
    await role('button', 'Join them').click();
    await says('joined to another ticket');
  });

  it('answers in the page what the service answers, to the last digit', async () => {
    const number = await report([
      ['A2', 'works'],
      ['A9', 'fails'],
      ['S1', 'fails'],
    ]);
    const { body: list } = await test.http.get(`/api/v1/tickets?number=${number}`).expect(200);
    const at = `/api/v1/tickets/${list.items[0].id}`;
    const { body: kit } = await test.http.get(`${at}/kit`).expect(200);
    const { body: location } = await test.http.get(`${at}/location`).expect(200);
    const assets = readdirSync(new URL('../../dist/web/assets', import.meta.url));
    const worker = assets.find((name) => /^kit-worker-.*\.js$/.test(name))!;
    await page.goto(`${address}/sign-in`);
    const asked = JSON.stringify({ id: 1, kit, explanations: 10 });
    const answer = await page.evaluate(`new Promise((resolve) => {
      const thread = new Worker('/assets/${worker}', { type: 'module' });
      thread.onmessage = ({ data }) => resolve(data.result);
      thread.postMessage(${asked});
    })`);
    expect(answer).toEqual(location.result);
  });

  it('says what to do where there is nothing, no session, or no service', async () => {
    const { email } = await test.addPerson('dispatcher');
    await signIn(email, '/desk/tickets/999999');
    await heading('There is nothing here');
    await page.goto(`${address}/desk/nowhere`);
    await heading('There is nothing here');
    await page.route('**/api/v1/desk', (route) => route.abort());
    await role('link', 'What is silent now').click();
    await heading('This did not work just now');
    await lookOver(page, 'desk-failed', ['phone', 'desk']);
    await page.unroute('**/api/v1/desk');
    await role('button', 'Try again').click();
    await heading('Silent now');
    // What is silent is read again and again, and would be told of it before the touch; the sites are not.
    await role('link', 'Sites').click();
    await heading('Sites');
    await context.clearCookies();
    await role('link', 'Take a call').click();
    await heading('Your session is over');
    await lookOver(page, 'desk-session-over', ['phone', 'desk']);
    expect(await role('link', 'Sign in').getAttribute('href')).toBe('/sign-in?to=%2Fdesk%2Fcall');
  });

  it('lets the owner add a site, import its sheet with errors in place, print a poster, and invite', async () => {
    await signIn(test.owner.email, '/desk/sites');
    await heading('Sites');
    await page.getByText('Add a site').click();
    await page.getByLabel('Name').fill('Sluice Works');
    await page.getByLabel('A client that is not in the list').last().fill('Orrin Vale Works');
    await page.getByLabel(/^Time zone/).fill('Europe/Lisbon');
    await role('button', 'Add it').click();
    await heading('Sluice Works');
    await says('Nothing is drawn yet.');
    await role('button', 'Check it').click();
    await says('Please choose the sheet’s file.');
    const choose = (text: string) =>
      page
        .getByLabel('The file')
        .setInputFiles({ name: 'sheet.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await choose('trunk,node,cable metres,room\nA,A1,12,Gate\nA,A2,-4,Hall\n');
    await role('button', 'Check it').click();
    await says('One thing is wrong; nothing was saved.');
    await role('cell', '-4').waitFor();
    await lookOver(page, 'desk-site-sheet-wrong', ['phone', 'desk']);
    await choose('trunk,node,cable metres,room\nA,A1,12,Gate\nA,A2,4,Hall\n');
    // A browser gives no file back after a reload: the page does.
    await says('Chosen: sheet.csv');
    await page.reload();
    await says('Chosen: sheet.csv');
    await role('button', 'Check it').click();
    await says(/^It fits\./);
    await page.getByLabel('Why it changes').fill('Sheet of the installer');
    await role('button', 'Save it as the new record').click();
    await role('button', 'Hall: nothing said.').click();
    await says('A2; 4 m');
    await lookOver(page, 'desk-site', ['phone', 'desk']);

    await role('link', 'Make a poster').click();
    await page.getByLabel(/^The telephone number/).fill('0555 0199');
    await role('button', 'Make it').click();
    await says('The code is shown this once');
    await says('Or ring: 0555 0199');
    await lookOver(page, 'desk-poster', ['phone', 'desk']);
    await page.emulateMedia({ media: 'print' });
    expect(await role('button', 'Print').isVisible()).toBe(false);
    expect(await page.locator('.poster').isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
    await role('link', 'Back to the site').click();
    await role('button', 'End this poster').click();
    await says('ended');

    await role('link', 'The firm').click();
    await heading('The firm');
    await page.getByLabel(/^The telephone number that offices/).fill('0555 0100');
    await role('button', 'Save it').click();
    await says('It is saved.');
    await page.getByText('Invite somebody').click();
    await role('button', 'Send the invitation').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    await page.getByLabel('Name', { exact: true }).fill('Runa Feld');
    await page.getByLabel('E-mail').fill('runa.feld@firm.example');
    await role('button', 'Send the invitation').click();
    await says('The invitation is on its way.');
    await says(/runa\.feld@firm\.example/);
    await lookOver(page, 'desk-firm', ['phone', 'desk']);
  });
});
