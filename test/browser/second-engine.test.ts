import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext } from 'puppeteer-core';

import { addressOf, fillFirm, PAGES, PAGES_FOR_ANYBODY } from '../support/all-pages.js';
import { openSecondEngine, SecondTab } from '../support/second-engine.js';
import { buildTestApp, PASSWORD, type TestApp } from '../support/test-app.js';

const HEAD = '<!doctype html><meta charset="utf-8"><link rel="icon" href="data:,">';

/** All that may be wrong with a page, at once. */
const BROKEN = `${HEAD}
<meta http-equiv="Content-Security-Policy" content="img-src data:">
<h1>Broken</h1>
<img src="/refused.png" alt="">
<script>
  console.error('said on the console');
  Promise.reject(new Error('nobody waits for it'));
  fetch('/cut-off').catch(() => {});
  const giveUp = new AbortController();
  fetch('/given-up', { signal: giveUp.signal }).catch(() => {});
  setTimeout(() => giveUp.abort());
  fetch('/api/v1/answered').catch(() => {});
  setTimeout(() => { throw new Error('thrown in a page'); });
</script>
<script src="/not-there.js"></script>`;

async function visit(
  context: Browser | BrowserContext,
  address: string,
  patienceMs?: number,
): Promise<readonly string[]> {
  const tab = await SecondTab.open(context);
  const complaints = await tab.visit(address, patienceMs);
  await tab.page.close();
  return complaints;
}

describe('every page, in a second engine', () => {
  let browser: Browser;

  beforeAll(async () => {
    browser = await openSecondEngine();
  });

  afterAll(async () => {
    await browser?.close();
  });

  describe('that can tell a broken page', () => {
    let server: Server;
    let address: string;

    beforeAll(async () => {
      server = createServer(({ url, socket }, response) => {
        const pages: Record<string, string> = { '/broken': BROKEN, '/empty': `${HEAD}<p>…</p>` };
        if (url === '/cut-off') socket.destroy();
        else if (url === '/given-up') return;
        else if (url === '/api/v1/answered') response.writeHead(422).end();
        else if (url !== undefined && url in pages)
          response.setHeader('content-type', 'text/html').end(pages[url]);
        else response.writeHead(404).end();
      });
      await new Promise<void>((resolve) => void server.listen(0, '127.0.0.1', resolve));
      address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    });

    afterAll(async () => {
      server?.closeAllConnections();
      await new Promise((resolve) => void server?.close(resolve));
    });

    it('reports all that a page complains of, and not what it gave up itself', async () => {
      const wrong = await visit(browser, `${address}/broken`);
      expect([...wrong].sort()).toEqual([
        'console: said on the console',
        expect.stringMatching(/^error: Content-Security-Policy: .*\/refused\.png/),
        'error: Error: nobody waits for it',
        'error: Error: thrown in a page',
        'request: /api/v1/answered answered 422',
        'request: /cut-off failed: NS_ERROR_NET_RESET',
        'request: /not-there.js answered 404',
      ]);
    });

    it('reports a page that does not come, and nothing of another', async () => {
      const wrong = await visit(browser, `${address}/empty`, 300);
      expect(wrong).toEqual(['page: not there after 0.3 s']);
    });
  });

  describe('of the product', () => {
    let test: TestApp;
    let address: string;
    let made: Readonly<Record<string, string>>;

    beforeAll(async () => {
      test = await buildTestApp();
      await test.app.listen(0, '127.0.0.1');
      address = (await test.app.getUrl()).replace('localhost', '127.0.0.1');
      made = await fillFirm(test);
    });

    afterAll(async () => {
      await test?.close();
    });

    const visitAll = async (context: BrowserContext, paths: readonly string[]) => {
      const wrong: unknown[] = [];
      for (const path of paths) {
        const complaints = await visit(context, `${address}${addressOf(path, made)}`);
        if (complaints.length > 0) wrong.push([path, ...complaints]);
      }
      return wrong;
    };

    /** What the service is asked to find out who is there. */
    const toAStranger = 'request: /api/v1/session answered 401';

    it('opens for whoever is not signed in, and complains of nothing but that', async () => {
      const context = await browser.createBrowserContext();
      expect(await visitAll(context, PAGES_FOR_ANYBODY)).toEqual([
        ['/sign-in', toAStranger],
        ['/pass#AAAA', 'request: /api/v1/pass/session answered 401'],
        ['/desk', toAStranger],
        ['/account', toAStranger],
        ['/field', toAStranger],
      ]);
      await context.close();
    });

    it('opens for an owner who signs in, and complains of nothing', async () => {
      const context = await browser.createBrowserContext();
      await signIn(await SecondTab.open(context));
      // That day has no plan yet, and neither has the one on the machine's calendar, which the map is of.
      const unplanned = 'request: /api/v1/plans/days/2026-03-05 answered 404';
      const today = /^request: \/api\/v1\/plans\/days\/\d{4}-\d\d-\d\d answered 404$/;
      expect(await visitAll(context, PAGES)).toEqual([
        ['/desk/days/2026-03-05', unplanned],
        ['/desk/map', expect.stringMatching(today)],
      ]);
      await context.close();
    });

    async function signIn(tab: SecondTab): Promise<void> {
      const { page } = tab;
      await tab.visit(`${address}/sign-in`);
      await page.type('input[autocomplete="username"]', test.owner.email);
      await page.type('input[type="password"]', PASSWORD);
      const isAnswered = page.waitForResponse(
        (response) => response.status() === 200 && response.request().method() === 'POST',
      );
      await page.keyboard.press('Enter');
      await isAnswered;
      await page.close();
    }
  });
});
