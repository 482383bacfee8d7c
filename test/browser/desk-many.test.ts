import { beforeAll, describe, expect, it } from '@jest/globals';
import type { Page } from 'playwright-core';

import { JobService } from '#app/jobs/job.service.js';

import { copyTicket } from '../support/copy-ticket.js';
import { statementsOf } from '../support/count-statements.js';
import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { openContext } from '../support/open-browser.js';
import { signInOn } from '../support/sign-in-on.js';
import type { TestApp } from '../support/test-app.js';

const ROOMS = 40;
const SHOWN = 500;
/** Open beyond those. */
const MORE = 120;

describe('the desk with more open tickets than it shows, in a browser', () => {
  // Jobs look for work every two seconds, which would be counted too.
  const at = inBrowser(DESK_SCREEN, { jobsRest: true });
  let test: TestApp;

  beforeAll(() => {
    ({ test } = at);
  });

  async function report(rooms: number): Promise<number> {
    const siteId = await drawSite(test, [row('A', rooms)]);
    const said = (node: string, outcome: string) => {
      return { trunk: 'A', node, function: 'announcement', outcome };
    };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'gone-through',
        observations: [said('A1', 'works'), said(`A${rooms}`, 'fails')],
      })
      .expect(201);
    await test.app.get(JobService).settle();
    return body.tickets[0].number as number;
  }

  const readDesk = () => test.http.get('/api/v1/desk').expect(200);
  const statements = async () => (await statementsOf(test.app, readDesk)).length;
  const elements = (page: Page) => page.evaluate<number>('document.querySelectorAll("*").length');

  it('is a few statements and a few elements a ticket, and every screen hears of a new one', async () => {
    const number = await report(ROOMS);
    await copyTicket(test, number, SHOWN + MORE - 1);
    expect(await statements()).toBeLessThanOrEqual(10);

    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    const other = await (await openContext(at.context.browser()!, DESK_SCREEN)).newPage();
    const screens = [at.page, other];
    for (const page of screens) {
      await signInOn(page, `${at.address}/desk`, email);
      await page
        .locator('.now-row')
        .nth(SHOWN - 1)
        .waitFor();
    }
    expect((await elements(at.page)) / SHOWN).toBeLessThan(30);
    // What is out of sight is neither laid out nor painted.
    expect(
      await at.page.evaluate<string>(
        'getComputedStyle(document.querySelector(".now-row:last-child")).contentVisibility',
      ),
    ).toBe('auto');
    // Nobody touches either.
    const siteId = await drawSite(test, [row('B', 3)]);
    await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations: [{ trunk: 'B', node: 'B3', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    await Promise.all(
      screens.map((page) => page.getByText('1 new ticket').first().waitFor({ state: 'attached' })),
    );
    // It waits least, and so is beyond what is shown.
    expect(await at.page.title()).toBe('(1 new ticket) Silent now');
    expect(await at.page.locator('.now-row').count()).toBe(SHOWN);
    expect(await at.page.locator('.now-row.is-fresh').count()).toBe(0);
    await at.says(`${MORE + 1} more are open than are shown`);
    await other.context().close();
  });
});
