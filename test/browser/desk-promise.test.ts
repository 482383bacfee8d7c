import { beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser, WEEK } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import type { TestApp } from '../support/test-app.js';

/** A Wednesday; the clock stands at the Monday before. */
const DAY = '2026-03-04';

describe('what was promised of a ticket, at the desk, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says, signIn, post } = at;
  let test: TestApp;
  let address: string;
  let context: BrowserContext;
  let page: Page;

  beforeEach(() => {
    ({ test, address, context, page } = at);
  });

  /** A ticket of a site whose contract promises hours. */
  async function reportPromised() {
    const site = await drawSite(test, [row('A', 3)]);
    const { body: read } = await test.http.get(`/api/v1/sites/${site}`);
    await post('contracts', {
      title: 'Upkeep of the lock house',
      clientId: read.clientId,
      siteIds: [site],
      from: '2026-03-01',
      until: '2027-03-01',
      kind: 'comprehensive',
      visitsPerYear: 0,
      feeMinor: 90000,
      currency: 'EUR',
      promises: [{ troubleClass: 'one-room', responseMinutes: 240, restoreMinutes: 960 }],
      coverage: { windows: WEEK, zone: 'UTC' },
    });
    const { tickets } = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [
        { trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' },
        { trunk: 'A', node: 'A2', function: 'bell', outcome: 'works' },
        { trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' },
      ],
    });
    return { site, ...tickets[0] } as { site: string; id: string; number: number };
  }

  it('stops the clock of a ticket with a reason, lets it go on, and says what it goes by', async () => {
    const { site, id, number } = await reportPromised();
    const visit = { siteId: site, kind: 'call-out', on: DAY, purpose: 'Bell', ticketIds: [id] };
    const { id: visitId } = await post('visits', visit);
    await test.app.get(JobService).settle();
    const { email } = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    await signIn(email, `/desk/tickets/${number}`);
    await heading('What was promised');
    await says(/Due 2 Mar(?: 2026)?, 12:00;/);
    await says(/^Somebody on site within 4 h: reported Monday 2 March, 08:00; .* = 12:00/);

    const pause = page.locator('details', { hasText: 'Stop the clock' });
    await pause.locator('summary').click();
    await role('button', 'Stop the clock').click();
    await says('Please say why it stops.');
    await says('Please say what shows it: the client will read it.');
    await pause.getByLabel('Why it stops').selectOption('no access');
    await pause.getByLabel('What shows it').fill('Gate locked, photo 3');
    // The contract does not stop for parts: said where the reason was chosen.
    const why = pause.getByLabel('Why it stops');
    await why.selectOption('a part is on order');
    await role('button', 'Stop the clock').click();
    await says('"Upkeep of the lock house" does not let the clock stop for parts.', pause);
    expect(await why.getAttribute('aria-invalid')).toBe('true');
    expect(await pause.getByRole('alert').count()).toBe(0);
    await why.selectOption('no access');
    // Before it was reported: what the service alone knows is said at its field too.
    const when = pause.getByLabel('When');
    await when.fill('2026-03-01T09:00');
    await role('button', 'Stop the clock').click();
    await says(/^Is before 2026-03-02T08:00:00\.000Z, when it was reported/);
    expect(await when.getAttribute('aria-invalid')).toBe('true');
    await lookOver(page, 'desk-ticket-promise', ['desk']);
    await page.reload();
    expect(await pause.getByLabel('What shows it').inputValue()).toBe('Gate locked, photo 3');
    await when.fill('');
    test.clock.tick(60);
    await role('button', 'Stop the clock').click();
    await says(
      /^The clock stands still since 2 Mar(?: 2026)?, 09:00: no access \(Gate locked, photo 3; said by Cato Lind\)\.$/,
    );
    await says('Not due while it stands still;');
    await says('Entered: Stop the clock');

    test.clock.tick(30);
    await page.locator('summary', { hasText: 'Let the clock go on' }).click();
    await role('button', 'Let the clock go on').click();
    await says(/Due 2 Mar(?: 2026)?, 12:30;/);
    await says('Entered: Let the clock go on');
    await says(
      /^The clock stood still from 2 Mar(?: 2026)?, 09:00 to 2 Mar(?: 2026)?, 09:30: no access \(Gate locked, photo 3; said by Cato Lind\)\.$/,
    );
    await says('Cato Lind stopped the clock. no access; Gate locked, photo 3');

    // Nothing is promised for a whole site: it says so, and the class can be taken back.
    const trouble = page.locator('details', { hasText: 'Say how far the trouble goes' });
    await trouble.locator('summary').click();
    await trouble.getByLabel('How far it went').selectOption('the whole site is silent');
    await trouble.getByLabel('Why?').fill('The caretaker hears nothing anywhere');
    await trouble.getByRole('button').click();
    await says('The contract promises no time for trouble that goes so far.');
    // The page may read of it before it has its own answer, and puts away what was sent with that.
    await says('Entered: Say how far the trouble goes');
    await trouble
      .getByLabel('How far it went')
      .selectOption('by what was told and found: one room is silent');
    await trouble.getByLabel('Why?').fill('He was deaf');
    await trouble.getByRole('button').click();
    await says(/Due 2 Mar(?: 2026)?, 12:30;/);

    // Nobody came in time.
    test.clock.tick(5 * 60);
    await page.reload();
    await says(/^not kept: .* of 4 h/);
    const broken = page.locator('details', { hasText: 'Say why a promise was not kept' });
    await broken.locator('summary').click();
    await broken.getByRole('button').click();
    await says('Please say why.');
    await broken.getByLabel('Why?').fill('Everybody was at the weir');
    await broken.getByRole('button').click();
    await says('Because: Everybody was at the weir');

    const sheet = await role('link', 'Job sheet (PDF)').getAttribute('href');
    expect(sheet).toBe(`/api/v1/visits/${visitId}/job-sheet/paper?language=en`);
    const paper = await context.request.get(`${address}${sheet}`);
    expect(paper.headers()['content-type']).toBe('application/pdf');

    // A technician stops clocks, and says nothing of what was promised.
    await context.clearCookies();
    const technician = await test.addPerson('technician');
    await signIn(technician.email, `/desk/tickets/${number}`);
    await heading('What was promised');
    await pause.waitFor();
    expect(await trouble.count()).toBe(0);
    expect(await broken.count()).toBe(0);
  });

  it('says of what was told as not kept that it was, once the phone that knew had a signal', async () => {
    // At eight on the Tuesday, whatever the time is after what is tried before.
    const eight = Date.parse('2026-03-03T08:00:00Z');
    test.clock.tick((eight - test.clock.now().getTime()) / 60_000);
    const { id, number } = await reportPromised();
    await test.app.get(JobService).settle();
    test.clock.tick(5 * 60);
    // Jobs wait by the database's clock, which does not jump: the clock is reckoned anew because something is said.
    const rung = { name: 'Mara Quill', kind: 'office' };
    await post(`tickets/${id}/notes`, { saidBy: rung, note: 'Nobody has been here yet' });
    await test.app.get(JobService).settle();
    const { body: log } = await test.http.get(`/api/v1/tickets/${id}/log`).expect(200);
    const kinds = log.items.map(({ kind }: { kind: string }) => kind);
    expect(kinds.filter((kind: string) => kind === 'promise-breach')).toHaveLength(1);
    const saidBy = { name: 'Ilvo Marsh', kind: 'technician' };
    await post(`tickets/${id}/findings`, {
      ...{ saidBy, saidAt: '2026-03-03T09:00:00Z' },
      place: { kind: 'span', trunk: 'A', from: 'A2', to: 'A3' },
      component: 'junction-in',
    });
    const mending = { saidBy, saidAt: '2026-03-03T09:00:00Z', what: 'Screwed tight' };
    await post(`tickets/${id}/mendings`, { ...mending, mending: 'lasting' });
    const { email } = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    await signIn(email, `/desk/tickets/${number}`);
    await says(/^kept: 1 h of 4 h/);
    await says(
      /^Not kept as promised: somebody there by .*\. By what was entered later it was kept: somebody there$/,
    );
    await says(/^Ilvo Marsh said what was found\. .*Room 3.*: faulty$/);
  });

  it('says of each entry what became of it, whichever answer comes first', async () => {
    const { number } = await reportPromised();
    await test.app.get(JobService).settle();
    const { email } = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    await signIn(email, `/desk/tickets/${number}`);
    let letGo = () => {};
    const held = new Promise<void>((done) => (letGo = done));
    await page.route('**/trouble-class', async (route) => {
      const response = await route.fetch();
      await held;
      await route.fulfill({ response });
    });
    const trouble = page.locator('details', { hasText: 'Say how far the trouble goes' });
    await trouble.locator('summary').click();
    await trouble.getByLabel('How far it went').selectOption('one room is silent');
    await trouble.getByLabel('Why?').fill('The caretaker hears the others');
    await trouble.getByRole('button').click();
    // The page reads of it before it has its answer; with that alone what was sent is put away.
    await says(/^Somebody said so: The caretaker hears the others\./);
    const sent = trouble.getByLabel('Why?');
    expect(await sent.inputValue()).toBe('The caretaker hears the others');
    const pause = page.locator('details', { hasText: 'Stop the clock' });
    await pause.locator('summary').click();
    await pause.getByLabel('Why it stops').selectOption('no access');
    await pause.getByLabel('What shows it').fill('Gate locked, photo 3');
    await role('button', 'Stop the clock').click();
    await says('Entered: Stop the clock');
    letGo();
    await says('Entered: Say how far the trouble goes');
    expect(await sent.inputValue()).toBe('');
    // Each beside what it is about, also once both are there.
    const told = page.getByRole('status').filter({ hasText: 'Entered: ' });
    expect(await told.allInnerTexts()).toEqual([
      'Entered: Stop the clock',
      'Entered: Say how far the trouble goes',
    ]);
    await lookOver(page, 'desk-ticket-promise-entered', ['desk']);

    // What failed does not stand beside what was entered before it.
    await page.locator('summary', { hasText: 'Let the clock go on' }).click();
    await page.getByLabel('When').first().fill('2026-03-01T09:00');
    await role('button', 'Let the clock go on').click();
    await page.getByLabel('When').and(page.locator('[aria-invalid=true]')).waitFor();
    expect(await told.allInnerTexts()).toEqual(['Entered: Say how far the trouble goes']);
  });

  it('leaves what is typed while an entry before it is on its way', async () => {
    const { number } = await reportPromised();
    await test.app.get(JobService).settle();
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await signIn(email, `/desk/tickets/${number}`);
    let letGo = () => {};
    const held = new Promise<void>((done) => (letGo = done));
    await page.route('**/readings', async (route) => {
      if (route.request().method() === 'POST') await held;
      await route.continue();
    });
    const reading = page.locator('details', { hasText: 'A reading off a meter' });
    await reading.locator('summary').click();
    await reading.getByLabel('Who says so').fill('Ilvo Marsh');
    await reading.getByLabel('Where', { exact: true }).selectOption({ index: 1 });
    const value = reading.getByLabel(/^What the meter shows/);
    await value.fill('23.5');
    await reading.getByRole('button').click();
    await value.fill('11.5');
    letGo();
    await says(/^Entered: /);
    expect(await value.inputValue()).toBe('11.5');
  });
});
