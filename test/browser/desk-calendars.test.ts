import { beforeEach, describe, expect, it } from '@jest/globals';
import type { Page } from 'playwright-core';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser, WEEK } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import type { TestApp } from '../support/test-app.js';

/** The clock stands at Monday, 2 March 2026, 08:00. */
describe('days and calendars at the desk, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, says, signIn, post } = at;
  let test: TestApp;
  let page: Page;

  beforeEach(() => {
    ({ test, page } = at);
  });

  it('asks about a visit on a holiday, out of hours, gone by and double, and books what is meant so', async () => {
    const site = await drawSite(test, [row('A', 3)]);
    const { body: read } = await test.http.get(`/api/v1/sites/${site}`);
    await post('contracts', {
      title: 'Upkeep of the lock house',
      clientId: read.clientId,
      siteIds: [site],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 0,
      feeMinor: 90000,
      currency: 'EUR',
      promises: [],
      coverage: { windows: WEEK, publicHolidays: { country: 'DE', region: null } },
    });
    const { tickets } = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    const [{ id, number }] = tickets;
    const { id: technicianId } = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const evening = { on: '2026-03-01', fromTime: '18:00', untilTime: '19:00', technicianId };
    const meant = ['outside-hours', 'in-the-past'];
    const visit = { siteId: site, kind: 'call-out', purpose: 'Bell', ticketIds: [id] };
    await post('visits', { ...visit, ...evening, confirmed: meant });
    await test.app.get(JobService).settle();
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await signIn(email, `/desk/tickets/${number}`);

    const form = page.locator('details', { hasText: 'Send somebody' });
    await form.locator('summary').click();
    await form.getByLabel('Who goes').selectOption('Ilvo Marsh');
    await form.getByLabel('On which day').fill('2026-04-03');
    await form.getByLabel(/^Why somebody must go/).fill('Closed until Tuesday');
    await form.getByRole('button', { name: 'Send' }).click();
    await says('Is a public holiday there (Good Friday).', form);
    const day = form.getByLabel('On which day');
    expect(await day.getAttribute('aria-invalid')).toBe('true');
    expect(await form.getByRole('alert').count()).toBe(0);
    await lookOver(page, 'desk-booking-asked', ['phone', 'desk']);
    // Kept over a reload, and asked anew.
    await page.reload();
    expect(await day.inputValue()).toBe('2026-04-03');
    const sendAll = form.getByRole('button', { name: 'It is meant so: send all the same' });
    expect(await sendAll.count()).toBe(0);

    // All of it at once.
    await day.fill('2026-03-01');
    await form.getByLabel(/^From/).fill('18:30');
    await form.getByLabel(/^To /).fill('19:30');
    await form.getByRole('button', { name: 'Send' }).click();
    await says(
      'Is a day of the week without agreed hours. Its time, on 2026-03-01, has gone by.',
      form,
    );
    await says('Whoever is to go is on another visit then.', form);
    const visits = async () => (await test.http.get(`/api/v1/visits?ticket=${id}`)).body.items;
    expect(await visits()).toHaveLength(1);
    await sendAll.click();
    await says(/^Sun 1 Mar(?: 2026)?, 18:30–19:30: Ilvo Marsh, planned/);
    // The page may read of it before it has its own answer, which it is not left without.
    await form.getByRole('status').filter({ hasText: 'Ilvo Marsh' }).waitFor();
    expect(await visits()).toHaveLength(2);

    await page.evaluate(`localStorage.setItem('lastheard language', '"es"')`);
    await page.reload();
    const own = page.locator('details', { hasText: 'Enviar a alguien' });
    await own.locator('summary').click();
    await own.getByLabel('Qué día').fill('2026-04-03');
    await own.getByRole('button', { name: 'Enviar' }).click();
    await says('Ese día es festivo allí (Good Friday).', own);
    await own.getByRole('button', { name: 'Es así: enviar de todos modos' }).click();
    await says(/3 abr.*: Nadie designado todavía, prevista/);
    await role('heading', 'Quién va').waitFor();
  });

  it('takes closed days from a text that is shown first, told by line what is wrong, and by hand', async () => {
    const { email } = await test.addPerson('contract-manager', { name: 'Noor Ashby' });
    await signIn(email, '/desk/contracts');
    await role('link', 'Closed days').click();
    await role('heading', 'Closed days').waitFor();
    await says('There is no calendar yet.');
    const form = page.locator('form');
    await page.getByText('Add a calendar').click();
    await page.getByText('Take them from an iCalendar text').click();
    const see = role('button', 'See what it closes');
    await see.click();
    await says('Please choose a file, or paste the text.');
    const lines = [
      'BEGIN:VCALENDAR',
      'BEGIN:VEVENT',
      'SUMMARY:Autumn holidays',
      'DTSTART;VALUE=DATE:20261019',
      'DTEND;VALUE=DATE:20261019',
      'END:VEVENT',
      'BEGIN:VEVENT',
      'SUMMARY:Parents’ evening',
      'DTSTART:20261105T180000Z',
      'END:VEVENT',
      'END:VCALENDAR',
    ];
    const text = page.getByLabel('Or paste the text');
    await text.fill(lines.join('\n'));
    await see.click();
    await role('row', '2 ends before it begins').waitFor();
    await lookOver(page, 'desk-closed-days-wrong', ['phone', 'desk']);
    const right = lines.map((line) =>
      line.replace('DTEND;VALUE=DATE:20261019', 'DTEND;VALUE=DATE:20261031'),
    );
    await page.getByLabel('A file (.ics)').setInputFiles({
      name: 'holidays.ics',
      mimeType: 'text/calendar',
      buffer: Buffer.from(right.join('\r\n')),
    });
    await says('The text was read. One event at a time of day, or called off, closes nothing.');
    await role('row', /^Mon 19 Oct 2026 Fri 30 Oct 2026 Autumn holidays/).waitFor();
    expect(await text.inputValue()).toContain('20261031');

    await page.getByText('Add days by hand').click();
    await role('button', 'Add these days').click();
    await says('Please give the first day.');
    await page.getByLabel('First day').fill('2026-12-24');
    await page.getByLabel('Last day').fill('2026-12-23');
    await role('button', 'Add these days').click();
    await says('The last day is before the first.');
    await page.getByLabel('Last day').fill('2027-01-02');
    await page.getByLabel('What it is', { exact: true }).fill('Winter');
    await role('button', 'Add these days').click();
    await says('2 times, 22 days');
    // Nothing is kept yet; a reload loses nothing of it.
    expect((await test.http.get('/api/v1/closed-calendars')).body.items).toEqual([]);
    await page.reload();
    await says('2 times, 22 days');
    await role('button', 'Keep it').click();
    await form.locator('[aria-invalid=true]').first().waitFor();
    await page.getByLabel(/^What it is called/).fill('School holidays');
    await lookOver(page, 'desk-closed-days', ['phone', 'desk']);
    await role('button', 'Keep it').click();
    await says('School holidays is kept.');
    const [calendar] = (await test.http.get('/api/v1/closed-calendars')).body.items;
    expect(calendar).toMatchObject({
      name: 'School holidays',
      times: [
        { from: '2026-10-19', until: '2026-10-31', name: 'Autumn holidays' },
        { from: '2026-12-24', until: '2027-01-03', name: 'Winter' },
      ],
    });

    // Somebody else changes it while it is being changed.
    await page.getByText('Change School holidays').click();
    await role('button', /^Take out Thu 24 Dec 2026/).click();
    const renamed = test.http.patch(`/api/v1/closed-calendars/${calendar.id}`);
    await renamed.set('If-Match', '"1"').send({ name: 'Holidays' }).expect(200);
    await role('button', 'Keep it').first().click();
    await says(/^Somebody else changed it meanwhile/);
    // It was read anew, under its new name; what was typed stands.
    await page.getByRole('heading', { name: 'Holidays', exact: true }).waitFor();
    expect(await role('button', /^Take out/).count()).toBe(1);
    await role('button', 'Keep it').first().click();
    await page.getByRole('heading', { name: 'School holidays', exact: true }).waitFor();
    const { body: changed } = await test.http.get(`/api/v1/closed-calendars/${calendar.id}`);
    expect(changed).toMatchObject({ version: 3, times: [{ name: 'Autumn holidays' }] });

    await page.getByText('Remove… School holidays').click();
    await role('button', 'Remove it School holidays').click();
    await says('School holidays is removed.');
    expect((await test.http.get('/api/v1/closed-calendars')).body.items).toEqual([]);

    await page.evaluate(`localStorage.setItem('lastheard language', '"hi"')`);
    await page.reload();
    await role('heading', 'बंद दिन').waitFor();
    await page.getByText('कैलेंडर जोड़ें').click();
    await page.getByText('iCalendar पाठ से लें').click();
    await page.getByLabel('या पाठ चिपकाएँ').fill('Closed on Monday');
    await role('button', 'देखें क्या बंद होगा').click();
    await role('row', '1 iCalendar पाठ नहीं है: यह BEGIN:VCALENDAR से शुरू नहीं होता').waitFor();
  });

  it('makes calendar links, shows each once, copies it, and ends it', async () => {
    const site = await drawSite(test, [row('A', 2)]);
    await test.http
      .patch(`/api/v1/sites/${site}`)
      .set('If-Match', '"1"')
      .send({ name: 'Sluice Works' })
      .expect(200);
    const technician = await test.addPerson('technician', { name: 'Orla Venn' });
    await post('visits', {
      siteId: site,
      kind: 'planned',
      on: '2026-03-04',
      purpose: 'Upkeep',
      upkeep: true,
      technicianId: technician.id,
    });
    const { email } = await test.addPerson('dispatcher', { name: 'Wren Ashdown' });
    await signIn(email, `/desk/sites/${site}`);
    await role('link', 'Calendar links').click();
    await role('heading', 'Calendar links').waitFor();
    await says('No link was made yet.');
    const whose = page.getByLabel('Whose visits?');
    expect(await whose.inputValue()).toBe(`site ${site}`);
    await role('button', 'Make a link').click();
    await says(/^This link is shown this once/);
    const link = await page.getByLabel('The link').inputValue();
    const shown = () =>
      page.context().request.get(link.replace(/^[^?]*/, `${at.address}/api/v1/calendar`));
    expect(await (await shown()).text()).toContain('Sluice Works: Upkeep');
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await role('button', 'Copy it').click();
    await says('It is copied.');
    expect(await page.evaluate('navigator.clipboard.readText()')).toBe(link);
    await lookOver(page, 'desk-calendar-link', ['phone', 'desk']);
    await page.context().clearPermissions();
    await role('button', 'I have it').click();
    await whose.selectOption('Orla Venn’s');
    // Chosen and not made: a reload keeps it; the secret is gone for good.
    await page.reload();
    await role('button', 'Make a link').waitFor();
    expect(await page.content()).not.toContain(new URL(link).searchParams.get('key'));
    expect(await whose.inputValue()).toBe(`technician ${technician.id}`);
    await role('button', 'Make a link').click();
    await role('button', 'I have it').click();
    await role('row', /^Orla Venn’s .*, by Wren Ashdown never yet works/).waitFor();
    await role('row', /^To Sluice Works .*, by Wren Ashdown .*:\d\d.* works/).waitFor();
    await lookOver(page, 'desk-calendar-links', ['phone', 'desk']);
    await role('button', /^End it To Sluice Works/).click();
    await says('The link is ended: To Sluice Works.');
    await role('row', /^To Sluice Works .* ended /).waitFor();
    expect((await shown()).status()).toBe(410);

    // A technician makes their own, and sees no other.
    await page.context().clearCookies();
    await signIn(technician.email, '/desk/calendar-links');
    await role('row', /^My own \(Orla Venn\) .* works/).waitFor();
    expect(await page.getByRole('row').count()).toBe(2);
    expect(await whose.locator('option').count()).toBe(1);
    await role('button', 'Make a link').click();
    const own = await page.getByLabel('The link').inputValue();
    const { body: mine } = await technician.http.get('/api/v1/calendars').expect(200);
    expect(mine.items).toHaveLength(2);
    expect(own).not.toBe(link);

    await page.evaluate(`localStorage.setItem('lastheard language', '"fr"')`);
    await page.goto(`${at.address}/desk/calendar-links`);
    await role('heading', 'Liens d’agenda').waitFor();
    await role('row', /^Les miennes \(Orla Venn\) .* marche/)
      .first()
      .waitFor();
  });
});
