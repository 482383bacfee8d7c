import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { findBarriers, openBrowser, overhang } from '../support/open-browser.js';
import { buildTestApp, PASSWORD, type TestApp } from '../support/test-app.js';

/** WCAG 2.2, 1.4.10: as narrow as that nothing scrolls sideways; 1.4.4: with text twice as big. */
const SIZES = [
  { width: 320, text: '100%' },
  { width: 390, text: '200%' },
  { width: 1280, text: '200%' },
] as const;

const DAY = '2026-03-04';
const LONG_NAME = 'Larkfield Lower School and Teachers’ Training Establishment';

/** Everything that has an address, for one who may see all of it. `{…}` is what was made for the test. */
const PAGES = [
  '/account',
  '/sign-in',
  '/desk',
  '/desk/call',
  '/desk/tickets/{ticket}',
  `/desk/days/${DAY}`,
  '/desk/days/2026-03-05',
  '/desk/sites',
  '/desk/sites/{site}',
  '/desk/sites/{site}/poster',
  '/desk/sites/{site}/record',
  '/desk/sites/{site}/versions',
  '/desk/contracts',
  '/desk/contracts/new',
  '/desk/contracts/{contract}',
  '/desk/contracts/{contract}/next',
  '/desk/contracts/{contract}/correction',
  '/desk/firm',
  '/desk/work-times',
  '/desk/nowhere',
  '/field',
  '/field/tickets/{ticket}',
  '/field/visits/{visit}',
  '/field/waiting',
  '/nowhere',
];

const PAGES_FOR_ANYBODY = [
  '/sign-in',
  '/password',
  '/password#AAAA',
  '/first-start',
  '/way-out#AAAA',
  '/pass#{pass}',
  '/pass#AAAA',
  '/desk',
  '/account',
  '/field',
];

describe('every page, in a browser', () => {
  let test: TestApp;
  let browser: Browser;
  let address: string;
  let made: Record<string, string>;
  let context: BrowserContext;

  beforeAll(async () => {
    test = await buildTestApp();
    await test.app.listen(0, '127.0.0.1');
    address = (await test.app.getUrl()).replace('localhost', '127.0.0.1');
    browser = await openBrowser();
    made = await fillFirm();
    context = await browser.newContext({ reducedMotion: 'reduce' });
    const data = { email: test.owner.email, password: PASSWORD };
    const answer = await context.request.post(`${address}/api/v1/session`, { data });
    expect(answer.status()).toBe(200);
  });

  afterAll(async () => {
    await browser?.close();
    await test?.close();
  });

  const post = async (path: string, body: object = {}, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;

  /** A site with names that are long, a ticket on it with a visit, a contract, a day that is planned, a pass. */
  async function fillFirm(): Promise<Record<string, string>> {
    const site = await drawSite(test, [row('A', 14), row('B', 3)]);
    const place = { name: LONG_NAME, latitude: 47.1, longitude: -28.4 };
    const { body: named } = await test.http
      .patch(`/api/v1/sites/${site}`)
      .set('If-Match', '"1"')
      .send(place)
      .expect(200);
    const contract = await post('contracts', {
      title: 'Upkeep of all announcements and bells, as agreed',
      clientId: named.clientId,
      siteIds: [site],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 2,
      feeMinor: 240000,
      currency: 'EUR',
      promises: [{ troubleClass: 'one-room', responseMinutes: 480, restoreMinutes: 960 }],
      coverage: { windows: [{ weekday: 1, from: '08:00', until: '17:00' }] },
    });
    const { tickets } = await post(`sites/${site}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: [
        { trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' },
        { trunk: 'A', node: 'A5', function: 'bell', outcome: 'fails' },
      ],
    });
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const hours = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:00' }));
    await test.http
      .put(`/api/v1/people/${technician.id}/working-time`)
      .set('If-Match', '"0"')
      .send({ hours, skills: [], startLatitude: 47.1, startLongitude: -28.4 })
      .expect(200);
    const visit = await post('visits', {
      siteId: site,
      kind: 'call-out',
      on: DAY,
      purpose: 'Rooms silent',
      technicianId: technician.id,
      ticketIds: [tickets[0].id],
    });
    await post(`plans/days/${DAY}`);
    const pass = await post(`sites/${site}/passes`);
    await test.app.get(JobService).settle();
    const ids = { site, contract: contract.id, visit: visit.id, ticket: tickets[0].number };
    return { ...ids, pass: pass.link.split('#')[1] };
  }

  async function open(page: Page, path: string): Promise<void> {
    await page.goto('about:blank');
    await page.goto(`${address}${path.replace(/\{(\w+)\}/, (_, name: string) => made[name]!)}`);
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
    const stranger = await browser.newContext({ reducedMotion: 'reduce' });
    const page = await stranger.newPage();
    const wrong: unknown[] = [];
    for (const path of PAGES_FOR_ANYBODY) wrong.push(...(await tryWidths(page, path)));
    expect(wrong).toEqual([]);
    await stranger.close();
  });
});
