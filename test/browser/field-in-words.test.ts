import { describe, expect, it } from '@jest/globals';

import { drawSite } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';

describe('a ticket of a site that nobody has drawn, on a technician’s phone', () => {
  const at = inBrowser({ viewport: { width: 360, height: 740 }, ...AT_NOON });
  const { role, heading, says, signIn } = at;

  it('is there with no signal, with who called, and takes what was found', async () => {
    const { test, page, context, address } = at;
    test.clock.catchUp();
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const siteId = await drawSite(test, []);
    await test.http
      .patch(`/api/v1/sites/${siteId}`)
      .set('If-Match', '"1"')
      .send({ address: '4 Sluice Lane', safetyNotes: 'The key is at the gate.' })
      .expect(200);
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [],
      note: 'No bell in the hall',
      callBackPhone: '0555 0142',
      oddities: ['humming'],
      urgentReason: 'Examinations at nine',
    });
    const [{ id, number }] = tickets;
    await signIn(technician.email, '/field');
    await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
    // What it keeps is read once what is to be done is shown.
    await page.evaluate(`(async () => {
      const done = (asked) => new Promise((then) => { asked.onsuccess = () => then(asked.result); });
      for (;;) {
        for (const { name } of await indexedDB.databases()) {
          const database = await done(indexedDB.open(name));
          const keys = await done(database.transaction('reads').objectStore('reads').getAllKeys());
          database.close();
          if (keys.includes('ticket ${id}')) return;
        }
        await new Promise((then) => setTimeout(then, 50));
      }
    })()`);
    await context.setOffline(true);
    await page.goto(`${address}/field/tickets/${number}`);
    await says('The key is at the gate.');
    await role('button', 'I have read this').click();
    await heading('No drawing of this site: go by what was said.');
    await says('Cannot wait: Examinations at nine');
    await says('No bell in the hall. It hums. Call back on 0555 0142');
    await says(/Mara Quill/);
    await says('4 Sluice Lane');
    const ring = role('link', 'Call back on 0555 0142');
    expect(await ring.getAttribute('href')).toBe('tel:05550142');
    await lookOver(page, 'field-in-words', ['phone']);

    await role('link', 'A note').click();
    await page.getByLabel('What should be known?').fill('The amplifier in the cabinet is dark');
    await role('button', 'Enter').click();
    await role('link', 'Found and mended').click();
    await page.getByLabel('What was done?').fill('A new fuse');
    await role('button', 'Enter').click();
    await heading('No drawing of this site: go by what was said.');
    await says('The amplifier in the cabinet is dark');
    await says('Waiting: 2');

    await role('link', 'Close the ticket').click();
    await heading('Close the ticket');
    const closing = role('button', 'Close the ticket');
    expect(await closing.getAttribute('aria-disabled')).toBe('true');
    await role('radio', 'In the cabinet in the office').check();
    await page
      .getByLabel('What was it, and is everything heard again?')
      .fill('A blown fuse; the hall and the yard rang');
    await lookOver(page, 'field-close-in-words', ['phone']);
    await closing.click();
    await page.waitForURL(`${address}/field`);
    await role('link', new RegExp(`^${number}, `)).click();
    await says('Closed on this phone');
    expect(await role('link', 'Close the ticket').count()).toBe(0);
    await page.reload();
    await says('Waiting: 4');
    await context.setOffline(false);
    await says('Waiting: 0');
    const { body } = await technician.http.get(`/api/v1/tickets/${id}/log`).expect(200);
    const entered = body.items.filter(({ saidBy }: { saidBy: string }) => saidBy === 'Ilvo Marsh');
    expect(
      entered.map(({ kind, details }: { kind: string; details: Record<string, unknown> }) => [
        kind,
        details.note ?? details.what ?? details.reason,
      ]),
    ).toEqual([
      ['note', 'The amplifier in the cabinet is dark'],
      ['mending', 'A new fuse'],
      ['finding', 'A blown fuse; the hall and the yard rang'],
      ['move', 'A blown fuse; the hall and the yard rang'],
    ]);
    const finding = entered.find(({ kind }: { kind: string }) => kind === 'finding');
    expect(finding.details.place).toEqual({ kind: 'head-end' });
    const { body: ticket } = await technician.http.get(`/api/v1/tickets/${id}`).expect(200);
    expect(ticket.state).toBe('closed');
  });
});
