import { beforeEach, describe, expect, it } from '@jest/globals';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { signInOn } from '../support/sign-in-on.js';

describe('a mending that is taken back, in a browser', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });
  const { role, says, signIn } = at;

  beforeEach(() => at.test.clock.catchUp());

  async function reported(): Promise<{ id: string; number: number }> {
    const siteId = await drawSite(at.test, [row('A', 3)]);
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    return tickets[0];
  }

  const stateOf = async (id: string) =>
    (await at.test.http.get(`/api/v1/tickets/${id}`).expect(200)).body.state as string;

  async function until(holds: () => Promise<boolean>): Promise<void> {
    for (let look = 0; look < 600 && !(await holds()); look += 1) await at.page.waitForTimeout(100);
    expect(await holds()).toBe(true);
  }

  it('is taken back by the technician with no signal, before the service had it and after', async () => {
    const { test, page, context } = at;
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const { id, number } = await reported();
    await signIn(technician.email, '/field');
    await at.openJob(number);
    const menu = async () => {
      await role('link', `${number}, `).first().click();
      await role('link', 'Something else').first().click();
    };
    await menu();
    expect(await role('link', 'A mending was entered by mistake').count()).toBe(0);

    const mend = async (what: string) => {
      await role('link', 'Found and mended').first().click();
      await page.getByLabel('What was done?').fill(what);
      await role('button', 'Mended: try the rooms').click();
      await role('heading', 'Room').first().waitFor();
    };
    await context.setOffline(true);
    await mend('Terminals remade');
    // Whoever comes back to the ticket is shown the way to the rooms, and not what was next before.
    await role('link', `${number}, `).first().click();
    await role('link', 'Mended: try the rooms').waitFor();
    await lookOver(page, 'field-mended', ['phone']);
    await menu();
    await role('link', 'A mending was entered by mistake').click();
    await says('Terminals remade');
    expect(
      await page.getByRole('button', { name: 'Enter', exact: true }).getAttribute('aria-disabled'),
    ).toBe('true');
    await page.getByLabel('Why?').fill('It was the school next door');
    await lookOver(page, 'field-take-back', ['phone']);
    await page.getByRole('button', { name: 'Enter', exact: true }).click();
    await says('Waiting: 2');
    await menu();
    await page.goBack();
    expect(await role('link', 'Mended: try the rooms').count()).toBe(0);
    await menu();
    expect(await role('link', 'A mending was entered by mistake').count()).toBe(0);
    await context.setOffline(false);
    await says('Waiting: 0');
    expect(await stateOf(id)).toBe('reported');

    await mend('A new fuse');
    await says('Waiting: 0');
    await until(async () => (await stateOf(id)) === 'mended');
    await page.reload();
    await menu();
    await role('link', 'A mending was entered by mistake').click();
    await says('A new fuse');
    await page.getByLabel('Why?').fill('The fuse was sound');
    await page.getByRole('button', { name: 'Enter', exact: true }).click();
    await until(async () => (await stateOf(id)) === 'reported');
    const { body } = await technician.http.get(`/api/v1/tickets/${id}/log`).expect(200);
    const kinds = body.items.map(({ kind }: { kind: string }) => kind);
    expect(kinds.filter((kind: string) => /mending|withdrawal/.test(kind))).toEqual([
      ...['withdrawn-mending', 'withdrawal', 'withdrawn-mending', 'withdrawal'],
    ]);
  });

  it('is taken back at the desk, which says who did so and why', async () => {
    const { test, page, address } = at;
    const { id, number } = await reported();
    await at.post(`tickets/${id}/mendings`, {
      ...{ saidBy: { name: 'Ilvo Marsh', kind: 'technician' }, mending: 'lasting' },
      ...{ what: 'Terminals remade', parts: [{ name: 'connectors', quantity: 2 }] },
    });
    await test.app.get(JobService).settle();
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await page.setViewportSize({ width: 1280, height: 900 });
    await signInOn(page, `${address}/desk/tickets/${number}`, email);
    await says('What was mended: 1');
    await says('Mended: Terminals remade (2 × connectors)');
    const back = page.locator('details.take-back', { hasText: 'Terminals remade' });
    await back.locator('summary').click();
    await back.getByRole('button', { name: 'Take back' }).click();
    await back.getByLabel('Why?').and(page.locator('[aria-invalid=true]')).waitFor();
    await back.getByLabel('Why?').fill('It was the school next door');
    await lookOver(page, 'desk-ticket-mending-back', ['desk']);
    await back.getByRole('button', { name: 'Take back' }).click();
    await says(/^Taken back by Bea Orne, .*: It was the school next door$/);
    await says('Ilvo Marsh mended; it was taken back');
    expect(await back.count()).toBe(0);
    expect(await stateOf(id)).toBe('reported');
    await lookOver(page, 'desk-ticket-mending-gone', ['desk']);

    // Closed, and opened again by whoever has something else to take back.
    const close = page.locator('details', { hasText: 'Close the ticket' });
    await close.locator('summary').click();
    await close.getByLabel(/^Why it is closed/).fill('Somebody else mended it');
    await close.getByRole('button').click();
    await says('Entered: Close the ticket');
    expect(await stateOf(id)).toBe('closed');
    const heard = page.locator('details.take-back', { hasText: 'Room 3' });
    const again = page.locator('details', { hasText: 'Open it again' });
    await again.waitFor();
    expect(await heard.count()).toBe(0);
    await again.locator('summary').click();
    await again.getByLabel('Why it is opened again').fill('The wrong ticket');
    await again.getByRole('button').click();
    await says('Entered: Open it again');
    await says(/^Bea Orne moved the ticket to: reported.*\. The wrong ticket$/);
    await heard.first().waitFor();
    expect(await stateOf(id)).toBe('reported');
  });
});
