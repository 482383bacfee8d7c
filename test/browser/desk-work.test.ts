import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { lookOver } from '../support/look-over.js';
import { complaintsOf, openBrowser, signInOn } from '../support/open-browser.js';
import { buildTestApp, type TestApp } from '../support/test-app.js';

/** A Wednesday. */
const DAY = '2026-03-04';
const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:00' }));

describe('the desk’s days and contracts, in a browser', () => {
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
    complaints = complaintsOf(page);
  });

  afterEach(async () => {
    await context.close();
    expect(complaints).toEqual([]);
  });

  const role = (kind: Parameters<Page['getByRole']>[0], name: string | RegExp) =>
    page.getByRole(kind, { name });
  const heading = (name: string | RegExp) => role('heading', name).first().waitFor();
  const says = (words: string | RegExp) => page.getByText(words).first().waitFor();

  const signIn = (email: string, to: string) => signInOn(page, `${address}${to}`, email);

  const post = async (path: string, body: object) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(201)).body;

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
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
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
    const planned = page.waitForResponse((one) => one.url().endsWith(`/plans/days/${DAY}`));
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
    await role('button', 'Save the minutes').click();
    await says('Must be minutes, such as 2.5.');
    await listen.fill('900');
    await role('button', 'Save the minutes').click();
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
    await role('button', 'Save the minutes').click();
    await says('Both of you changed: Listen in a room.');
    expect(await page.getByLabel('Set up a ladder').inputValue()).toBe('1');
    await page.reload();
    expect(await listen.inputValue()).toBe('2,5');
    await role('button', 'Save the minutes').click();
    await says('They are saved.');
    const { body } = await test.http.get('/api/v1/work-times');
    const own = body.items.filter(({ from }: { from: string }) => from === 'own');
    expect(own.map((one: { name: string; minutes: number }) => [one.name, one.minutes])).toEqual([
      ['setUpLadder', 1],
      ['listen', 2.5],
      ['measure', 4],
    ]);
    await listen.fill('');
    await role('button', 'Save the minutes').click();
    await says('They are saved.');
    await says('1.5 min, as is usual');
  });
});
