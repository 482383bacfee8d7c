import { beforeAll, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { type Language, pageWordsIn } from '#app/words/index.js';

import { addressOf, fillFirm } from '../support/all-pages.js';
import { englishIn, latinIn, saidOn, sentencesIn } from '../support/english-left.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { PASSWORD } from '../support/test-app.js';

/**
 * Pages that tell the most of what was kept: what they say comes from their own tables and from the service. That no page has
 * words of its own beside the tables is held by literal-words.test.ts, without a browser.
 */
const PAGES = [
  '/desk',
  '/desk/tickets/{ticket}',
  '/desk/days/2026-03-04',
  '/desk/sites/{site}',
  '/desk/contracts/{contract}',
  '/desk/contracts/{contract}/review',
  '/desk/contracts/{contract}/correction',
  '/desk/call?site={site}',
  '/desk/visits/new?site={site}',
  '/desk/quarters/2026-03-02',
  '/desk/planning/{technician}',
  '/desk/prices',
  '/desk/work-times',
  '/desk/firm',
];

/** What people entered, which nobody translates. */
const ENTERED = [
  'Larkfield Lower School and Teachers’ Training Establishment',
  'Upkeep of all announcements and bells, as agreed',
  'station unit RS-2 with a loudspeaker for halls',
  'Rooms silent',
  'Ilvo Marsh',
  'Mara Quill',
  'Some owner',
  'Drawn for the test',
];

/** The desk's own words, as the pages were built from. */
async function wordsOfDesk(language: string): Promise<unknown> {
  const file = new URL(`../web/desk/words/words-${language}.js`, import.meta.url);
  const { [`DESK_IN_${language.toUpperCase()}`]: words } = await import(file.href);
  return words;
}

/** Planted beside all that is said: each is found. */
const LEFT = ['Nobody has looked yet', 'A plan was made of this day'];

describe('the desk in another language, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  let made: Record<string, string>;
  let entered: string[];
  let context: BrowserContext;
  let page: Page;

  beforeAll(async () => {
    made = await fillFirm(at.test);
    const { body: listed } = await at.test.http.get(`/api/v1/tickets?number=${made.ticket}`);
    const answered = { saidBy: { name: 'Mara Quill', kind: 'office' }, question: 'head-end-on' };
    for (const answer of ['unknown', 'yes'])
      await at.test.http
        .post(`/api/v1/tickets/${listed.items[0].id}/answers`)
        .send({ ...answered, answer })
        .expect(201);
    const { body } = await at.test.http.get(`/api/v1/sites/${made.site}`).expect(200);
    const { body: client } = await at.test.http.get(`/api/v1/clients/${body.clientId}`).expect(200);
    const { body: firm } = await at.test.http.get('/api/v1/firm').expect(200);
    entered = [...ENTERED, client.name, firm.name, at.test.owner.email];
  });

  /** Says each page and what it has left over. */
  async function read(locale: Language, left: (said: readonly string[]) => string[]) {
    ({ context, page } = at);
    const { failedNow } = pageWordsIn(locale);
    await context.addInitScript(`localStorage.setItem('lastheard language', '"${locale}"')`);
    const data = { email: at.test.owner.email, password: PASSWORD };
    const answer = await context.request.post(`${at.address}/api/v1/session`, { data });
    expect(answer.status()).toBe(200);
    const found: [string, string[]][] = [];
    for (const path of PAGES) {
      await page.goto(`${at.address}${addressOf(path, made)}`);
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      // Where the machine is busy, what is worked out may not have come in time: the page asks for it again by itself.
      await page.getByRole('heading', { name: failedNow }).waitFor({ state: 'detached' });
      await page.locator('[role=status]', { hasText: '…' }).first().waitFor({ state: 'detached' });
      expect(await page.locator('html').getAttribute('lang')).toBe(locale);
      const said = await saidOn(page);
      expect([path, said.length > 12]).toEqual([path, true]);
      expect(left([...said, ...LEFT]).slice(-2)).toEqual(LEFT);
      const rest = left(said);
      if (rest.length > 0) found.push([path, rest]);
    }
    return found;
  }

  it.each(['fr', 'es'] as const)('has nothing left of English in %s', async (locale) => {
    const own = await wordsOfDesk(locale);
    const sentences = new Set(sentencesIn(await wordsOfDesk('en'), own));
    expect(sentences.size).toBeGreaterThan(300);
    expect(await read(locale, (said) => englishIn(said, entered, sentences))).toEqual([]);
  });

  it('has nothing left of Latin letters in Hindi but names', async () => {
    expect(await read('hi', (said) => latinIn(said, entered))).toEqual([]);
  });
});
