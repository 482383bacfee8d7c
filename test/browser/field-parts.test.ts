import { beforeEach, expect, describe, it } from '@jest/globals';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';

describe('parts used, on a technician’s phone', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });
  const { role, says, signIn } = at;

  beforeEach(() => at.test.clock.catchUp());

  it('are pieces or metres, and what was typed is used though nobody touched “Add it”', async () => {
    const { test, page, address } = at;
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const siteId = await drawSite(test, [row('A', 3)]);
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    const [{ id, number }] = tickets;
    await signIn(technician.email, '/field');
    await at.openJob(number);
    await page.goto(`${address}/field/tickets/${number}/found`);
    await page.getByLabel('What was done?').fill('Cable laid anew');
    await page.getByLabel('A part').fill('connectors');
    await page.getByLabel('How many, or metres').fill('2');
    await role('button', 'Add it').click();
    await says('2 × connectors');
    await page.getByLabel('A part').fill('4 x 1.0 mm2 cable');
    await page.getByLabel('How many, or metres').fill('some');
    await says('Please give a number, such as 2 or 3.5');
    const mended = role('button', 'Mended: try the rooms');
    expect(await mended.getAttribute('aria-disabled')).toBe('true');
    await lookOver(page, 'field-parts-used', ['phone']);
    await page.getByLabel('How many, or metres').fill('3,5');
    await mended.click();
    await role('heading', 'Room 1').first().waitFor();
    await says('Waiting: 0');
    const { body } = await technician.http.get(`/api/v1/tickets/${id}/log`).expect(200);
    const mending = body.items.find(({ kind }: { kind: string }) => kind === 'mending');
    expect(mending.details.parts).toEqual([
      { name: 'connectors', quantity: 2 },
      { name: '4 x 1.0 mm2 cable', quantity: 3.5 },
    ]);
  });
});
