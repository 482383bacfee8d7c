import { beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser, WEEK } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import type { TestApp } from '../support/test-app.js';

/** A Wednesday. */
const DAY = '2026-03-04';

describe('the desk’s days and contracts, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says, signIn, post } = at;
  let test: TestApp;
  let address: string;
  let context: BrowserContext;
  let page: Page;

  beforeEach(() => {
    ({ test, address, context, page } = at);
  });

  /** Two schools, a promised visit at one, a silent room at the other, and two who could go. */
  async function fillDay(): Promise<{ visit: string }> {
    const people = [];
    for (const [name, skills] of [
      ['Ilvo Marsh', ['tower']],
      ['Sanna Threlk', []],
    ] as const) {
      const { id } = await test.addPerson('technician', { name });
      const time = { hours: WEEK, skills, startLatitude: 47.1, startLongitude: -28.4 };
      await test.http
        .put(`/api/v1/people/${id}/working-time`)
        .set('If-Match', '"0"')
        .send(time)
        .expect(200);
      await test.http
        .put(`/api/v1/people/${id}/van`)
        .set('If-Match', '"0"')
        .send({ parts: [] })
        .expect(200);
      people.push(id);
    }
    await test.addPerson('technician', { name: 'Jory Wicke' });
    const sites = [];
    for (const [name, latitude] of [
      ['Larkfield Lower School', 47.1],
      ['Sluice Works', 47.3],
    ] as const) {
      const site = await drawSite(test, [row('A', 3)]);
      const place = { latitude, longitude: -28.4, name };
      await test.http.patch(`/api/v1/sites/${site}`).set('If-Match', '"1"').send(place).expect(200);
      sites.push(site);
    }
    const upkeep = { kind: 'planned', on: DAY, purpose: 'Upkeep', upkeep: true };
    const { id: visit } = await post('visits', { siteId: sites[0], ...upkeep });
    await post(`sites/${sites[1]}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: ['works', 'fails', 'fails'].map((outcome, room) => ({
        trunk: 'A',
        node: `A${room + 1}`,
        function: 'announcement',
        outcome,
      })),
    });
    return { visit };
  }

  it('plans a day, says why, moves a job with a reason, and names who goes', async () => {
    const { visit } = await fillDay();
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await signIn(email, '/desk/days/2026-03-03');
    await says('No plan was made of this day yet.');
    await role('link', /Wed 4 Mar/).click();
    await heading('Wed 4 Mar');
    await says('Upkeep');
    await lookOver(page, 'desk-day-not-planned', ['phone', 'desk']);
    await role('button', 'Make a plan').click();
    await says(/2 jobs of \d technicians?, \d+ minutes on the road\./);
    await says(/^No plan is better: this one weighs \d+, and none can weigh less\./);
    await says('Everything is placed.');
    await says('Not there on this day: Jory Wicke');
    await role('button', /^\d\. Larkfield Lower School, \d\d:\d\d–\d\d:\d\d$/).click();
    await heading('Why it is here');
    await says('120 minutes, as is usual');
    await lookOver(page, 'desk-day', ['phone', 'desk']);

    await role('button', /^\d\. Sluice Works, \d\d:\d\d–\d\d:\d\d$/).click();
    await says(/^Not in the van, to be loaded before leaving: connectors \(needed with \d+ %\)/);
    await says(/^With the van as it is, a second trip for a part has \d+ %\.$/);
    await says(/^With the van of (Ilvo Marsh|Sanna Threlk) it has \d+ %\.$/);
    await role('button', /^\d\. Larkfield Lower School, \d\d:\d\d–\d\d:\d\d$/).click();

    // Nobody but Sanna: which wants a reason.
    await page.getByLabel('Who').selectOption('Sanna Threlk does it');
    await role('button', 'Keep this, and plan anew').click();
    await says('Please say why, for whoever plans after you.');
    await page.getByLabel('Why').fill('She knows the caretaker');
    await role('button', 'Keep this, and plan anew').click();
    await role('row', /^Sanna Threlk 1 Larkfield Lower School/).waitFor();
    const { body: wish } = await test.http.get(`/api/v1/plans/jobs/${visit}/wish`);
    expect(wish.reason).toBe('She knows the caretaker');
    // On second thoughts, without leaving the job.
    await page.getByLabel('Why').fill('She has the key');
    // The page reads the plan too, whenever something changed.
    const planned = page.waitForResponse(
      (one) => one.url().endsWith(`/plans/days/${DAY}`) && one.request().method() === 'POST',
    );
    await role('button', 'Keep this, and plan anew').click();
    await planned;
    const { body: second } = await test.http.get(`/api/v1/plans/jobs/${visit}/wish`);
    expect(second).toMatchObject({ reason: 'She has the key', version: 2 });

    await test.http
      .put(`/api/v1/plans/jobs/${visit}/wish`)
      .set('If-Match', '"2"')
      .send({ skills: ['diving'] })
      .expect(200);
    await role('button', 'Plan it anew').click();
    await says('Sanna Threlk: cannot do: diving');
    await lookOver(page, 'desk-day-undone', ['phone', 'desk']);
    await test.http
      .put(`/api/v1/plans/jobs/${visit}/wish`)
      .set('If-Match', '"3"')
      .send({})
      .expect(200);
    await role('button', 'Plan it anew').click();
    await says('Everything is placed.');
    await role('button', /^Accept it/).click();
    await says(/Accepted .*: everybody is named\./);
    const { body: visits } = await test.http.get(`/api/v1/visits?on=${DAY}`);
    expect(visits.items).toHaveLength(2);
    for (const one of visits.items) expect(one.technicianId).not.toBeNull();
    await page.goto(`${address}/desk/days/2026-02-31`);
    await heading('There is nothing here');
  });

  it('makes a contract, shows what was kept and what it cost, and renews it', async () => {
    const site = await drawSite(test, [row('A', 3)]);
    const { body: read } = await test.http.get(`/api/v1/sites/${site}`);
    // Every drawn site has a client of the same name; this one is chosen from a list.
    const { body: client } = await test.http
      .patch(`/api/v1/clients/${read.clientId}`)
      .set('If-Match', '"1"')
      .send({ name: 'Schools of the upland' })
      .expect(200);
    await test.http
      .patch('/api/v1/prices')
      .set('If-Match', '"0"')
      .send({ currency: 'EUR', hourMinor: 5200, travelHourMinor: 4000 })
      .expect(200);
    const { email } = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    await signIn(email, '/desk/contracts');
    await says('There is no contract yet.');
    await role('link', 'Make a contract').click();
    await page.getByLabel('First day').fill('2026-03-01');
    await page.getByLabel('Last day').fill('2026-02-01');
    await page.getByLabel('Planned visits to each site in a year').fill('two');
    await role('button', 'Save the contract').click();
    await says('Must be a number.');
    await page.getByLabel('Planned visits to each site in a year').fill('2');
    await page.getByLabel(/^Client/).selectOption(client.name);
    await page.getByRole('checkbox', { name: read.name }).check();
    await page.getByLabel('Fee for a year').fill('1200,50');
    await page.getByLabel('What it is called').fill('Upkeep of the lower school');
    await page.getByLabel('Hours until somebody is there, when one room is silent').fill('8');
    await page.getByLabel('Hours until it works again, when one room is silent').fill('4');
    await role('button', 'Save the contract').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    await says(/^Ends before it begins/);
    await says(/^Is longer than restoring/);
    await lookOver(page, 'desk-contract-form', ['phone', 'desk']);
    await page.getByLabel('Last day').fill('2027-02-28');
    await page.getByLabel('Hours until it works again, when one room is silent').fill('16');
    await role('button', 'Save the contract').click();
    await heading('Upkeep of the lower school');
    await says('From Sun 1 Mar 2026 to Sun 28 Feb 2027.');
    await says(/somebody is there within 8 h, and it works again within 16 h/);
    await says('€1,200.50 a year.');
    await says('Year 1: 0 of 2 done.');

    await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      // Heard before it: one room's trouble, not the head-end's.
      observations: [
        { trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' },
        { trunk: 'A', node: 'A2', function: 'bell', outcome: 'works' },
        { trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' },
      ],
    });
    await test.app.get(JobService).settle();
    await page.reload();
    await says(/^runs: .* of 8 h/);
    await page.getByText('Line by line').first().click();
    await says(/^somebody on site within 8 h: reported/);
    await lookOver(page, 'desk-contract', ['phone', 'desk']);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      role('link', 'Download as CSV Promised visits').click(),
    ]);
    expect(file.suggestedFilename()).toBe('Upkeep of the lower school, Promised visits.csv');

    await role('link', 'All contracts').click();
    await says('0 of 2');
    await says(/€1,200\.50 against €0\.00/);
    await lookOver(page, 'desk-contracts', ['phone', 'desk']);
    const list = await role('link', 'Download as CSV Contracts').getAttribute('href');
    const [heads, ...rows] = decodeURIComponent(list!).split('\r\n');
    expect(heads).toMatch(/Fee,Cost,Currency$/);
    expect(rows.find((line) => line.includes('lower school'))).toBe(
      'Upkeep of the lower school,Schools of the upland,1,2026-03-01,2027-02-28,0,2,0,0,1200.5,0,EUR',
    );
    // What is downloaded is in the language of the page.
    await page.evaluate(`localStorage.setItem('lastheard language', '"es"')`);
    await role('link', 'Upkeep of the lower school').click();
    await page.reload();
    const files = page.locator('a[href*="/review/"]');
    await files.first().waitFor();
    expect(await files.count()).toBe(2);
    for (const link of await files.all()) {
      expect(await link.getAttribute('href')).toMatch(/\/(paper|sheet)\?language=es$/);
    }
    await page.evaluate(`localStorage.setItem('lastheard language', '"en"')`);
    await page.goto(`${address}/desk/contracts`);
    await role('link', 'Upkeep of the lower school').click();
    await role('link', 'Renew it').click();
    expect(await page.getByLabel('First day').inputValue()).toBe('2027-03-01');
    expect(await page.getByLabel('Last day').inputValue()).toBe('2028-02-29');
    await page.getByLabel('First day').fill('2027-03-10');
    await role('button', 'Save the contract').click();
    await says('From Wed 10 Mar 2027 to Tue 29 Feb 2028.');
    await page.goto(`${address}/desk/sites/${site}`);
    await says('Covered by no contract from Mon 1 Mar 2027 to Tue 9 Mar 2027.');

    // A dispatcher sees what is promised, and not what it costs.
    await context.clearCookies();
    const dispatcher = await test.addPerson('dispatcher');
    await signIn(dispatcher.email, '/desk/contracts');
    await role('link', 'Upkeep of the lower school').click();
    await heading('Promised visits');
    expect(await role('heading', 'What it costs').count()).toBe(0);
    expect(await role('link', 'Renew it').count()).toBe(0);
  });

  it('corrects a contract, and loses nothing of what two typed at once', async () => {
    const site = await drawSite(test, [row('A', 3)]);
    const { body: read } = await test.http.get(`/api/v1/sites/${site}`);
    const contract = await post('contracts', {
      title: 'Upkeep of the weir',
      clientId: read.clientId,
      siteIds: [site],
      from: '2026-03-01',
      until: '2027-03-01',
      kind: 'comprehensive',
      visitsPerYear: 2,
      feeMinor: 90000,
      currency: 'EUR',
      promises: [{ troubleClass: 'one-room', responseMinutes: 480, restoreMinutes: 960 }],
      coverage: { windows: WEEK },
    });
    const { email } = await test.addPerson('contract-manager');
    await signIn(email, `/desk/contracts/${contract.id}`);
    await role('link', 'Correct it').click();
    await heading('Correct Upkeep of the weir');
    const fee = page.getByLabel('Fee for a year');
    const title = page.getByLabel('What it is called');
    expect(await page.getByLabel('Last day').inputValue()).toBe('2027-02-28');
    await fee.fill('950');
    await page.getByLabel('Hours until it works again, when one room is silent').fill('4');
    await role('button', 'Save the contract').click();
    await says(/^Is longer than restoring/);
    expect(await page.locator(':focus').getAttribute('aria-invalid')).toBe('true');
    // Typed things outlive a reload.
    await page.reload();
    await heading('Correct Upkeep of the weir');
    expect(await fee.inputValue()).toBe('950');
    await page.getByLabel('Hours until it works again, when one room is silent').fill('12');

    const correction = { title: 'Upkeep of the upper weir', feeMinor: 99000 };
    await test.http
      .patch(`/api/v1/contracts/${contract.id}`)
      .set('If-Match', '"1"')
      .send(correction)
      .expect(200);
    await role('button', 'Save the contract').click();
    await says('Both of you changed: the fee.');
    expect(await title.inputValue()).toBe('Upkeep of the upper weir');
    expect(await fee.inputValue()).toBe('950');
    await lookOver(page, 'desk-contract-changed', ['phone', 'desk']);
    await role('button', 'Save the contract').click();
    await heading('Upkeep of the upper weir');
    const { body: now } = await test.http.get(`/api/v1/contracts/${contract.id}`);
    expect(now).toMatchObject({
      ...correction,
      feeMinor: 95000,
      version: 3,
      promises: [{ troubleClass: 'one-room', responseMinutes: 480, restoreMinutes: 720 }],
    });

    await role('link', 'Correct it').click();
    await fee.fill('1');
    await role('button', 'Forget what I typed').click();
    expect(await fee.inputValue()).toBe('950');
    await page.reload();
    await heading('Correct Upkeep of the upper weir');
    expect(await fee.inputValue()).toBe('950');
  });

  /** A contract of two years, with a ticket of the first that was answered late, mended and proven. */
  async function makeYear(): Promise<{ contract: string; number: number }> {
    const site = await drawSite(test, [row('A', 3)]);
    const { body: read } = await test.http.get(`/api/v1/sites/${site}`);
    const { id: contract } = await post('contracts', {
      title: 'Upkeep of the lock',
      clientId: read.clientId,
      siteIds: [site],
      from: '2026-03-01',
      until: '2028-03-01',
      kind: 'comprehensive',
      visitsPerYear: 2,
      feeMinor: 240000,
      currency: 'EUR',
      promises: ['whole-site', 'whole-trunk', 'several-rooms', 'one-room'].map((troubleClass) => ({
        troubleClass,
        responseMinutes: 60,
        restoreMinutes: 480,
      })),
      coverage: { windows: WEEK },
    });
    const { tickets } = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
    });
    const { id, number, stillToProve } = tickets[0];
    const say = (what: string, body: object) =>
      post(`tickets/${id}/${what}`, {
        saidBy: { name: 'Ilvo Marsh', kind: 'technician' },
        ...body,
      });
    test.clock.tick(120);
    await say('moves', { to: 'at-work', reason: 'There' });
    const place = { kind: 'span', trunk: 'A', from: 'A1', to: 'A2' };
    await say('findings', { place, component: 'junction-in', mode: 'open-speech' });
    const parts = [{ name: 'wire ferrule', quantity: 2 }];
    await say('mendings', { mending: 'lasting', what: 'Joint remade', parts, minutes: 20 });
    const observations = stillToProve.map((point: object) => ({ ...point, outcome: 'works' }));
    await say('walk-tests', { observations });
    await say('moves', { to: 'closed', reason: 'Proven' });
    const { id: technicianId } = await test.addPerson('technician', { name: 'Runa Feld' });
    const upkeep = { kind: 'planned', on: DAY, purpose: 'Upkeep', upkeep: true };
    const { id: visitId } = await post('visits', { siteId: site, technicianId, ...upkeep });
    const by = 'Runa Feld';
    const confirmed = ['not-all-heard'];
    await post(`visits/${visitId}/moves`, { to: 'under-way', by });
    test.clock.tick(90);
    const done = { to: 'done', by, workDone: 'Heard', travelMinutes: 30, confirmed };
    await post(`visits/${visitId}/moves`, done);
    await test.app.get(JobService).settle();
    return { contract, number };
  }

  it('shows a year of a contract to be accepted, and what the next one should cost', async () => {
    const { body: prices } = await test.http.get('/api/v1/prices');
    await test.http
      .patch('/api/v1/prices')
      .set('If-Match', `"${prices.version}"`)
      .send({ currency: 'EUR', hourMinor: 5200, travelHourMinor: 4000 })
      .expect(200);
    const { contract, number } = await makeYear();
    const { email } = await test.addPerson('contract-manager', { name: 'Noor Ashby' });
    await signIn(email, `/desk/contracts/${contract}`);
    await heading('What the next year should cost');
    const cost = page.locator('.chart', { hasText: 'What each year went for, against its fee' });
    await says(/^Year 1: €[\d.]+ \+ €[\d.]+ \+ €[\d.]+ = €[\d.]+, of a fee of €2,400\.00$/, cost);
    await says(/, year 1: 1\.5 h on site, 0\.5 h on the way$/, page.locator('.chart-bar'));
    await lookOver(page, 'desk-contract-charts', ['phone', 'desk']);
    await says(/^From the model’s learned rates, .* a guess, no promise\./);
    const { body: told } = await test.http.get(`/api/v1/contracts/${contract}/should-cost`);
    expect(told.costMinor.high).toBeGreaterThan(told.costMinor.low);
    const euros = (minor: number) =>
      new Intl.NumberFormat('en-GB', { style: 'currency', currency: 'EUR' }).format(minor / 100);
    const { mean, low, high } = told.costMinor;
    await says(
      `Fee €2,400.00 against an expected cost of ${euros(mean)} (${euros(low)} to ${euros(high)}).`,
    );
    await role('row', `Cost ${euros(mean)} ${euros(low)} ${euros(high)}`).waitFor();
    await lookOver(page, 'desk-should-cost', ['phone']);
    await page.setViewportSize({ width: 1280, height: 900 });

    // Not to be had at once.
    await page.route('**/review', (route) => route.fulfill({ status: 503, body: '{}' }));
    await role('link', 'Review of a year').click();
    await heading('This did not work just now');
    await page.unroute('**/review');
    await role('button', 'Try again').click();
    await heading('Review: Upkeep of the lock');
    const { body: review } = await test.http.get(`/api/v1/contracts/${contract}/review`);
    expect(await page.locator('table').count()).toBe(await page.locator('caption').count());
    const response = review.promises.find(
      ({ promise }: { promise: string }) => promise === 'response',
    );
    expect(response).toMatchObject({ met: 0, breached: 1 });
    await role('row', 'somebody on site 0 1 0 2 h').waitFor();
    const ticket = page.getByRole('row', {
      name: new RegExp(`^${number} .* not kept: 2 h of 1 h`),
    });
    // When it was due and when somebody came: what a client asks first.
    const of = review.tickets[0].clock;
    const [due, came] = [of.promises[0].dueAt, of.promises[0].doneAt].map((instant: string) =>
      new Intl.DateTimeFormat('en-GB', {
        day: 'numeric',
        month: 'short',
        hour: '2-digit',
        minute: '2-digit',
        timeZone: of.zone,
      })
        .format(new Date(instant))
        // With its year where that is not the present one.
        .replace(',', '(?: 2026)?,'),
    );
    await ticket.getByText(new RegExp(`^Due ${due}; done ${came}$`)).waitFor();
    const asCsv = await role('link', 'Download as CSV Every ticket with its clock').getAttribute(
      'href',
    );
    expect(decodeURIComponent(asCsv!)).toContain(
      `,${of.promises[0].dueAt},${of.promises[0].doneAt},60,120,`,
    );
    await ticket.getByText('Line by line').first().click();
    const [clock] = review.tickets[0].clock.promises;
    await ticket.getByText(clock.lines[0].words, { exact: true }).waitFor();
    await ticket.getByText('Mended: Joint remade (2 × wire ferrule)').waitFor();
    const bell = review.availability.find((one: { function: string }) => one.function === 'bell');
    expect(bell.lostRoomHours).toBeGreaterThan(0);
    await role('row', new RegExp(` bell 3 .* ${(100 * bell.available).toFixed(2)} %$`)).waitFor();
    await says('With fewer than four failures no test can tell a trend.');
    await says(/^Mean time between failures of a site: /);
    // The charts say what the tables say, and are drawn to scale from zero: twice what was promised is twice as long.
    const held = page.locator('.chart-bar', { hasText: `Ticket ${number}, somebody on site:` });
    await says('2 h of 1 h', held);
    const taken = Number(await held.locator('rect.chart-part').getAttribute('width'));
    const [, promised] = /M ([\d.]+) 1 V/.exec(
      (await held.locator('.chart-mark').getAttribute('d'))!,
    )!;
    expect(taken / (Number(promised) - 6)).toBeCloseTo(2, 6);
    await says(`${(100 * bell.available).toFixed(2)} %`, page.locator('.chart-bar'));
    await says(/^Failures of the year so far: 1\. By all that is on record 1 were to be expected/);
    const failures = role('region', 'Failures as they came').getByRole('row');
    expect((await failures.allTextContents())[1]).toContain(String(number));
    await says(/ d, from .* d to .* d$/, page.locator('.chart-bar'));
    await lookOver(page, 'desk-review', ['phone', 'desk']);
    const sheet = await role('link', 'Every number of it (CSV)').getAttribute('href');
    expect(sheet).toBe(`/api/v1/contracts/${contract}/review/sheet?year=1&language=en`);
    expect((await context.request.get(`${address}${sheet}`)).status()).toBe(200);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      role('link', 'Download as CSV Availability in covered hours').click(),
    ]);
    expect(file.suggestedFilename()).toBe('Upkeep of the lock, Availability in covered hours.csv');

    // Somebody says how far it went, with a reason: it stands beside it.
    await post(`tickets/${review.tickets[0].clock.ticketId}/trouble-class`, {
      saidBy: { name: 'Noor Ashby', kind: 'office' },
      troubleClass: 'one-room',
      reason: 'The others were switched off',
    });
    await test.app.get(JobService).settle();
    await page.reload();
    await says(/^Somebody said so: The others were switched off\. By what was told and found, /);
    await role('link', 'Year 2').click();
    await says(/^From Mon 1 Mar 2027 to Tue 29 Feb 2028\./);
    expect(await page.getByText('Joint remade').count()).toBe(0);
    await role('link', 'Back to the contract').click();
    await heading('Upkeep of the lock');

    // A dispatcher has neither.
    await context.clearCookies();
    const dispatcher = await test.addPerson('dispatcher');
    await signIn(dispatcher.email, `/desk/contracts/${contract}`);
    await heading('Tickets and their clocks');
    expect(await role('link', 'Review of a year').count()).toBe(0);
    expect(await role('heading', 'What the next year should cost').count()).toBe(0);
    await page.goto(`${address}/desk/contracts/${contract}/review`);
    await says('Only an owner or a contract manager sees this page.');
    await says(/^Ask one of them: .*Noor Ashby/);
    expect(await page.getByText('Joint remade').count()).toBe(0);
    await page.goto(`${address}/desk/contracts/${contract}/correction`);
    await says('Only an owner or a contract manager sees this page.');
    expect(await page.getByLabel('Fee for a year').count()).toBe(0);
  });

  it('shows how long work takes and where that is from; an owner says otherwise', async () => {
    const { email } = await test.addPerson('dispatcher');
    await signIn(email, '/desk/work-times');
    await says('Nothing is learned yet');
    await says('Listen in a room: 1.5 min, as is usual');
    expect(await page.getByRole('textbox').count()).toBe(0);
    await context.clearCookies();

    await signIn(test.owner.email, '/desk/firm');
    await role('link', 'How long work takes').click();
    await heading('How long work takes');
    const listen = page.getByLabel('Listen in a room');
    await listen.fill('two');
    await role('button', 'Save').click();
    await says('Must be minutes, such as 2.5.');
    await listen.fill('900');
    await role('button', 'Save').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    await lookOver(page, 'desk-work-times', ['phone', 'desk']);
    await listen.fill('2,5');
    await page.getByLabel('Measure').fill('4');
    // Somebody else was quicker.
    await test.http
      .patch('/api/v1/work-times')
      .set('If-Match', '"0"')
      .send({ listen: 3, setUpLadder: 1 })
      .expect(200);
    await role('button', 'Save').click();
    await says('Both of you changed: Listen in a room.');
    expect(await page.getByLabel('Set up a ladder').inputValue()).toBe('1');
    await page.reload();
    expect(await listen.inputValue()).toBe('2,5');
    await role('button', 'Save').click();
    await says('It is saved.');
    const { body } = await test.http.get('/api/v1/work-times');
    const own = body.items.filter(({ from }: { from: string }) => from === 'own');
    expect(own.map((one: { name: string; minutes: number }) => [one.name, one.minutes])).toEqual([
      ['setUpLadder', 1],
      ['listen', 2.5],
      ['measure', 4],
    ]);
    await listen.fill('');
    await role('button', 'Save').click();
    await says('It is saved.');
    await says('1.5 min, as is usual');
  });
});
