import { describe, expect, it } from '@jest/globals';

import { ByKeyboard } from '../support/by-keyboard.js';
import { drawSite, row } from '../support/draw-site.js';
import { inBrowser } from '../support/in-browser.js';

describe('the office’s page by the keyboard alone, in a browser', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 } });

  it('leads from the poster’s link to the ticket’s number', async () => {
    const { test, page, address } = at;
    const keys = new ByKeyboard(page);
    const siteId = await drawSite(test, [row('A', 4)]);
    const { link } = await at.post(`sites/${siteId}/passes`, {});
    await page.goto(`${address}/pass#${link.split('#')[1]}`);
    await at.heading('Larkfield Lower School');

    await keys.press('Announcement', 'Space');
    await keys.press(/^Room 3/, 'Space');
    await at.says('1 silent, 0 heard');
    await keys.press('Send');
    // What is missing is gone to, and typing goes on there.
    await at.says('Please say who you are.');
    await keys.landsOn('Your name');
    await page.keyboard.type('Mara Quill');
    await keys.press('Send');
    await keys.landsOn(/^Thank you\. Your ticket is number \d+\.$/);
    await keys.press('Report more rooms');
    await keys.landsOn('Larkfield Lower School');
    const { body } = await test.http.get(`/api/v1/tickets?site=${siteId}`).expect(200);
    const [ticket] = body.items;
    const said = await test.http.get(`/api/v1/tickets/${ticket.id}/observations`).expect(200);
    expect(said.body.items).toMatchObject([{ node: 'A3', outcome: 'fails', saidBy: 'Mara Quill' }]);
  });
});
