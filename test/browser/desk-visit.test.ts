import { beforeEach, describe, expect, it } from '@jest/globals';
import type { Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser, WEEK } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import type { TestApp } from '../support/test-app.js';

/** The clock stands at Monday, 2 March 2026, 08:00. */
describe('a visit that is booked by hand, in a browser', () => {
  const at = inBrowser(DESK_SCREEN, { jobsRest: true });
  const { role, says, signIn, post } = at;
  let test: TestApp;
  let page: Page;

  beforeEach(() => {
    ({ test, page } = at);
  });

  it('keeps a promise, or answers a call, and asks everything that may be a mistake at once', async () => {
    const site = await drawSite(test, [row('A', 3)]);
    const renamed = test.http.patch(`/api/v1/sites/${site}`).set('If-Match', '"1"');
    const { clientId } = (await renamed.send({ name: 'Sluice Works' }).expect(200)).body;
    const contract = await post('contracts', {
      ...{ title: 'Care of the sluice', clientId, siteIds: [site], kind: 'comprehensive' },
      ...{ from: '2026-01-01', until: '2027-01-01', visitsPerYear: 4, feeMinor: 90000 },
      ...{ currency: 'EUR', promises: [] },
      coverage: { windows: WEEK, publicHolidays: { country: 'DE', region: null } },
    });
    const { tickets } = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    const { id: technicianId } = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const { email } = await test.addPerson('dispatcher', { name: 'Wren Ashdown' });
    const visits = async () =>
      (await test.http.get(`/api/v1/visits?site=${site}`)).body.items as object[];

    await signIn(email, `/desk/contracts/${contract.id}`);
    await role('link', /^Book it Sluice Works/)
      .first()
      .click();
    await role('heading', 'Book a visit').waitFor();
    await says('Promised, and not booked yet');
    // A public holiday, and it has gone by: both are asked in one answer.
    await page.getByLabel('On which day').fill('2026-01-01');
    await page.getByLabel('Who goes').selectOption('Ilvo Marsh');
    await role('button', 'Book it').click();
    await says(/^Is a public holiday there \(.+\)\. Its time, on .+, has gone by\.$/);
    await lookOver(page, 'desk-visit-asked', ['phone', 'desk']);
    expect(await visits()).toEqual([]);
    await role('button', 'It is meant so: book it all the same').click();
    await says(/^The visit is booked: Sluice Works, .*1 Jan/);
    expect(await visits()).toMatchObject([
      { kind: 'planned', upkeep: true, on: '2026-01-01', technicianId, purpose: 'Promised visit' },
    ]);
    const { items } = (await test.http.get(`/api/v1/contracts/${contract.id}/visits`)).body;
    expect(items[0]).toMatchObject({ visitOn: '2026-01-01' });

    // A call-out, from the site's own page; the ticket is to be visited from then on.
    await role('link', 'The site').click();
    await role('link', 'Book a visit').click();
    await page.getByLabel('What it is').selectOption('call-out');
    const hours = { from: '09:00', until: '10:00' };
    await page.getByLabel('On which day').fill('2026-03-03');
    await page.getByLabel('From (you need not)').fill(hours.from);
    await page.getByLabel('To (you need not)').fill(hours.until);
    await page.getByLabel('Who goes').selectOption('Ilvo Marsh');
    await role('button', 'Book it').click();
    await says(/^A visit is for upkeep, for at least one ticket, or for both\.$/);
    await page.getByLabel(/Ticket \d+/).check();
    await page.getByLabel(/^Why somebody must go/).fill('Closed until Tuesday');
    // Typed and not sent: a reload keeps it.
    await page.reload();
    expect(await page.getByLabel(/Ticket \d+/).isChecked()).toBe(true);
    await post('visits', {
      ...{ siteId: site, kind: 'planned', upkeep: true, purpose: 'Upkeep', technicianId },
      ...{ on: '2026-03-03', fromTime: '09:30', untilTime: '11:00' },
    });
    await role('button', 'Book it').click();
    await says('Whoever is to go is on another visit then.');
    await role('button', 'It is meant so: book it all the same').click();
    await says(/^The visit is booked/);
    const [callOut] = (await visits()).filter((one) => 'kind' in one && one.kind === 'call-out');
    expect(callOut).toMatchObject({ upkeep: false, ticketIds: [tickets[0].id], fromTime: '09:00' });
    const { body: ticket } = await test.http.get(`/api/v1/tickets/${tickets[0].id}`);
    expect(ticket.state).toBe('to-visit');

    // From the visits of a day, for any site.
    await role('link', 'That day').click();
    await role('link', 'Book a visit').click();
    await page.getByLabel('Which site').selectOption('Sluice Works');
    expect(await page.getByLabel('On which day').inputValue()).toBe('2026-03-03');
  });

  it('is moved, given to somebody else and called off, and says so', async () => {
    const site = await drawSite(test, [row('A', 3)]);
    const renamed = test.http.patch(`/api/v1/sites/${site}`).set('If-Match', '"1"');
    await renamed.send({ name: 'Weir Works' }).expect(200);
    const { tickets } = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const { id: sanna } = await test.addPerson('technician', { name: 'Sanna Threlk' });
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });

    await signIn(email, `/desk/tickets/${tickets[0].number}`);
    await page.getByText('Send somebody', { exact: true }).click();
    const form = page.locator('details', { hasText: 'Send somebody' });
    await form.getByLabel('Who goes').selectOption('Ilvo Marsh');
    await form.getByLabel(/^Why somebody must go/).fill('Closed until Tuesday');
    // What is refused leaves the ticket as it was.
    await form.getByLabel('On which day').fill('2026-02-02');
    await form.getByRole('button', { name: 'Send', exact: true }).click();
    await says(/has gone by\.$/);
    const { body: unsent } = await test.http.get(`/api/v1/tickets/${tickets[0].id}`);
    expect(unsent.state).toBe('reported');
    await form.getByLabel('On which day').fill('2026-03-03');
    await form.getByRole('button', { name: 'Send', exact: true }).click();
    await says(/^Sent: Ilvo Marsh, .*3 Mar.*\.$/);
    const visit = async () => (await test.http.get(`/api/v1/visits?site=${site}`)).body.items[0];

    await role('link', /^Move it or call it off/).click();
    await role('heading', 'Visit to Weir Works').waitFor();
    const save = page.getByRole('button', { name: 'Save', exact: true });
    await save.click();
    await says('Nothing was changed.');
    await page.getByLabel('On which day').fill('2026-03-01');
    await page.getByLabel('From (you need not)').fill('10:00');
    await page.getByLabel('To (you need not)').fill('09:00');
    await save.click();
    await says(/^Is not after 10:00/);
    await page.getByLabel('To (you need not)').fill('11:00');
    await save.click();
    // Gone by, and nobody said why: one after the other, each at its field.
    await says(/^Its time, on .+, has gone by\.$/);
    await page.getByLabel('On which day').fill('2026-03-04');
    await page.getByLabel('Who goes').selectOption('Sanna Threlk');
    await save.click();
    await says(/needed to move a visit to another time/);
    await lookOver(page, 'desk-visit-moved', ['phone', 'desk']);
    // Typed and not sent: a reload keeps it.
    await page.reload();
    await page.getByLabel(/^Why it is moved/).fill('Exams on Tuesday');
    await save.click();
    const saved = page.getByText(/^Saved\. The visit: .*4 Mar.*10:00–11:00\.$/);
    await saved.waitFor();
    // Beside the button, where whoever pressed it looks.
    const [button, line] = [await save.boundingBox(), await saved.boundingBox()];
    expect(Math.abs(line!.y - button!.y)).toBeLessThan(150);
    expect(await visit()).toMatchObject({ on: '2026-03-04', technicianId: sanna });
    await says(/^From .*3 Mar.* to .*4 Mar.*: Exams on Tuesday$/);

    // Somebody else moved it meanwhile: what was typed here is not lost, and theirs is not overwritten.
    const { id, version } = await visit();
    await page.getByLabel('To (you need not)').fill('12:00');
    await page.getByLabel(/^Why it is moved/).fill('More to do');
    // The page hears of it only after it has saved.
    const address = `**/api/v1/visits/${id}`;
    let hear = () => {};
    const heard = new Promise<void>((resolve) => (hear = resolve));
    await page.route(address, async (route) => {
      if (route.request().method() === 'GET') await heard;
      await route.continue();
    });
    await test.http
      .patch(`/api/v1/visits/${id}`)
      .set('If-Match', `"${version}"`)
      .send({ on: '2026-03-05', reason: 'Asked for' })
      .expect(200);
    const answered = page.waitForResponse((one) => one.request().method() === 'PATCH');
    await save.click();
    expect((await answered).status()).toBe(412);
    hear();
    await page.getByText(/5 Mar.*: Sanna Threlk$/).waitFor();
    await page.unroute(address);
    expect(await page.getByLabel('To (you need not)').inputValue()).toBe('12:00');
    await save.click();
    await says(/^Saved\. The visit: .*5 Mar.*10:00–12:00\.$/);

    await page.getByText('Call it off', { exact: true }).first().click();
    await page.getByLabel(/^Why it is called off/).fill('Heard again');
    await role('button', 'Call it off').dblclick();
    await says('The visit is called off.');
    expect(await visit()).toMatchObject({ state: 'called-off' });
    await says('Bea Orne: called off. Heard again');
    await page.getByText('It is wanted after all', { exact: true }).first().click();
    await role('button', 'It is wanted after all').click();
    await says('The visit is planned again.');
    expect(await visit()).toMatchObject({ state: 'planned', on: '2026-03-05' });
  });
});
