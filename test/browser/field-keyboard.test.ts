import { beforeEach, describe, expect, it } from '@jest/globals';

import { ByKeyboard } from '../support/by-keyboard.js';
import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { PASSWORD } from '../support/test-app.js';

describe('the field place by the keyboard alone, in a browser', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });

  beforeEach(() => at.test.clock.catchUp());

  it('leads from signing in to the signature', async () => {
    const { test, page, address } = at;
    const keys = new ByKeyboard(page);
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const siteId = await drawSite(test, [row('A', 4)]);
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: [
        { trunk: 'A', node: 'A2', function: 'announcement', outcome: 'works' },
        { trunk: 'A', node: 'A3', function: 'announcement', outcome: 'fails' },
      ],
    });
    const [{ id, number }] = tickets;
    const on = new Date().toISOString().slice(0, 10);
    const visit = await at.post('visits', {
      siteId,
      kind: 'call-out',
      on,
      purpose: 'Rooms silent',
      technicianId: technician.id,
      ticketIds: [id],
    });

    await page.goto(`${address}/field`);
    await keys.press('Sign in');
    await page.waitForURL(/sign-in/);
    await page.getByLabel('E-mail').waitFor();
    await keys.type('E-mail', technician.email);
    await keys.type('Password', PASSWORD);
    await page.keyboard.press('Enter');
    await page.waitForURL(`${address}/field`);
    await keys.landsOn('To do');
    await keys.press(new RegExp(`^${number}, `));

    await keys.landsOn('Before you open anything');
    await keys.press('I have read this', 'Space');
    const next = page.locator('h1.next-words');
    const onStep = async () => {
      await page.locator('button.ending').first().waitFor();
      await keys.landsOn(((await next.textContent()) ?? '').trim());
    };
    await page.locator('button.ending').first().waitFor();
    const first = (await next.textContent()) ?? '';
    await keys.landsOn(first.trim());
    await keys.press('I am here, begin');
    // What was touched is gone: the focus goes to what is next, and not to the top of the page.
    await keys.landsOn(first.trim());

    const sound = await page
      .locator('button.ending')
      .filter({ hasNotText: 'At fault' })
      .first()
      .textContent();
    await keys.press(sound ?? '');
    await next.filter({ hasNotText: first.trim() }).filter({ hasNotText: 'Working out' }).waitFor();
    await keys.landsOn(((await next.textContent()) ?? '').trim());

    await keys.press('Something else');
    await keys.landsOn('Something else');
    await keys.press('A reading');
    await keys.landsOn('A reading');
    await keys.tabTo('Where?');
    for (let down = 0; down < 3; down++) await page.keyboard.press('ArrowDown');
    expect(await page.getByLabel('Where?').inputValue()).toBe('A/A3');
    // With the keys of the keypad, or of the keyboard.
    await keys.press('2', 'Space');
    await page.keyboard.type('39');
    await page.keyboard.press('Backspace');
    await page.keyboard.type(',4');
    await page.getByText('23.4 V ± 0.23 V').waitFor();
    await keys.press('Enter');
    await onStep();

    await keys.press('Something else');
    await keys.landsOn('Something else');
    await keys.press('A note');
    await keys.landsOn('A note');
    await keys.type('What should be known?', 'The ladder stands in Room 2');
    await keys.press('Enter');
    await onStep();

    await keys.press('Something else');
    await keys.press('I looked at a part');
    await keys.landsOn('I looked at a part');
    await keys.tabTo('Where?');
    for (let down = 0; down < 3; down++) await page.keyboard.press('ArrowDown');
    await keys.press('terminals at Room 3 IN: at fault');
    await keys.landsOn('Found at fault: terminals at Room 3 IN');
    await keys.tabTo('For good');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    await keys.type('A part', 'connectors');
    await keys.press('Add it');
    await keys.press('Mended: try the rooms');

    for (let room = 1; room <= 4; room++) {
      await keys.landsOn(`Room ${room}`);
      await keys.press('heard', room % 2 === 0 ? 'Enter' : 'Space');
    }
    await keys.landsOn('Everything that was tried is heard');
    await keys.press('Close the ticket');
    await page.waitForURL(`${address}/field/visits/${visit.id}`);
    await keys.landsOn('Larkfield Lower School');
    await keys.tabTo('What was done?');
    await keys.type('Minutes of travel, there and back', '35');
    await keys.press('The visit is over');
    await keys.landsOn('Signature');
    await keys.type('Name', 'Mara Quill');
    await keys.press('Sign for the work');
    await page.getByText('Signed.').waitFor();
    await keys.landsOn('Larkfield Lower School');
    await keys.press('To do');
    await keys.landsOn('To do');
    await page.getByText('Waiting: 0').waitFor();
    const { body } = await technician.http.get(`/api/v1/tickets/${id}`).expect(200);
    expect(body.state).toBe('closed');
  });
});
