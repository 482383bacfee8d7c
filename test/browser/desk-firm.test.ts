import { beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { BackgroundService } from '#app/shared/background.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { PASSWORD, type TestApp } from '../support/test-app.js';

describe('what the firm’s contracts and plans go by, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says, signIn } = at;
  let test: TestApp;
  let address: string;
  let context: BrowserContext;
  let page: Page;

  beforeEach(() => {
    ({ test, address, context, page } = at);
  });

  it('shows and changes the firm’s prices, and loses nothing of what two typed at once', async () => {
    const { email } = await test.addPerson('dispatcher');
    await signIn(email, '/desk/prices');
    await says('Owners and contract managers see the prices.');
    expect(await page.getByRole('textbox').count()).toBe(0);
    await context.clearCookies();

    await signIn(test.owner.email, '/desk/firm');
    await role('link', 'The firm’s prices').click();
    await heading('The firm’s prices');
    await says(/^No prices are entered yet/);
    await page.getByLabel('An hour on site').fill('52.5o');
    await role('button', 'Save').click();
    await says('Must be an amount, such as 52.50.');
    await page.getByLabel('An hour on site').fill('52,50');
    await page.getByLabel('An hour on the road').fill('40');
    await page.getByLabel('Currency').fill('eurs');
    for (const [nth, name, price] of [
      [1, 'Wire ferrule', '0.25'],
      [2, 'WIRE FERRULE', '3'],
    ] as const) {
      await role('button', 'Add a part').click();
      const part = page.getByRole('group', { name: `Part ${nth}` });
      await part.getByLabel('Name').fill(name);
      await part.getByLabel('Price of one').fill(price);
    }
    // What is typed outlives a reload.
    await page.reload();
    const second = page.getByRole('group', { name: 'Part 2' });
    expect(await second.getByLabel('Price of one').inputValue()).toBe('3');
    await role('button', 'Save').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    expect(await page.locator(':focus').getAttribute('aria-invalid')).toBe('true');
    await page.getByLabel('Currency').fill('eur');
    await role('button', 'Save').click();
    await second.getByText('Has a price already.').waitFor();
    await lookOver(page, 'desk-prices', ['phone', 'desk']);
    await second.getByLabel('Name').fill('Fuse 2 A');
    await role('button', 'Save').click();
    await says('It is saved.');
    const { body } = await test.http.get('/api/v1/prices').expect(200);
    const parts = [
      { name: 'Wire ferrule', minor: 25 },
      { name: 'Fuse 2 A', minor: 300 },
    ];
    expect(body).toMatchObject({ currency: 'EUR', hourMinor: 5250, travelHourMinor: 4000, parts });

    // Somebody else is quicker with one part, and with the hour.
    await page.getByLabel('An hour on site').fill('55');
    await role('button', 'Take it off Fuse 2 A').click();
    await test.http
      .patch('/api/v1/prices')
      .set('If-Match', '"1"')
      .send({ hourMinor: 6000, parts: [{ name: 'Wire ferrule', minor: 30 }, parts[1]] })
      .expect(200);
    await role('button', 'Save').click();
    await says('Both of you changed: An hour on site. It stands as you typed it.');
    const first = page.getByRole('group', { name: 'Part 1' });
    expect(await first.getByLabel('Price of one').inputValue()).toBe('0.3');
    await role('button', 'Save').click();
    await says('It is saved.');
    const { body: met } = await test.http.get('/api/v1/prices').expect(200);
    expect(met).toMatchObject({ hourMinor: 5500, parts: [{ name: 'Wire ferrule', minor: 30 }] });
  });

  it('says who works when and how ways are reckoned, and changes both', async () => {
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    const ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const sites = [];
    for (const name of ['Larkfield Lower School', 'Sluice Works']) {
      const site = await drawSite(test, [row('A', 2)]);
      await test.http
        .patch(`/api/v1/sites/${site}`)
        .set('If-Match', '"1"')
        .send({ name })
        .expect(200);
      sites.push(site);
    }
    await signIn(email, '/desk/days/2026-03-02');
    await role('link', 'What plans go by').click();
    await heading('Who works when');
    await says('Nothing was said yet: no plan has this technician.');
    await lookOver(page, 'desk-planning', ['phone', 'desk']);
    await role('link', /^Ilvo Marsh/).click();
    await heading('Ilvo Marsh');
    await page.getByLabel('Monday, from').fill('08:00');
    await page.getByLabel('Monday, to').fill('16:00');
    await role('button', 'Tuesday to Friday as on Monday').click();
    await page.getByLabel('Monday, to').fill('07:00');
    await page.getByLabel('What they can do').fill('tower, head-end');
    await page.getByLabel(/latitude$/).fill('47,1');
    await page.getByLabel('First day off').fill('2026-08-03');
    await page.getByLabel('Last day off, if there are several').fill('2026-08-14');
    await role('button', 'Add these days').click();
    await says(/^Mon 3 Aug(?: 2026)? to Fri 14 Aug/);
    // What is typed outlives a reload.
    await page.reload();
    await says(/^Mon 3 Aug(?: 2026)? to Fri 14 Aug/);
    await role('button', 'Save').click();
    await says('Must be given together with the other, or neither.');
    await lookOver(page, 'desk-working-time', ['phone', 'desk']);
    await page.getByLabel(/longitude$/).fill('-28.4');
    await role('button', 'Save').click();
    await says('Must be after 08:00.');
    await page.getByLabel('Monday, to').fill('16:00');
    await role('button', 'Save').click();
    await says('It is saved.');
    const { body: times } = await test.http.get('/api/v1/working-times').expect(200);
    const own = times.items.find(({ personId }: { personId: string }) => personId === ilvo.id);
    expect(own).toMatchObject({ skills: ['tower', 'head-end'], startLatitude: 47.1, version: 1 });
    expect(own.daysOff).toHaveLength(12);
    await role('link', 'What plans go by').click();
    await says('Monday to Friday 08:00–16:00. Can do: tower and head-end.');

    await page.getByLabel('Kilometres an hour').fill('2');
    await page.getByLabel('From', { exact: true }).selectOption('Sluice Works');
    await page.getByLabel('To', { exact: true }).selectOption('Larkfield Lower School');
    await role('button', 'Add this road').click();
    await role('button', 'Save').click();
    await says('Must be a number, such as 12.5.');
    const road = page.getByLabel(/^(Sluice Works and Lark|Larkfield Lower School and Sluice)/);
    await road.fill('2500');
    await role('button', 'Save').click();
    await says('Must not be less than 5.');
    await says('Must not be greater than 2000.');
    await lookOver(page, 'desk-planning-refused', ['phone', 'desk']);
    await road.fill('7,5');
    await page.getByLabel('Kilometres an hour').fill('60');
    await test.http
      .patch('/api/v1/planning-rules')
      .set('If-Match', '"0"')
      .send({ upkeepMinutes: 150 })
      .expect(200);
    await role('button', 'Save').click();
    await says('Nothing is saved yet: look it through and save again.');
    await role('button', 'Save').click();
    await says('It is saved.');
    const { body: rules } = await test.http.get('/api/v1/planning-rules').expect(200);
    expect(rules).toMatchObject({ kmPerHour: 60, upkeepMinutes: 150, version: 2 });
    expect(rules.roads).toEqual([{ siteIds: [...sites].sort(), km: 7.5 }]);
    await context.clearCookies();

    const manager = await test.addPerson('contract-manager');
    await signIn(manager.email, '/desk/planning');
    await says('Kilometres an hour: 60');
    await says('Dispatchers and owners change this.');
  });

  it('says that a page cannot be reached, and opens it once it can', async () => {
    await signIn(test.owner.email, '/desk');
    await heading('Silent now');
    await page.route('**/assets/firm-pages-*', (route) => route.abort());
    await role('link', 'The firm').click();
    await says(/^The service was not reached/);
    await page.unroute('**/assets/firm-pages-*');
    await role('button', 'Try again').click();
    await role('link', 'The firm’s prices').waitFor();
    expect(new URL(page.url()).pathname).toBe('/desk/firm');
  });

  it('says who did what in words', async () => {
    await test.http.post('/api/v1/clients').send({ name: 'Some' }).expect(201);
    const { http } = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    await http.post('/api/v1/contracts').send({}).expect(403);
    test.clock.tick(2);
    await http.get('/api/v1/contracts').expect(403);
    await test.app.get(BackgroundService).settle();
    await signIn(test.owner.email, '/desk/firm');
    await heading('Who did what');
    await says(/: adding a client$/);
    await says('Ilvo Marsh: making a contract, refused');
    await says('Ilvo Marsh: reading something, refused');
    expect(await page.getByText('/api/v1').count()).toBe(0);
    await lookOver(page, 'desk-firm-who-did-what', ['desk']);
  });

  it('refuses prices in the reader’s language', async () => {
    const { email } = await test.addPerson('contract-manager');
    await at.leave();
    await at.open({ ...DESK_SCREEN, locale: 'hi-IN' });
    ({ context, page } = at);
    await context.request.post(`${address}/api/v1/session`, {
      data: { email, password: PASSWORD },
    });
    await page.goto(`${address}/desk/prices`);
    await heading('फ़र्म की क़ीमतें');
    await page.getByLabel('मुद्रा').fill('X');
    await role('button', 'सहेजें').click();
    await page.locator('[aria-invalid=true]').waitFor();
    const complaint = await page.locator('.field .error').first().textContent();
    expect(complaint).toMatch(/[\u0900-\u097f]/);
    expect(complaint).not.toMatch(/ISO4217|must/);
    await lookOver(page, 'desk-prices-hindi', ['phone']);
  });

  it('shows and changes what a van carries, for a dispatcher and for the technician whose it is', async () => {
    const ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const path = `/api/v1/people/${ilvo.id}/van`;
    const { email } = await test.addPerson('dispatcher');
    await signIn(email, `/desk/planning/${ilvo.id}`);
    await role('link', 'The van of Ilvo Marsh').click();
    await heading('The van of Ilvo Marsh');
    await says('Nothing was said yet: plans do not weigh what may be missing.');
    for (const name of ['connectors', '30 m of trunk cable', 'Connectors']) {
      await page.getByLabel('Another part').fill(name);
      await role('button', 'Add this part').click();
    }
    const connectors = page.getByLabel('connectors', { exact: true });
    await connectors.fill('many');
    await role('button', 'Save').click();
    await says('Must be a whole number, such as 2.');
    await connectors.fill('40');
    // What is typed outlives a reload.
    await page.reload();
    expect(await connectors.inputValue()).toBe('40');
    await role('button', 'Save').click();
    await says('Is there already.');
    await lookOver(page, 'desk-van', ['phone', 'desk']);
    await page.getByRole('button', { name: 'Take it off Connectors', exact: true }).click();
    await role('button', 'Save').click();
    await says('It is saved.');
    const parts = [
      { name: 'connectors', quantity: 40 },
      { name: '30 m of trunk cable', quantity: 1 },
    ];
    expect((await test.http.get(path)).body).toMatchObject({ parts, version: 1 });

    // Theirs to correct, and nobody else's to see.
    await context.clearCookies();
    await signIn(ilvo.email, '/desk/planning');
    await role('link', 'What is in your van').click();
    await heading('The van of Ilvo Marsh');
    await connectors.fill('12');
    await role('button', 'Save').click();
    await says('It is saved.');
    expect((await test.http.get(path)).body.parts[0]).toEqual({ name: 'connectors', quantity: 12 });
  });
});
