import { existsSync } from 'node:fs';

import axe from 'axe-core';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core';

/** CHROMIUM names another one than Debian's. */
const PROGRAM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** The one browser of a test file; without one the test fails, so that it is never skipped unseen. */
export async function openBrowser(): Promise<Browser> {
  if (!existsSync(PROGRAM)) {
    throw new Error(`There is no ${PROGRAM}: apt-get install chromium, or name one by CHROMIUM.`);
  }
  return chromium.launch({
    executablePath: PROGRAM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  });
}

/** Ends what hangs, and says at what; a test may take longer by half. No speed test: the machine may be busy. */
const PATIENCE_MS = 120_000;

/** Somebody's browser, of which nobody else has a cookie. */
export async function openContext(
  browser: Browser,
  options?: BrowserContextOptions,
): Promise<BrowserContext> {
  const context = await browser.newContext(options);
  context.setDefaultTimeout(PATIENCE_MS);
  return context;
}

/**
 * What the page complains of from now on: errors of scripts, and what the content policy refused. A request that is refused, or
 * not answered, is what some tests are about.
 */
export function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    const isRefusal = /^Failed to load resource|net::ERR_/.test(message.text());
    if (message.type() === 'error' && !isRefusal) complaints.push(message.text());
  });
  return complaints;
}

/** What axe-core finds wrong with the page, each as its rule and the elements it is about. */
export async function findBarriers(page: Page): Promise<string[]> {
  const { violations } = await page.evaluate<axe.AxeResults>(`${axe.source}\naxe.run()`);
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`,
  );
}

/** Every page has a heading once it is there. Nobody presses keys on an empty one. */
export async function isDrawn(page: Page): Promise<void> {
  await page.locator('h1').first().waitFor();
}

/** What is drawn to measure is measured, and drawn anew, with the next frame. The one after it comes after that. */
export async function isMeasured(page: Page): Promise<void> {
  await page.evaluate(
    'new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())))',
  );
}

/** By how many pixels the page is wider than the screen. */
export async function overhang(page: Page): Promise<number> {
  await isMeasured(page);
  return page.evaluate<number>(
    'document.documentElement.scrollWidth - document.documentElement.clientWidth',
  );
}
