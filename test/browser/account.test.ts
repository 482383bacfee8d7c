import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';

import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';
import { Webhook } from 'standardwebhooks';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { PASSWORD, type TestApp } from '../support/test-app.js';

describe('one’s own account, in a browser', () => {
  const at = inBrowser({ locale: 'en-GB' }, { reachesPrivate: true });
  const { role, heading, says } = at;
  let test: TestApp;
  let address: string;
  let context: BrowserContext;
  let page: Page;
  let receiver: Server;
  const received: { headers: Record<string, string>; body: string }[] = [];

  beforeAll(async () => {
    receiver = createServer((request, response) => {
      let body = '';
      request.on('data', (part: Buffer) => (body += part.toString()));
      request.on('end', () => {
        received.push({ headers: request.headers as Record<string, string>, body });
        response.writeHead(204).end();
      });
    });
    await new Promise<void>((open) => receiver.listen(0, '127.0.0.1', open));
  });

  afterAll(() => {
    receiver?.close();
  });

  beforeEach(() => {
    ({ test, address, context, page } = at);
  });

  async function signIn(email: string, words = ['E-mail', 'Password', 'Sign in']): Promise<void> {
    const [mail, password, button] = words as [string, string, string];
    await page.goto(`${address}/sign-in?to=/account`);
    await page.getByLabel(mail).fill(email);
    await page.getByLabel(password).fill(PASSWORD);
    await role('button', button).click();
    await page.waitForURL(`${address}/account`);
  }

  it('asks to be told by mail and by webhook, shows its secret once, and has a way out', async () => {
    const site = await drawSite(test, [row('A', 3)]);
    await signIn(test.owner.email);
    await says('You asked to be told of nothing yet.');
    await page.getByText('Be told of something').click();
    await role('button', 'Ask for it').click();
    await page.locator('[data-wrong=true]').first().waitFor();
    await page.getByLabel('a new report').check();
    await page.getByLabel('How').selectOption('To a system of the firm (webhook)');
    await page.getByLabel('Where the webhook goes').fill('ftp://nowhere.example');
    await role('button', 'Ask for it').click();
    await page.locator('[aria-invalid=true]').first().waitFor();
    await lookOver(page, 'account-notices-wrong');
    const { port } = receiver.address() as AddressInfo;
    await page.getByLabel('Where the webhook goes').fill(`http://127.0.0.1:${port}/told`);
    await role('button', 'Ask for it').click();
    const secret = await page.getByText(/^whsec_/).innerText();
    await says(`To http://127.0.0.1:${port}/told, of a new report: every site`);

    await page.getByLabel('a visit tomorrow').check();
    await page.getByLabel('Of which site').selectOption('Larkfield Lower School');
    await role('button', 'Ask for it').click();
    await says('By mail, of a visit tomorrow: Larkfield Lower School');
    expect(await page.getByText(secret).count()).toBe(0);

    await test.http
      .post(`/api/v1/sites/${site}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    await test.app.get(JobService).settle();
    expect(received).toHaveLength(1);
    const [{ headers, body }] = received as [(typeof received)[number]];
    // The library judges by the real clock, ours stands still.
    expect(() => new Webhook(secret).verify(body, headers)).toThrow(/timestamp/);
    const signed = new Webhook(secret).sign(
      headers['webhook-id']!,
      new Date(Number(headers['webhook-timestamp']) * 1000),
      body,
    );
    expect(headers['webhook-signature']!.split(' ')).toContain(signed);

    const told = page.locator('li').filter({ hasText: '/told' });
    await told.getByText('What was told').click();
    await told.getByText(/^a new report, sent 2 Mar 2026/).waitFor();
    await lookOver(page, 'account-notices');
    await told.getByRole('button', { name: /^End it/ }).click();
    await told.getByText('(ended)').waitFor();
  });

  it('shows an owner what others asked for, and others their own alone', async () => {
    const dispatcher = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await signIn(dispatcher.email);
    await page.getByText('Be told of something').click();
    expect(await page.getByLabel('How').count()).toBe(0);
    await page.getByLabel('work to sign for').check();
    await role('button', 'Ask for it').click();
    await says('It is asked for.');
    await says('By mail, of work to sign for: every site');
    expect(await page.getByText(/visit tomorrow: /).count()).toBe(0);
    expect(await page.getByText('What others asked for').count()).toBe(0);
    await context.clearCookies();
    await signIn(test.owner.email);
    await says('By mail, of work to sign for: every site; asked for by Bea Orne');
  });

  it('keeps the language by person, wherever they sign in', async () => {
    const { email } = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    await signIn(email);
    await role('button', 'हिन्दी').click();
    await heading('आपका खाता, Ilvo Marsh');
    expect(await page.locator('html').getAttribute('lang')).toBe('hi');
    expect(await page.title()).toBe('Lastheard: आपका खाता');
    await lookOver(page, 'account-hindi');

    // Another browser, of somebody who reads Spanish: its sign-in page goes by it until somebody is known.
    await at.leave();
    await at.open({ locale: 'es-ES' });
    ({ context, page } = at);
    await page.goto(`${address}/sign-in`);
    await heading('Iniciar sesión en Lastheard');
    await lookOver(page, 'sign-in-spanish');
    await signIn(email, ['Correo electrónico', 'Contraseña', 'Iniciar sesión']);
    await heading('आपका खाता, Ilvo Marsh');
    await role('button', 'Français').click();
    await heading('Votre compte, Ilvo Marsh');
    await lookOver(page, 'account-french');
  });
});
