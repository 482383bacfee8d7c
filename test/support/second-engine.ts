import { existsSync } from 'node:fs';

import puppeteer, {
  type Browser,
  type BrowserContext,
  type HTTPRequest,
  type HTTPResponse,
  type Page,
} from 'puppeteer-core';

/** FIREFOX names another one than Debian's. */
const PROGRAM = process.env.FIREFOX ?? '/usr/bin/firefox-esr';

/** Firefox, driven by WebDriver BiDi; without one the test fails, so that it is never skipped unseen. */
export async function openSecondEngine(): Promise<Browser> {
  if (!existsSync(PROGRAM)) {
    throw new Error(`There is no ${PROGRAM}: apt-get install firefox-esr, or name one by FIREFOX.`);
  }
  return puppeteer.launch({ browser: 'firefox', executablePath: PROGRAM, timeout: 120_000 });
}

/** Resolves with whether the page is there, by its own sign: its heading, and nothing that is still being read. */
const isThere = (patienceMs: number) => `new Promise((resolve) => {
  const look = () => {
    if (document.querySelector('h1') === null) return;
    const waits = [...document.querySelectorAll('[role="status"]')];
    if (waits.some((one) => one.textContent.includes('One moment…'))) return;
    end(true);
  };
  const end = (is) => {
    watcher.disconnect();
    clearTimeout(timer);
    resolve(is);
  };
  const watcher = new MutationObserver(look);
  const timer = setTimeout(() => end(false), ${patienceMs});
  watcher.observe(document, { subtree: true, childList: true, characterData: true });
  look();
})`;

/** Events of the server never end: one request may be under way when the page is said to be at rest. */
const AT_REST = { idleTime: 50, concurrency: 1 };

/** What Firefox calls a request that its page left behind or gave up: the network failed nobody. */
const GIVEN_UP = 'NS_BINDING_ABORTED';

/** A tab of the second engine for one address. Another address has another tab: what the page before still has under way is told of late. */
export class SecondTab {
  private readonly complaints: string[] = [];
  private origin = '';

  private constructor(readonly page: Page) {
    page.on('pageerror', (error) => this.hear('error', (error as Error).message));
    page.on('console', (message) => {
      if (message.type() === 'error') this.hear('console', message.text());
    });
    page.on('requestfailed', (request) => {
      const why = request.failure()?.errorText ?? 'without a reason';
      if (why !== GIVEN_UP) this.hearOfRequest(request, `failed: ${why}`);
    });
    page.on('response', (response) => {
      if (isWrong(response))
        this.hearOfRequest(response.request(), `answered ${response.status()}`);
    });
  }

  static async open(context: Browser | BrowserContext): Promise<SecondTab> {
    return new SecondTab(await context.newPage());
  }

  /** Opens an address and waits until its page is there and at rest: what it complained of until then, each in a line. */
  async visit(address: string, patienceMs = 60_000): Promise<readonly string[]> {
    this.origin = new URL(address).origin;
    await this.page.goto(address);
    if (await this.page.evaluate(isThere(patienceMs))) await this.page.waitForNetworkIdle(AT_REST);
    else this.hear('page', `not there after ${patienceMs / 1000} s`);
    return [...this.complaints];
  }

  private hear(from: string, what: string): void {
    this.complaints.push(`${from}: ${what}`);
  }

  private hearOfRequest(request: HTTPRequest, what: string): void {
    const url = request.url();
    if (this.origin !== '' && url.startsWith(this.origin))
      this.hear('request', `${url.slice(this.origin.length)} ${what}`);
  }
}

/** A page that is nowhere says so by its own status; all that a page asks for is to be answered well. */
function isWrong(response: HTTPResponse): boolean {
  return response.status() >= (response.request().isNavigationRequest() ? 500 : 400);
}
