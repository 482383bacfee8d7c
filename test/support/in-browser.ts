import { afterAll, afterEach, beforeAll, beforeEach, expect } from '@jest/globals';
import type {
  Browser,
  BrowserContext,
  BrowserContextOptions,
  Locator,
  Page,
} from 'playwright-core';

import { complaintsOf, openBrowser, openContext } from './open-browser.js';
import { signInOn } from './sign-in-on.js';
import { buildTestApp, type TestApp, type TestSettings } from './test-app.js';

/** The app that a file of browser tests is about, and for each test a browser of somebody who was never there. */
export class InBrowser {
  test!: TestApp;
  address!: string;
  context!: BrowserContext;
  page!: Page;
  private browser?: Browser;
  private complaints: string[] = [];

  role = (kind: Parameters<Page['getByRole']>[0], name: string | RegExp) =>
    this.page.getByRole(kind, { name });
  heading = (name: string | RegExp) => this.role('heading', name).first().waitFor();
  says = (words: string | RegExp, within: Page | Locator = this.page) =>
    within.getByText(words).first().waitFor();
  /** What a request of the owner's makes. */
  post = async (path: string, body: object) =>
    (await this.test.http.post(`/api/v1/${path}`).send(body).expect(201)).body;
  signIn = (email: string, to: string) => signInOn(this.page, `${this.address}${to}`, email);

  /** On a technician's phone: from the list to the first step of a ticket. */
  async openJob(number: number): Promise<void> {
    await this.role('link', new RegExp(`^${number}, `))
      .first()
      .click();
    await this.role('button', 'I have read this').click();
    await this.page.locator('button.ending').first().waitFor();
  }

  async start(settings?: TestSettings): Promise<void> {
    this.test = await buildTestApp(settings);
    await this.test.app.listen(0, '127.0.0.1');
    this.address = (await this.test.app.getUrl()).replace('localhost', '127.0.0.1');
    this.browser = await openBrowser();
  }

  async stop(): Promise<void> {
    await this.browser?.close();
    await this.test?.close();
  }

  async open(options: BrowserContextOptions): Promise<void> {
    this.context = await openContext(this.browser!, options);
    this.page = await this.context.newPage();
    this.complaints = complaintsOf(this.page);
  }

  /** Fails where the page complained of anything. */
  async leave(): Promise<void> {
    await this.context?.close();
    expect(this.complaints).toEqual([]);
  }
}

/** Call in `describe`, before hooks of its own. */
export function inBrowser(options: BrowserContextOptions, settings?: TestSettings): InBrowser {
  const at = new InBrowser();
  beforeAll(() => at.start(settings));
  afterAll(() => at.stop());
  beforeEach(() => at.open(options));
  afterEach(() => at.leave());
  return at;
}

/** Hours of a contract, or of somebody's work. */
export const WEEK = [1, 2, 3, 4, 5].map((weekday) => {
  return { weekday, from: '08:00', until: '16:00' };
});

/**
 * For pages that go by the machine's own clock: where it is noon on the day that it is by UTC. A phone asks for the cautions once a
 * day, and that is to be no other one before the test is over.
 */
export const AT_NOON = { timezoneId: zoneOfNoon(new Date()) };

function zoneOfNoon(now: Date): string {
  const east = 12 - now.getUTCHours();
  // These names count to the west.
  return east < 0 ? `Etc/GMT+${-east}` : `Etc/GMT-${east}`;
}

export const DESK_SCREEN = { viewport: { width: 1280, height: 900 } };
