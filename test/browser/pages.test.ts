import { beforeEach, describe, expect, it } from '@jest/globals';
import { TOTP } from 'otpauth';
import type { BrowserContext, Page } from 'playwright-core';

import { FirstStartService } from '#app/access/first-start.service.js';
import { BackgroundService } from '#app/shared/background.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { PASSWORD, type TestApp } from '../support/test-app.js';

const PHONE = { width: 360, height: 740 };

describe('the pages, in a browser', () => {
  // Another zone than the site's, whose clocks the page goes by.
  const at = inBrowser({ viewport: PHONE, timezoneId: 'Asia/Tokyo' });
  let test: TestApp;
  let address: string;
  let siteId: string;
  let context: BrowserContext;
  let page: Page;

  beforeEach(async () => {
    ({ test, address, context, page } = at);
    siteId = await drawSite(test, [row('A', 8), row('B', 3)]);
  });

  async function issuePass(): Promise<{ id: string; secret: string }> {
    const { body } = await test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    return { id: body.id, secret: body.link.split('#')[1] };
  }

  const role = (kind: 'button' | 'heading' | 'textbox' | 'radio', name: string | RegExp) =>
    page.getByRole(kind, { name });
  const heading = (name: string | RegExp) => role('heading', name).waitFor();
  const says = (words: string | RegExp) => page.getByText(words).first().waitFor();
  const touch = (room: string) =>
    role('button', new RegExp(`^${room} `))
      .first()
      .click();

  const inspect = (name: string) => lookOver(page, name);

  async function planVisits(): Promise<void> {
    const technician = await test.addPerson('technician');
    const plan = async (on: string) => {
      const visit = { siteId, kind: 'planned', on, purpose: 'Upkeep', upkeep: true };
      const sent = { ...visit, technicianId: technician.id, confirmed: ['in-the-past'] };
      return (await test.http.post('/api/v1/visits').send(sent).expect(201)).body.id as string;
    };
    const done = await plan('2026-02-24');
    await plan('2026-03-09');
    const move = (body: object) =>
      technician.http.post(`/api/v1/visits/${done}/moves`).send({ by: 'Ilvo Marsh', ...body });
    await move({ to: 'under-way' }).expect(201);
    const workDone = 'Walked through all rooms; Room 3 remade.';
    await move({ to: 'done', workDone, confirmed: ['not-all-heard'] }).expect(201);
  }

  it('let a school office report, look, and sign, from the link on its poster', async () => {
    await planVisits();
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`);
    const patch = { servesEmergencyCalls: true };
    await test.http
      .patch(`/api/v1/sites/${siteId}`)
      .set('If-Match', `"${site.version}"`)
      .send(patch)
      .expect(200);
    const { secret } = await issuePass();

    await page.goto(`${address}/pass#${secret}`);
    await heading('Larkfield Lower School');
    expect(page.url()).toBe(`${address}/pass`);
    await says('Somebody is due on Monday 9 March 2026');
    await says('This system also carries emergency calls.');
    await page.goBack();
    expect(page.url()).not.toContain(secret);
    await page.goForward();
    await heading('Larkfield Lower School');
    await inspect('pass');

    await role('button', 'Send').click();
    for (const words of ['say what you tried', 'touch the rooms', 'say who you are']) {
      await says(words);
    }
    await inspect('pass-wrong');
    expect(await page.locator(':focus').getAttribute('type')).toBe('radio');

    await page.keyboard.press('Space');
    await role('radio', 'Bell').check();
    const rooms = page.getByRole('group', { name: 'Line A' }).locator('.room');
    await rooms.nth(2).click();
    expect(await rooms.nth(2).innerText()).toMatch(/Room 3\s+silent/);
    await rooms.nth(2).click();
    expect(await rooms.nth(2).innerText()).toMatch(/Room 3\s+heard/);
    await rooms.nth(2).click();
    expect(await rooms.nth(2).innerText()).toMatch(/Room 3\s+faint/);
    await rooms.nth(2).click();
    expect(await rooms.nth(2).innerText()).toMatch(/Room 3\s+not said/);
    for (const room of [2, 2, 4, 5]) await rooms.nth(room).click();
    await says('2 silent, 1 heard');
    await role('textbox', 'Your name').first().fill('Mara Quill');
    await inspect('pass-filled');

    // What was entered outlives a reload, and a service that is not reached; what arrived twice is one.
    await page.reload();
    await says('2 silent, 1 heard');
    await page.route('**/pass/reports', async (route) => {
      await route.fetch();
      await route.abort();
    });
    await role('button', 'Send').click();
    await says('The service was not reached. Nothing that you entered is lost');
    await page.unroute('**/pass/reports');
    await role('button', 'Send').click();
    await heading(/^Thank you\. Your ticket is number \d+\.$/);
    const { body: tickets } = await test.http.get(`/api/v1/tickets?site=${siteId}`).expect(200);
    expect(tickets.items).toHaveLength(1);
    const ticket = `/api/v1/tickets/${tickets.items[0].id}`;
    const entries = async () => (await test.http.get(`${ticket}/log`).expect(200)).body.items;
    expect(await entries()).toHaveLength(1);
    const { body: said } = await test.http.get(`${ticket}/observations`).expect(200);
    const told = said.items.map((one: Record<string, string>) => `${one.node} ${one.outcome}`);
    expect(told.sort()).toEqual(['A3 works', 'A5 fails', 'A6 fails']);

    await says('Bell, not working in: Room 5, Room 6');
    await says(/Only look and listen/);
    await inspect('pass-sent');
    const head = page.getByRole('group', { name: /Is the cabinet in the office switched on/ });
    await head.getByRole('button', { name: 'yes' }).click();
    await says('Thank you, that is noted.');
    expect(await head.getByRole('button', { name: 'yes' }).getAttribute('aria-pressed')).toBe(
      'true',
    );
    const checks = page
      .locator('.checks > li')
      .filter({ has: page.getByRole('button', { name: /^(dark|silent)$/ }) });
    const before = await checks.allInnerTexts();
    expect(before.length).toBeGreaterThan(0);
    expect(before.length).toBeLessThanOrEqual(3);
    await checks.first().getByRole('button').last().click();
    await page.getByText(before[0]!.split('\n')[0]!).waitFor({ state: 'detached' });
    expect(await entries()).toHaveLength(3);

    await page.reload();
    await heading('Larkfield Lower School');
    await role('button', /What you can check/).click();
    await says(/Bell, not working in: .*Room 5, Room 6/);
    const sheet = page.locator('form').filter({ hasText: 'Visit on Tuesday 24 February 2026' });
    await sheet.getByLabel('Remark').fill('The hall is loud again');
    const pen = await sheet.locator('svg.pen').boundingBox();
    await page.mouse.move(pen!.x + 20, pen!.y + 30);
    await page.mouse.down();
    await page.mouse.move(pen!.x + 120, pen!.y + 60);
    await page.mouse.up();
    await sheet.getByRole('img', { name: 'Signed here by hand' }).waitFor();
    await inspect('pass-open');
    await sheet.getByRole('button', { name: 'Sign' }).click();
    await says('signed as Mara Quill');
    await page.reload();
    await heading('Larkfield Lower School');
    expect(await page.getByText('Work to sign for').count()).toBe(0);
  });

  it('say at the rooms what the service will not take', async () => {
    const { secret } = await issuePass();
    await page.goto(`${address}/pass#${secret}`);
    await role('radio', 'Bell').check();
    await touch('Room 1');
    await touch('Room 1');
    await role('textbox', 'Your name').first().fill('Mara Quill');
    await role('button', 'Send').click();
    await says('All of it works, and no ticket is open there that it could join.');
    await says('0 silent, 1 heard');
  });

  it('work by keyboard alone', async () => {
    const { secret } = await issuePass();
    await page.goto(`${address}/pass#${secret}`);
    await heading('Report silent rooms');
    const tabTo = async (name: RegExp) => {
      for (let presses = 0; presses < 30; presses++) {
        await page.keyboard.press('Tab');
        const words = await page.evaluate<string>(
          '(document.activeElement.labels?.[0] ?? document.activeElement).innerText',
        );
        if (name.test(words)) return;
      }
      throw new Error(`The Tab key does not come to ${String(name)}`);
    };
    await tabTo(/Announcement/);
    await page.keyboard.press('ArrowRight');
    await tabTo(/Room 4/);
    await page.keyboard.press('Enter');
    await tabTo(/Your name/);
    await page.keyboard.type('Mara Quill');
    await page.keyboard.press('Enter');
    await heading(/^Thank you/);
    expect(await page.locator(':focus').innerText()).toMatch(/^Thank you/);
    await says('Bell, not working in: Room 4');
    await says(/Since 2 Mar 2026, (08|09|1\d):/);

    await role('button', 'Report more rooms').click();
    await role('radio', 'Bell').check();
    await touch('Room 4');
    await touch('Room 4');
    await role('button', 'Send').click();
    await says('Bell, said to work again in: Room 4. The technician will try it there.');
  });

  it('go on after a sitting has ended, and say so politely when the pass has', async () => {
    const pass = await issuePass();
    await page.goto(`${address}/pass#${pass.secret}`);
    await role('radio', 'Music').check();
    await touch('Room 2');
    await role('textbox', 'Your name').first().fill('Mara Quill');
    test.clock.tick(2 * 60);
    await role('button', 'Send').click();
    await heading(/^Thank you/);

    test.clock.tick(2 * 60);
    await page.reload();
    await heading('Please open the poster’s link');
    await inspect('pass-over');

    await test.http.post(`/api/v1/passes/${pass.id}/end`).expect(204);
    await page.goto(`${address}/pass#${pass.secret}`);
    await heading('This poster was replaced');
    await says('look for a newer poster, or ring the service firm');
    await inspect('pass-ended');

    // The next poster's link, opened in the same tab, changes only what stands behind the #.
    const next = await issuePass();
    await page.goto(`${address}/pass#${next.secret}`);
    await heading('Larkfield Lower School');
    await page.goto(`${address}/pass#${'A'.repeat(22)}`);
    await heading('Please open the poster’s link');
  });

  it('wait with the link until the service is reached', async () => {
    const { secret } = await issuePass();
    await page.route('**/pass/session', (route) => route.abort());
    await page.goto(`${address}/pass#${secret}`);
    await heading('This did not work just now');
    await page.unroute('**/pass/session');
    await role('button', 'Try again').click();
    await heading('Larkfield Lower School');
  });

  it('let somebody who was invited choose a password', async () => {
    const email = 'runa.feld@firm.example';
    const body = { name: 'Runa Feld', email, role: 'technician' };
    const owner = test.browser();
    const credentials = { email: test.owner.email, password: PASSWORD };
    const { body: session } = await owner.post('/api/v1/session').send(credentials).expect(200);
    await owner
      .post('/api/v1/invitations')
      .set('X-CSRF-Token', session.csrfToken)
      .send(body)
      .expect(201);
    const { body: outbox } = await owner.get('/api/v1/outbox').expect(200);
    const secret = /password#([\w-]+)/.exec(outbox.items[0].text)![1]!;

    await page.goto(`${address}/password#${secret}`);
    await heading('Choose a password');
    expect(page.url()).toBe(`${address}/password`);
    await inspect('password');
    const choose = async (password: string) => {
      await page.getByLabel('New password').fill(password);
      await role('button', 'Set this password').click();
    };
    await choose('too short');
    await says('The password has 9 characters and needs at least 12.');
    expect(await page.locator(':focus').getAttribute('type')).toBe('password');
    await choose('password2026!!');
    await says('The password is one of the passwords that are tried first.');
    await inspect('password-wrong');
    await page.getByLabel('Show what I type').check();
    const chosen = 'a lantern under the bridge';
    await choose(chosen);
    await heading('Your password is set');
    expect(await page.getByRole('link', { name: 'Sign in' }).getAttribute('href')).toBe('/sign-in');
    await inspect('password-done');
    await test.browser().post('/api/v1/session').send({ email, password: chosen }).expect(200);

    await page.goto(`${address}/password#${secret}`);
    await heading('Choose a password');
    await choose(chosen);
    await heading('This link cannot be used');
    await says('used already or is too old');
    await page.reload();
    await says('open the link in your mail once more');
    await inspect('password-over');
  });

  it('tell what still acts as somebody whose password changes, and stop it', async () => {
    const person = await test.addPerson('dispatcher');
    const { email } = person;
    const openLink = async () => {
      await test.browser().post('/api/v1/password-resets').send({ email }).expect(202);
      await test.app.get(BackgroundService).settle();
      const owner = test.browser();
      const credentials = { email: test.owner.email, password: PASSWORD };
      await owner.post('/api/v1/session').send(credentials).expect(200);
      const { body: outbox } = await owner.get('/api/v1/outbox').expect(200);
      await page.goto('about:blank');
      await page.goto(`${address}/password#${/password#([\w-]+)/.exec(outbox.items[0].text)![1]!}`);
      await heading('Choose a password');
    };
    const choose = async (password: string) => {
      await page.getByLabel('New password').fill(password);
      await role('button', 'Set this password').click();
      await heading('Your password is set');
    };
    await openLink();
    await choose('a lantern under the bridge');
    await heading('What still acts as you');
    await inspect('password-tokens');
    await person.http.get('/api/v1/sites').expect(200);
    await openLink();
    await page.getByLabel('Also stop every program that acts as me').check();
    await choose('a heron beside the weir');
    expect(await page.getByText('What still acts as you').count()).toBe(0);
    await person.http.get('/api/v1/sites').expect(401);
  });

  it('lets people in, asks for the second step, tells who they are, and lets them out', async () => {
    await page.goto(address);
    await heading('Sign in to Lastheard');
    expect(page.url()).toBe(`${address}/sign-in`);
    await inspect('sign-in');
    const enter = async (email: string, password: string) => {
      await page.getByLabel('E-mail').fill(email);
      await page.getByLabel('Password').fill(password);
      await role('button', 'Sign in').click();
    };
    await role('button', 'Sign in').click();
    await says('Please enter your e-mail.');
    await says('Please enter your password.');
    expect(await page.locator(':focus').getAttribute('autocomplete')).toBe('username');
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await enter(email, 'not the password at all');
    await says(/is wrong|do not/);
    expect(await page.locator(':focus').getAttribute('autocomplete')).toBe('current-password');
    await inspect('sign-in-wrong');

    await enter(email, PASSWORD);
    await heading('You are signed in, Bea Orne');
    await says('You are a dispatcher');
    expect(await page.getByRole('link').first().getAttribute('href')).toBe('/desk');
    await inspect('signed-in');
    await page.reload();
    await heading('You are signed in, Bea Orne');
    await role('button', 'Sign out').click();
    await says('You are signed out.');
    await page.reload();
    await heading('Sign in to Lastheard');

    const totp = await addSecondStep(email);
    await enter(email, PASSWORD);
    await heading('The second step');
    await inspect('sign-in-code');
    await role('button', 'Sign in').click();
    await says('Please enter a code.');
    await page.getByLabel('Code').fill('000000');
    await role('button', 'Sign in').click();
    await says('The code is wrong or was used already.');
    test.clock.tick(2);
    await page.getByLabel('Code').fill(totp.generate({ timestamp: test.clock.now().getTime() }));
    await role('button', 'Sign in').click();
    await heading('You are signed in, Bea Orne');
    // A session that is gone meanwhile is what signing out asks for.
    await context.clearCookies();
    await role('button', 'Sign out').click();
    await says('You are signed out.');
  });

  it('mails a link to whoever forgot the password', async () => {
    await page.goto(`${address}/sign-in`);
    await role('button', 'I forgot my password').click();
    await heading('Choose a new password');
    await role('button', 'Send me a link').click();
    await says('Please enter your e-mail.');
    await inspect('forgotten');
    const { email } = await test.addPerson('technician');
    await page.getByLabel('E-mail').fill(email);
    await role('button', 'Send me a link').click();
    await heading('Look into your mail');
    await inspect('forgotten-sent');
    await role('button', 'Back to signing in').click();
    await heading('Sign in to Lastheard');
    const { body } = await test.browser().post('/api/v1/session').send({ email, password: 'x' });
    expect(body.status).toBe(401);
  });

  async function addSecondStep(email: string): Promise<TOTP> {
    const person = test.browser();
    const signingIn = { email, password: PASSWORD };
    const { body: session } = await person.post('/api/v1/session').send(signingIn).expect(200);
    const post = (path: string, body: object) =>
      person.post(`/api/v1${path}`).set('X-CSRF-Token', session.csrfToken).send(body);
    const { body } = await post('/second-step', { password: PASSWORD }).expect(201);
    const totp = new TOTP({ secret: body.secret });
    const code = totp.generate({ timestamp: test.clock.now().getTime() });
    await post('/second-step/confirm', { code }).expect(200);
    return totp;
  }

  it('are served so that they load nothing else and are never old', async () => {
    for (const path of ['/pass', '/password', '/sign-in']) {
      const { headers, text } = await test.browser().get(path).expect(200);
      expect(headers['content-type']).toBe('text/html; charset=utf-8');
      expect(headers['cache-control']).toBe('no-cache');
      expect(headers['content-security-policy']).toContain("script-src 'self';style-src 'self'");
      expect(headers['referrer-policy']).toBe('no-referrer');
      const [asset] = /\/assets\/[\w-]+\.js/.exec(text)!;
      const { headers: kept } = await test.browser().get(asset).expect(200);
      expect(kept['cache-control']).toBe('public, max-age=31536000, immutable');
    }
    await test.browser().get('/assets/none.js').expect(404);
    await test.browser().get('/assets/..%2fpass.html').expect(404);
    await test.browser().get('/assets/..%2f..%2fmain.js').expect(404);
  });

  it('make the first owner and the first site, once', async () => {
    const firmId = '01900000-0000-7000-8000-0000000000f8';
    await test.addFirm(firmId);
    await page.goto(`${address}/first-start`);
    await says('Somebody can sign in here already');
    const code = await test.app.get(FirstStartService).begin(firmId);
    await page.goto(`${address}/first-start#${code}`);
    await heading('The first start');
    expect(page.url()).toBe(`${address}/first-start`);
    await role('textbox', 'Your name').fill('Bea Orne');
    await page.getByLabel('A password').fill('short');
    await role('button', 'Begin').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    await inspect('first-start');
    await role('textbox', /^E-mail/).fill('bea.orne@new.example');
    await page.getByLabel('A password').fill(PASSWORD);
    await role('button', 'Begin').click();
    await heading('Your first site');
    await role('textbox', /^Whose it is/).fill('Orrin Vale Works');
    await role('button', 'Add it').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    await inspect('first-site');
    await role('textbox', /^The site/).fill('Sluice Works');
    await role('textbox', /^Time zone/).fill('Europe/Lisbon');
    await role('button', 'Add it').click();
    await heading('Sluice Works');
    await page.goto(`${address}/first-start#${code}`);
    await says('Somebody can sign in here already');
  });

  it('let people look after their own sign-in', async () => {
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    const elsewhere = test.browser();
    await elsewhere.post('/api/v1/session').send({ email, password: PASSWORD }).expect(200);
    await page.goto(`${address}/account`);
    await page.getByRole('link', { name: 'Sign in' }).click();
    await role('textbox', 'E-mail').fill(email);
    await page.getByLabel('Password').fill(PASSWORD);
    await role('button', 'Sign in').click();
    await heading('Your account, Bea Orne');
    expect(await page.locator('html').getAttribute('lang')).toBe('en');
    await role('button', /^Sign out there/).click();
    await role('button', /^Sign out there/).waitFor({ state: 'detached' });
    await elsewhere.get('/api/v1/session').expect(401);

    await page.getByText('Make a token for a program').click();
    await role('button', 'Make it').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    await role('textbox', 'What it is for').fill('Export');
    await page.getByLabel('read tickets', { exact: true }).check();
    await role('button', 'Make it').click();
    const shown = await page.getByText(/^lastheard_/).innerText();
    const asToken = test.browser().get('/api/v1/tickets').auth(shown, { type: 'bearer' });
    await asToken.expect(200);
    await inspect('account');
    await role('button', 'Take it away Export').click();
    await role('button', 'Take it away Export').waitFor({ state: 'detached' });
    await test.browser().get('/api/v1/tickets').auth(shown, { type: 'bearer' }).expect(401);

    await page.getByText('Switch it on').click();
    await page.getByLabel('Your password, again').fill(PASSWORD);
    await role('button', 'Go on').click();
    await role('textbox', 'The code').waitFor();
    const secret = await page.locator('code.breaks').first().innerText();
    await inspect('account-second-step');
    const totp = new TOTP({ secret });
    const code = totp.generate({ timestamp: test.clock.now().getTime() });
    await role('textbox', 'The code').fill(code);
    await role('button', 'Switch it on').click();
    await says('Each of these codes lets you in once');
    expect(await page.locator('.codes li').count()).toBeGreaterThan(4);
    const again = { email, password: PASSWORD };
    const refused = await test.browser().post('/api/v1/session').send(again).expect(401);
    expect(refused.body.type).toMatch(/second-step/);

    await page.getByLabel('The password that you have').fill(PASSWORD);
    await page.getByLabel('The new one').fill('short');
    await role('button', 'Change it').click();
    await says(/The password .*12/);
    await page.getByLabel('The new one').fill('a stork behind the gasworks');
    await role('button', 'Change it').click();
    await says('It is changed.');
  });

  it('say in words that there is nothing at an address; programs are told as ever', async () => {
    const answered = await page.goto(`${address}/pass/nowhere`);
    expect(answered!.status()).toBe(404);
    await heading('There is nothing here');
    await heading('Aquí no hay nada');
    await inspect('missing');
    const asProgram = await test.browser().get('/pass/nowhere').expect(404);
    expect(asProgram.headers['content-type']).toMatch(/problem\+json/);
    const api = await test.browser().get('/api/v1/nowhere').set('Accept', 'text/html').expect(404);
    expect(api.headers['content-type']).toMatch(/problem\+json/);
  });
});
