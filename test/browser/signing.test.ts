import { beforeEach, describe, expect, it } from '@jest/globals';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { signByHand, strokesIn } from '../support/pen-and-noise.js';

describe('signing on a phone, in a browser', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });
  const { role, says, signIn } = at;

  beforeEach(() => at.test.clock.catchUp());

  /** A ticket whose place takes several lines to say, and a visit to it that is under way. */
  async function underWay(email: string, technicianId: string) {
    const siteId = await drawSite(at.test, [row('A', 6)]);
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: [1, 2, 3, 4, 5, 6].map((n) => {
        const outcome = n > 3 ? 'fails' : 'works';
        return { trunk: 'A', node: `A${n}`, function: 'announcement', outcome };
      }),
    });
    await at.test.app.get(JobService).settle();
    const on = new Date(at.test.clock.now()).toISOString().slice(0, 10);
    const visit = await at.post('visits', {
      ...{ siteId, kind: 'call-out', on, purpose: 'Rooms silent', technicianId },
      ticketIds: [tickets[0].id],
    });
    await signIn(email, '/field');
    await at.page.locator('a.job').first().waitFor();
    return { visitId: visit.id as string, ticketId: tickets[0].id as string };
  }

  it('has each stroke in one piece, and nothing above moves, whatever comes meanwhile', async () => {
    const { test, page, address } = at;
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const { visitId, ticketId } = await underWay(technician.email, technician.id);
    await page.goto(`${address}/field/visits/${visitId}`);
    const about = page.locator('article p', { hasText: /^\d+, .*Room 3/ });
    await about.waitFor();
    await role('button', 'I am here, begin').click();
    await page.getByLabel('What was done?').fill('Terminals remade');
    // At the desk meanwhile: what it was about is not asked any more.
    await test.http
      .post(`/api/v1/tickets/${ticketId}/moves`)
      .send({ saidBy: { name: 'Mara Quill', kind: 'technician' }, to: 'closed', reason: 'Works' })
      .expect(201);
    await role('button', 'The visit is over').click();
    await page.getByLabel('Name').fill('Mara Quill');
    // The phone has read again, and the ticket is not among the open ones any more.
    await about.locator('a').waitFor({ state: 'detached' });
    expect(await about.count()).toBe(1);

    await page.evaluate(`document.querySelector('svg.pen').addEventListener('pointerdown', () => {
      const above = document.createElement('div');
      above.style.height = '30px';
      document.querySelector('main').prepend(above);
    }, { once: true })`);
    const drawn = await signByHand(page, 1);
    await role('button', 'Sign for the work').click();
    await says('Signed.');
    const signatures = async () =>
      (await test.http.get(`/api/v1/visits/${visitId}/signatures`).expect(200)).body.items;
    for (let look = 0; look < 600 && (await signatures()).length === 0; look++)
      await page.waitForTimeout(100);
    const [signed] = await signatures();
    expect(strokesIn(signed.drawn)).toEqual(drawn);
  });
});
