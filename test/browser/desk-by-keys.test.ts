import { beforeEach, describe, expect, it } from '@jest/globals';
import type { Page } from 'playwright-core';

import { TROUBLE_CLASSES } from '#app/contracts/class-of-trouble.js';
import { JobService } from '#app/jobs/job.service.js';

import { ByKeys } from '../support/by-keys.js';
import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { takePicture } from '../support/look-over.js';
import { PASSWORD, type TestApp } from '../support/test-app.js';

/** The clock stands at Monday, 2 March 2026, 08:00. Nothing here is clicked: whatever is done is done by keys. */
describe('the desk without a mouse, in a browser', () => {
  const at = inBrowser({ ...DESK_SCREEN, locale: 'en-GB', reducedMotion: 'reduce' });
  const { says, post } = at;
  let test: TestApp;
  let page: Page;
  let keys: ByKeys;

  beforeEach(() => {
    ({ test, page } = at);
    keys = new ByKeys(page);
  });

  async function signIn(email: string, path: string): Promise<void> {
    await page.goto(`${at.address}${path}`);
    await says('Please sign in');
    await keys.press('Sign in');
    await keys.lands(/^Sign in to/);
    await keys.type('E-mail', email);
    await keys.type('Password', PASSWORD);
    await page.keyboard.press('Enter');
    await page.waitForURL(`${at.address}${path}`);
  }

  it('takes a call, sends somebody and books a visit', async () => {
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await test.addPerson('technician', { name: 'Ilvo Marsh' });
    await drawSite(test, [row('A', 6)]);
    await signIn(email, '/desk');
    await says('Nothing is silent.');

    await keys.press('Take a call');
    await keys.lands('Which site?');
    await keys.type('Which site?', 'lower lark');
    await keys.press(/^Larkfield Lower School/);
    await keys.lands('Larkfield Lower School');
    // What is lacking is said where it is to be filled in.
    await keys.press('Send');
    await keys.lands('Announcement');
    await keys.pick(/^Announcement$/, 'Bell');
    await keys.to('Room 1: nothing said.');
    for (let room = 1; room < 4; room += 1) await page.keyboard.press('ArrowRight');
    await keys.lands('Room 4: nothing said.');
    await page.keyboard.press('s');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('h');
    await says('1 silent, 1 heard, 0 weak');
    await keys.type('Who is ringing?', 'Mara Quill');
    await keys.press('Send');
    await keys.lands('It is taken');
    await keys.press(/^Ticket \d+$/);
    await keys.lands(/^Larkfield Lower School/);

    await keys.press('Send somebody');
    await keys.type('Who goes', 'Ilvo');
    await keys.type('On which day', '03032026');
    await keys.type('From (you need not)', '0900');
    await keys.type('To (you need not)', '1030');
    await keys.type(/^Why somebody must go/, 'The school is closed');
    await keys.press('Send');
    await says(/^Tue 3 Mar(?: 2026)?.*: Ilvo Marsh, planned/);
    // Whoever sent somebody is not thrown back to the top of the page.
    expect(await page.evaluate('document.activeElement === document.body')).toBe(false);

    await keys.press('Close the ticket');
    await page.keyboard.press('Tab');
    await keys.press('Close the ticket');
    await says(/or give a reason/);
    await keys.to(/^Why it is closed/, 'Shift+Tab');
    await page.keyboard.type('It was the wrong school');
    await keys.press('Close the ticket');
    await says(/told by Mara Quill; closed$/);
    expect(await page.getByText(/^First: /).count()).toBe(0);

    await page.goto(`${at.address}/desk/visits/new`);
    await keys.type('Which site', 'Larkfield');
    await keys.type('On which day', '03042026');
    await keys.type('Who goes', 'Ilvo');
    await keys.press('Book it');
    await keys.lands(/^The visit is booked/);
    await keys.press('That day');
    await keys.lands(/^Wed 4 Mar/);
  });

  it('makes a contract, answers for a promise that was not kept, and reads the year', async () => {
    const { email } = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    const site = await drawSite(test, [row('A', 3)]);
    const name = 'Sluice Works';
    const patch = (path: string, body: object) =>
      test.http.patch(`/api/v1/${path}`).set('If-Match', '"1"').send(body).expect(200);
    const { clientId } = (await patch(`sites/${site}`, { name })).body;
    await patch(`clients/${clientId}`, { name: 'Weir Board' });
    await signIn(email, '/desk/contracts');
    await keys.press('Make a contract');
    await keys.lands('Make a contract');
    await keys.type('What it is called', 'Care of the sluice');
    await keys.type('Client', 'Weir');
    await keys.to(name);
    await page.keyboard.press('Space');
    await keys.type('First day', '01012026');
    // A digit too many makes no year of five.
    await keys.type('Last day', '123120267');
    expect(await page.getByLabel('Last day').inputValue()).toMatch(/^\d{4}-12-31$/);
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Shift+Tab');
    await keys.type('Last day', '12312026');
    for (const trouble of ['the whole site is', 'a whole trunk is', 'one room is']) {
      await keys.type(`Hours until somebody is there, when ${trouble} silent`, '4');
      await keys.type(`Hours until it works again, when ${trouble} silent`, '8');
    }
    await keys.type('Monday from', '0800');
    await keys.type('Monday to', '1700');
    await keys.type('Planned visits to each site in a year', '2');
    await keys.type('Fee for a year', '900');
    await keys.type('Currency, such as EUR', 'EUR');
    await keys.press('Save the contract');
    await keys.lands('Care of the sluice');

    const { tickets } = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    // A visit that a plan or a program made: who reads of it does not read that nobody has decided.
    await post('visits', {
      ...{ siteId: site, kind: 'call-out', on: '2026-03-03', purpose: 'Room 3 silent' },
      ticketIds: [tickets[0].id],
    });
    await test.app.get(JobService).settle();
    test.clock.tick(5 * 60);
    await page.reload();
    await keys.press(String(tickets[0].number));
    await keys.lands(new RegExp(`^${name}`));
    await says(/told by Mara Quill; reported$/);
    await keys.press('Say why a promise was not kept');
    await keys.press('Enter it');
    await keys.lands('Why?');
    await page.keyboard.type('Everybody was at the weir');
    await keys.press('Enter it');
    await says('Because: Everybody was at the weir');
    expect(await page.evaluate('document.activeElement === document.body')).toBe(false);
    await keys.to('Care of the sluice', 'Shift+Tab');
    await page.keyboard.press('Enter');
    await keys.lands('Care of the sluice');
    await keys.press('Review of a year');
    await keys.lands(/^Review: Care of the sluice/);
    await says('Everybody was at the weir');
    await keys.to('All of it to print and sign (PDF)');
    await keys.press('Back to the contract');
    await keys.lands('Care of the sluice');
    await keys.press('Renew it');
    await keys.press('Save the contract');
    await keys.lands('Care of the sluice');
    await says('From Fri 1 Jan 2027 to Fri 31 Dec 2027.');
  });

  it('reads the review of a year, and of the years beside it', async () => {
    const { email } = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    const site = await drawSite(test, [row('A', 3)]);
    const { clientId } = (await test.http.get(`/api/v1/sites/${site}`)).body;
    const days = [1, 2, 3, 4, 5, 6, 7];
    const { id } = await post('contracts', {
      ...{ title: 'Care of the lock', clientId, siteIds: [site], kind: 'comprehensive' },
      ...{ from: '2024-03-01', until: '2027-03-01', visitsPerYear: 1 },
      ...{ feeMinor: 90000, currency: 'EUR', pausesForParts: false },
      promises: TROUBLE_CLASSES.map((troubleClass) => {
        return { troubleClass, responseMinutes: 60, restoreMinutes: 480 };
      }),
      coverage: { windows: days.map((weekday) => ({ weekday, from: '00:00', until: '24:00' })) },
    });
    await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    await test.app.get(JobService).settle();
    test.clock.tick(30);
    await signIn(email, `/desk/contracts/${id}`);
    await says('The hours count round the clock, on all seven days.');
    await page.route('**/review', (route) => route.fulfill({ status: 503, body: '{}' }));
    await keys.press('Review of a year');
    await keys.lands('This did not work just now');
    await page.unroute('**/review');
    await keys.press('Try again');
    // The year that is over, and the others one key away.
    await keys.lands('Review: Care of the lock · Year 2');
    expect(await page.title()).toBe('Review: Care of the lock · Year 2');
    await says(/^From Sat 1 Mar 2025 to Sat 28 Feb 2026\./);
    await says('The hours count round the clock, on all seven days.');
    await takePicture(page, 'desk-review-year-over');
    await keys.press('Year 3, running');
    await keys.lands('Review: Care of the lock · Year 3');
    await keys.to('Year 3, running');
    expect(await page.evaluate('document.activeElement.getAttribute("aria-current")')).toBe('page');
    await keys.to(/^Every ticket with its clock/);
    await keys.to('Line by line');
    await page.keyboard.press('Enter');
    // The clock was moved on by what is tried before.
    await says(/^Monday 2 March, \d\d:\d\d to /);
    await keys.to('Every number of it (CSV)', 'Shift+Tab');
    await keys.to('All of it to print and sign (PDF)', 'Shift+Tab');
    const [paper] = await Promise.all([
      page.context().waitForEvent('page'),
      page.keyboard.press('Enter'),
    ]);
    await paper.close();
    await page.goBack();
    await keys.lands('Review: Care of the lock · Year 2');
  });

  it('invites somebody', async () => {
    await signIn(test.owner.email, '/desk/firm');
    await keys.press('Invite somebody');
    await keys.press('Send the invitation');
    await keys.lands('Name');
    await page.keyboard.type('Sanna Threlk');
    await keys.type('E-mail', 'sanna@firm.example');
    await keys.type('Role', 'Disp');
    await keys.press('Send the invitation');
    await says('The invitation is on its way.');
    await says('sanna@firm.example');
    expect(await page.evaluate('document.activeElement === document.body')).toBe(false);
  });
});
