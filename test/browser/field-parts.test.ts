import { beforeEach, expect, describe, it } from '@jest/globals';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';

describe('parts used, on a technician’s phone', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });
  const { role, says, signIn } = at;

  beforeEach(() => at.test.clock.catchUp());

  async function reportSilentRoom(): Promise<{ siteId: string; id: string; number: number }> {
    const siteId = await drawSite(at.test, [row('A', 3)]);
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    return { siteId, ...tickets[0] };
  }

  it('are pieces or metres, and what was typed is used though nobody touched “Add it”', async () => {
    const { test, page, address } = at;
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const { id, number } = await reportSilentRoom();
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

  it('are there again after a reload, as all that was typed and not entered, and numbers say what is wrong', async () => {
    const { test, page, address } = at;
    const technician = await test.addPerson('technician', { name: 'Sanna Threlk' });
    const { siteId, id, number } = await reportSilentRoom();
    const visit = await at.post('visits', {
      ...{
        siteId,
        kind: 'call-out',
        on: test.clock.now().toISOString().slice(0, 10),
        purpose: 'Bell',
        ticketIds: [id],
      },
      ...{ technicianId: technician.id, confirmed: ['in-the-past', 'outside-hours'] },
    });
    await signIn(technician.email, '/field');
    await at.openJob(number);
    await page.goto(`${address}/field/tickets/${number}/found`);
    await page.getByLabel('What was done?').fill('Terminals made anew');
    await page.getByLabel('A part').fill('connectors');
    await role('button', 'Add it').click();
    await page.getByLabel('A part').fill('fuse');
    // A phone ends what it does not show.
    await page.reload();
    await says('1 × connectors');
    expect(await page.getByLabel('What was done?').inputValue()).toBe('Terminals made anew');
    expect(await page.getByLabel('A part').inputValue()).toBe('fuse');
    await role('button', 'Mended: try the rooms').click();
    await role('heading', 'Room 1').first().waitFor();
    await says('Waiting: 0');
    await page.goto(`${address}/field/tickets/${number}/found`);
    await says('What was done?');
    expect(await page.getByLabel('What was done?').inputValue()).toBe('');
    await page.goto(`${address}/field/tickets/${number}/note`);
    await page.getByLabel('What should be known?').fill('The key is with the caretaker');
    await page.reload();
    const note = page.getByLabel('What should be known?');
    expect(await note.inputValue()).toBe('The key is with the caretaker');

    await page.goto(`${address}/field/tickets/${number}/reading`);
    await page.getByLabel('Where?').selectOption({ index: 1 });
    await role('button', '9').click();
    await page.getByLabel('Uncertainty, V').fill('O.2');
    await says('Please give a number, such as 0.2, or nothing');
    const enter = role('button', 'Enter');
    expect(await enter.getAttribute('aria-disabled')).toBe('true');
    await page.getByLabel('Uncertainty, V').fill('0,2');
    expect(await enter.getAttribute('aria-disabled')).toBe('false');
    await says('9 V ± 0.2 V');

    await page.goto(`${address}/field/visits/${visit.id}`);
    await role('button', 'I am here, begin').click();
    await page.getByLabel('What was done?').fill('All of it');
    await page.getByLabel('Minutes of travel').fill('9999');
    await says('Please give whole minutes, 2880 at most, or nothing');
    await page.getByLabel('Minutes of travel').fill('40');
    await page.reload();
    expect(await page.getByLabel('What was done?').inputValue()).toBe('All of it');
    expect(await page.getByLabel('Minutes of travel').inputValue()).toBe('40');
    // What waits may be nothing before the touch as well as after: its own answer tells.
    const ended = page.waitForResponse(
      (answer) => answer.ok() && answer.request().postData()?.includes('"to":"done"') === true,
    );
    await role('button', 'The visit is over').click();
    await ended;
    const { body } = await technician.http.get(`/api/v1/visits/${visit.id}`).expect(200);
    expect(body).toMatchObject({ state: 'done', workDone: 'All of it', travelMinutes: 40 });

    // Whoever comes next on this phone finds nothing half typed.
    await page.goto(`${address}/sign-in`);
    await role('button', 'Sign out').click();
    await role('button', 'Sign in').waitFor();
    const left = await page.evaluate(`Object.keys(localStorage).join(', ')`);
    expect(left).not.toContain('draft');
  });
});
