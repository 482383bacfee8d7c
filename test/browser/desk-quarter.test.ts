import { beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser, WEEK } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { PASSWORD, type TestApp, type TestPerson } from '../support/test-app.js';

/** The Monday that the clock of the tests shows. */
const FROM = '2026-03-02';

describe('the plan of a quarter at the desk, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says, signIn, post } = at;
  let test: TestApp;
  let address: string;
  let context: BrowserContext;
  let page: Page;
  let ilvo: TestPerson;
  let sanna: TestPerson;
  let bea: TestPerson;

  beforeEach(() => {
    ({ test, address, context, page } = at);
  });

  /** Two neighbours and one far away, each with a visit promised every quarter, and two who could go. */
  beforeAll(async () => {
    ({ test } = at);
    ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    sanna = await test.addPerson('technician', { name: 'Sanna Threlk' });
    bea = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    for (const [{ id }, skills] of [
      [ilvo, ['tower']],
      [sanna, []],
    ] as const) {
      await test.http
        .put(`/api/v1/people/${id}/working-time`)
        .set('If-Match', '"0"')
        .send({ hours: WEEK, skills, startLatitude: 47.1, startLongitude: -28.4 })
        .expect(200);
    }
    for (const [name, latitude] of [
      ['Larkfield Lower School', 47.3],
      ['Sluice Works', 47.31],
      ['Tarn Depot', 47.9],
    ] as const) {
      const site = await drawSite(test, [row('A', 2)]);
      const { body } = await test.http
        .patch(`/api/v1/sites/${site}`)
        .set('If-Match', '"1"')
        .send({ name, latitude, longitude: -28.4 })
        .expect(200);
      await promise(site, body.clientId);
    }
  });

  /** A visit each quarter, on workdays. */
  const promise = (siteId: string, clientId: string) =>
    post('contracts', {
      clientId,
      title: 'Care of the bells',
      siteIds: [siteId],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 4,
      feeMinor: 90_000,
      currency: 'EUR',
      promises: [],
      coverage: { windows: WEEK },
    });

  const onRope = (name: RegExp) => page.locator('.ropes').getByRole('button', { name });

  it('is asked for, says why, keeps to what is wanted over a reload, and is booked', async () => {
    await signIn(bea.email, '/desk/days/2026-03-01');
    await role('link', 'The quarter').click();
    await heading('The quarter');
    expect(page.url()).toMatch(/\/desk\/quarters\/2026-03-02$/);
    await says('6 promised visits are not booked yet.');
    await says('Not planned yet');
    await lookOver(page, 'desk-quarter-owed', ['phone', 'desk']);

    // The better plan takes its time: the first one is drawn meanwhile.
    let letGo = () => {};
    const held = new Promise<void>((resolve) => (letGo = resolve));
    await page.route('**/plans/quarters/*', async (route) => {
      if (route.request().postDataJSON()?.isQuick === false) await held;
      await route.continue();
    });
    await role('button', 'Plan these weeks').click();
    await says(/^A first plan is there: it weighs \d+, and none can weigh less than \d+\./);
    await onRope(/Tarn Depot/)
      .first()
      .waitFor();
    await lookOver(page, 'desk-quarter-solving', ['phone', 'desk']);
    letGo();
    await says(/^6 visits placed, none left\. Made /);
    await says(/^No plan is better/);
    await says('Everything is placed.');
    expect(await page.getByText('one way for 2').count()).toBe(2);

    await onRope(/Sluice Works/)
      .nth(1)
      .click();
    await heading('Why it lies here');
    await says('One way does for it and Larkfield Lower School.');
    await says(/^The next best is .* minutes more\.$|^It could as well be on /);
    await lookOver(page, 'desk-quarter', ['phone', 'desk']);
    await role('link', 'area').click();
    await says('Larkfield Lower School and 1 site near it');
    await lookOver(page, 'desk-quarter-by-area', ['phone', 'desk']);

    // Elsewhere, with a reason; what is typed and the plan are there after a reload.
    const where = page.getByLabel('Where it lies');
    await where.selectOption('On the day, or with whom I say');
    await role('button', 'Keep this, and plan anew').click();
    await says('Name a day, or who makes it.');
    await says('Please say why, for whoever plans after you.');
    await page.getByLabel('On this day').fill('2026-06-30');
    await page.getByLabel('With').selectOption('Sanna Threlk');
    await page.getByLabel('Why', { exact: true }).fill('The caretaker asked for it');
    await page.reload();
    await says(/^6 visits placed, none left\./);
    await onRope(/Sluice Works/)
      .nth(1)
      .click();
    expect(await page.getByLabel('On this day').inputValue()).toBe('2026-06-30');
    await role('button', 'Keep this, and plan anew').click();
    await says('Must be from 2026-03-02 on and before 2026-06-01.');
    await page.getByLabel('On this day').fill('2026-05-19');
    await role('button', 'Keep this, and plan anew').click();
    await says(/^\d visits? lies? elsewhere than before\.$/);
    await page
      .getByRole('group', {
        name: /^Tue 19 May(?: 2026)?, Larkfield Lower School and 1 site near it$/,
      })
      .getByRole('button', { name: /Sluice Works.*as Bea Orne wants it · before: / })
      .waitFor();
    await says(/^Bea Orne wanted it so at .*, because: The caretaker asked for it$/);
    // Somebody else wants it otherwise meanwhile: it is told, with the name, before it is put away.
    const { body: kept } = await test.http.get(`/api/v1/plans/quarters/${FROM}`);
    const [{ version, changedBy: _by, changedAt: _at, ...wish }] = kept.wishes;
    await test.owner.http
      .put(`/api/v1/plans/quarters/${FROM}/wishes`)
      .set('If-Match', `"${version}"`)
      .send({ ...wish, reason: 'The yard is closed' })
      .expect(200);
    await page.getByLabel('Why', { exact: true }).fill('The caretaker asked again');
    await role('button', 'Keep this, and plan anew').click();
    await says(/^Somebody else has wanted something of this visit meanwhile/);
    await says(/ wanted it so at .*, because: The yard is closed$/);
    await page.getByLabel('Why', { exact: true }).fill('The caretaker asked for it');
    await role('button', 'Keep this, and plan anew').click();
    await says(/^Bea Orne wanted it so at .*, because: The caretaker asked for it$/);
    await role('button', 'Book all 6 visits').waitFor();

    // Not with whoever can: it is left, and says what conflicts.
    await role('checkbox', 'tower').check();
    await role('button', 'Keep this, and plan anew').click();
    await says('5 visits placed, 1 left.');
    await says('What is wanted of it cannot all be.');
    await says('who you named');
    await says('the skills that it needs');
    await role('button', 'Book all 5 visits').waitFor();
    await lookOver(page, 'desk-quarter-left', ['phone', 'desk']);
    await role('checkbox', 'tower').uncheck();
    await role('button', 'Keep this, and plan anew').click();
    await says(/^6 visits placed, none left\./);

    await role('button', 'Book all 6 visits').click();
    await says('6 visits are booked.');
    await says('Every visit that is promised in these weeks is booked.');
    const { body } = await test.http.get('/api/v1/visits?on=2026-05-19').expect(200);
    // Its neighbour came along.
    expect(body.items).toHaveLength(2);
    const reasons = [];
    for (const { id, technicianId, upkeep } of body.items) {
      expect([technicianId, upkeep]).toEqual([sanna.id, true]);
      const { body: wish } = await test.http.get(`/api/v1/plans/jobs/${id}/wish`).expect(200);
      reasons.push([wish.pinnedTo, wish.reason]);
    }
    expect(reasons).toContainEqual([sanna.id, 'The caretaker asked for it']);
    expect(reasons).toContainEqual([null, null]);
  });

  it('is refused and asked about in the reader’s language, by visit, and is read alone by others', async () => {
    const sites = [];
    for (const code of ['A', 'B']) {
      const site = await drawSite(test, [row(code, 2)]);
      const { body } = await test.http.get(`/api/v1/sites/${site}`).expect(200);
      await promise(site, body.clientId);
      sites.push(site);
    }
    await at.leave();
    await at.open({ ...DESK_SCREEN, locale: 'fr-FR' });
    ({ context, page } = at);
    const enter = async (email: string, to: string) => {
      const data = { email, password: PASSWORD };
      const signedIn = await context.request.post(`${address}/api/v1/session`, { data });
      expect(signedIn.status()).toBe(200);
      await page.goto(`${address}${to}`);
    };
    await enter(bea.email, `/desk/quarters/${FROM}`);
    await heading('Le trimestre');
    await role('button', 'Planifier ces semaines').click();
    await role('button', 'Réserver les 4 visites').waitFor();
    // Somebody else is quicker.
    const visits = [{ siteId: sites[0], on: '2026-03-05', technicianId: ilvo.id }];
    await post(`plans/quarters/${FROM}/acceptance`, { visits });
    await role('button', 'Réserver les 4 visites').click();
    await page
      .getByRole('alert')
      .getByText(/^Une visite n’y est plus due/)
      .waitFor();
    await role('button', 'Les replanifier').click();
    await role('button', 'Réserver les 3 visites').click({ trial: true });
    // What is late was to be made on that very day; it is the next one, and the session is over.
    test.clock.tick(24 * 60);
    await enter(bea.email, `/desk/quarters/${FROM}`);
    await role('button', 'Réserver les 3 visites').click();
    const asked = page.getByRole('alert');
    await asked.getByText(/, le lun\. 2 mars(?: 2026)? : /).waitFor();
    await lookOver(page, 'desk-quarter-asked', ['phone', 'desk']);
    await role('button', 'C’est bien voulu : les réserver').click();
    await says('3 visites sont réservées.');
    await context.clearCookies();

    const manager = await test.addPerson('contract-manager', { name: 'Cato Lind' });
    await enter(manager.email, `/desk/quarters/${FROM}`);
    await heading('Le trimestre');
    expect(await role('button', 'Planifier ces semaines').count()).toBe(0);
  });
});
