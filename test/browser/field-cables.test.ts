import { beforeEach, describe, expect, it } from '@jest/globals';

import { drawSite } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';

const ROOMS = Array.from({ length: 20 }, (_, i) => String(101 + i));

describe('a drawing that is likelier wrong than not, on a technician’s phone', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });
  const { role, heading, says, signIn } = at;

  beforeEach(() => at.test.clock.catchUp());

  it('is settled by counting cables, with no signal, and the service goes by that', async () => {
    const { test, page, context } = at;
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const nodes = ROOMS.map((node) => ({ node, cableMetres: 9, room: `Room ${node}` }));
    const siteId = await drawSite(test, [{ trunk: 'A', nodes }]);
    const isSilent = (i: number) => i >= 4 && i <= 7;
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: ROOMS.flatMap((node, i) =>
        ['announcement', 'bell'].map((name) => {
          const outcome = isSilent(i) ? 'fails' : 'works';
          return { trunk: 'A', node, function: name, outcome };
        }),
      ),
    });
    const [{ id, number }] = tickets;
    await signIn(technician.email, '/field');
    await role('link', new RegExp(`^${number}, `))
      .first()
      .click();
    await role('button', 'I have read this').click();
    const asks = page.getByText(/^First: count the cables at Room 1(04|20)/);
    await asks.waitFor();
    await lookOver(page, 'field-drawing-first', ['phone']);
    await context.setOffline(true);
    // Elsewhere than asked about: it says nothing of this.
    await role('link', 'Something else').click();
    await role('link', 'I counted the cables').click();
    await heading('I counted the cables');
    await page.getByLabel('Where?').selectOption('A/110');
    await lookOver(page, 'field-cables', ['phone']);
    await role('button', '2 cables').click();
    await asks.waitFor();
    await says('Waiting: 1');
    await role('link', 'Another number').click();
    await page.getByLabel('Where?').selectOption('A/104');
    await role('button', '3 cables').click();
    await says(
      'First: have the record corrected at Room 104. Somebody looked, and it is not as drawn.',
    );
    await lookOver(page, 'field-drawn-wrong', ['phone']);
    expect(await role('link', 'Another number').count()).toBe(0);
    await says('Waiting: 2');
    await context.setOffline(false);
    await says('Waiting: 0');
    const { body } = await test.http.get(`/api/v1/tickets/${id}/location`).expect(200);
    expect(body.first.words).toMatch(/^First: have the record corrected at Room 104\./);
    // Taken back by counting again, by the touch that the notice does not offer any more.
    await page.goto(`${at.address}/field/tickets/${number}/cables?at=A/104`);
    await role('button', '2 cables').click();
    await page.locator('h1.next-words').waitFor();
    await says('Waiting: 0');
    const { body: again } = await test.http.get(`/api/v1/tickets/${id}/location`).expect(200);
    expect(again.first.kind).not.toBe('drawing');
  });
});
