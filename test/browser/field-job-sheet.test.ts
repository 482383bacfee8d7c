import { beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import type { TestApp } from '../support/test-app.js';

describe('the job sheet in the field place, in a browser', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });
  const { heading, says } = at;
  const role = (...of: Parameters<typeof at.role>) => at.role(...of).first();
  let test: TestApp;
  let context: BrowserContext;
  let page: Page;

  beforeEach(() => {
    ({ test, context, page } = at);
    test.clock.catchUp();
  });

  it('is shown where there is a signal, and says that it needs one', async () => {
    const post = async (path: string, body: object) =>
      (await test.http.post(`/api/v1/${path}`).send(body).expect(201)).body;
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const siteId = await drawSite(test, [row('A', 6)]);
    await test.http
      .patch(`/api/v1/sites/${siteId}`)
      .set('If-Match', '"1"')
      .send({ safetyNotes: 'Ask for the caretaker at the gate.' })
      .expect(200);
    const { tickets } = await post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: [
        { trunk: 'A', node: 'A1', function: 'announcement', outcome: 'works' },
        { trunk: 'A', node: 'A4', function: 'announcement', outcome: 'fails' },
      ],
    });
    const [{ id, number }] = tickets;
    const { id: visitId } = await post('visits', {
      siteId,
      kind: 'call-out',
      on: new Date().toISOString().slice(0, 10),
      purpose: 'Rooms silent',
      technicianId: technician.id,
      ticketIds: [id],
    });
    await at.signIn(technician.email, `/field/visits/${visitId}`);
    await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
    await role('link', 'Job sheet').waitFor();
    await context.setOffline(true);
    await role('link', 'Job sheet').click();
    await says(/^The job sheet needs a signal\./);
    await lookOver(page, 'field-no-job-sheet', ['phone']);
    await context.setOffline(false);
    await role('button', 'Try again').click();
    await heading(/^Job sheet: /);
    await heading(`Ticket ${number}`);
    const { body: sheet } = await test.http.get(`/api/v1/visits/${visitId}/job-sheet`);
    await says(sheet.tickets[0].first);
    await says(sheet.tickets[0].checks[0]);
    await says(sheet.tickets[0].plan.at(-1).trim());
    await says(sheet.cautions[0]);
    await says('Ask for the caretaker at the gate.');
    await lookOver(page, 'field-job-sheet', ['phone']);
    const paper = await role('link', 'Job sheet (PDF)').getAttribute('href');
    expect(paper).toBe(`/api/v1/visits/${visitId}/job-sheet/paper?language=en`);
    const { headers } = await technician.http.get(paper!).expect(200);
    expect(headers['content-type']).toBe('application/pdf');
    await page.goto(`${at.address}/field/tickets/${number}`);
    await role('button', 'I have read this').click();
    await role('link', 'Something else').click();
    await role('link', 'Job sheet').click();
    await heading(/^Job sheet: /);
    await page.evaluate(`localStorage.setItem('lastheard language', '"hi"')`);
    await page.reload();
    await role('link', 'काम का पर्चा (PDF)').waitFor();
  });
});
