import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';

import { addressOf, fillFirm, PAGES, PAGES_FOR_ANYBODY } from '../support/all-pages.js';
import { findBarriers, openBrowser, openContext, overhang } from '../support/open-browser.js';
import { buildTestApp, PASSWORD, type TestApp } from '../support/test-app.js';

/** WCAG 2.2, 1.4.10: as narrow as that nothing scrolls sideways; 1.4.4: with text twice as big. */
const SIZES = [
  { width: 320, text: '100%' },
  { width: 320, text: '200%' },
  { width: 390, text: '200%' },
  { width: 1280, text: '200%' },
] as const;

describe('every page, in a browser', () => {
  let test: TestApp;
  let browser: Browser;
  let address: string;
  let made: Readonly<Record<string, string>>;
  let context: BrowserContext;

  beforeAll(async () => {
    test = await buildTestApp();
    await test.app.listen(0, '127.0.0.1');
    address = (await test.app.getUrl()).replace('localhost', '127.0.0.1');
    browser = await openBrowser();
    made = await fillFirm(test);
    context = await openContext(browser, { reducedMotion: 'reduce' });
    const data = { email: test.owner.email, password: PASSWORD };
    const answer = await context.request.post(`${address}/api/v1/session`, { data });
    expect(answer.status()).toBe(200);
  });

  afterAll(async () => {
    await browser?.close();
    await test?.close();
  });

  async function open(page: Page, path: string): Promise<void> {
    await page.goto('about:blank');
    await page.goto(`${address}${addressOf(path, made)}`);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    const waiting = page.getByRole('status').filter({ hasText: 'One moment…' });
    await waiting.first().waitFor({ state: 'detached' });
  }

  /** What reaches beyond the right edge, for whoever looks for the reason. */
  const WIDEST = `[...document.querySelectorAll('body *')]
    .filter((one) => one.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
    .filter((one) => one.closest('.scrolls') === null)
    .slice(-3).map((one) => one.outerHTML.slice(0, 120))`;

  async function tryWidths(page: Page, path: string): Promise<unknown[]> {
    const wrong: unknown[] = [];
    await open(page, path);
    for (const { width, text } of SIZES) {
      await page.setViewportSize({ width, height: 800 });
      await page.evaluate(`document.documentElement.style.fontSize = '${text}'`);
      const by = await overhang(page);
      if (by > 0) wrong.push([path, width, text, by, await page.evaluate(WIDEST)]);
    }
    const barriers = await findBarriers(page);
    if (barriers.length > 0) wrong.push([path, ...barriers]);
    return wrong;
  }

  it('is narrow enough, and in nobody’s way, for an owner', async () => {
    const page = await context.newPage();
    const wrong: unknown[] = [];
    for (const path of PAGES) wrong.push(...(await tryWidths(page, path)));
    expect(wrong).toEqual([]);
  });

  it('is so for whoever is not signed in', async () => {
    const stranger = await openContext(browser, { reducedMotion: 'reduce' });
    const page = await stranger.newPage();
    const wrong: unknown[] = [];
    for (const path of PAGES_FOR_ANYBODY) wrong.push(...(await tryWidths(page, path)));
    expect(wrong).toEqual([]);
    await stranger.close();
  });
});
