import { beforeEach, describe, expect, it } from '@jest/globals';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';

const MINUTE = 60_000;

/** The page's clock runs so much ahead; behind where negative. */
const settingClock = (ms: number) => `{
  const Real = Date;
  globalThis.Date = class extends Real {
    constructor(...at) { if (at.length === 0) super(Real.now() + ${ms}); else super(...at); }
    static now() { return Real.now() + ${ms}; }
  };
}`;

describe('a phone whose clock is wrong, in the field', () => {
  const at = inBrowser({ viewport: { width: 390, height: 844 }, ...AT_NOON });
  const { role, heading, says, signIn } = at;

  beforeEach(() => at.test.clock.catchUp());

  it.each([
    [20, /^This phone’s clock is 20 mins fast\./],
    [-20, /^This phone’s clock is 20 mins slow\./],
  ])('by %i minutes: nothing is refused, and all is in its order', async (minutes, told) => {
    const { test, page, context } = at;
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    const siteId = await drawSite(test, [row('A', 3)]);
    const { tickets } = await at.post(`sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' }],
    });
    const [{ id, number }] = tickets;
    await context.addInitScript(settingClock(minutes * MINUTE));
    await signIn(technician.email, '/field');
    await says(told);
    await lookOver(page, `field-clock-${minutes > 0 ? 'fast' : 'slow'}`, ['phone']);
    await role('link', new RegExp(`^${number}, `))
      .first()
      .click();
    await role('button', 'I have read this').click();
    const note = async (words: string) => {
      await page.goto(`${at.address}/field/tickets/${number}/note`);
      await page.getByLabel('What should be known?').fill(words);
      await role('button', 'Enter').click();
      await page.locator('h1.next-words').waitFor();
    };
    await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
    await context.setOffline(true);
    const before = Date.now();
    await note('With no signal');
    await note('Then this');
    const after = Date.now();
    // What is recorded in one instant has the order of its ids, which phones make.
    test.clock.catchUp();
    await context.setOffline(false);
    await says('Waiting: 0');
    await heading(/./);
    const { body } = await technician.http.get(`/api/v1/tickets/${id}/log`).expect(200);
    const log = body.items as { kind: string; happenedAt: string; details: { note?: string } }[];
    expect(log.map(({ kind, details }) => details.note ?? kind)).toEqual([
      'report',
      'With no signal',
      'Then this',
    ]);
    const [reported = 0, ...noted] = log.map(({ happenedAt }) => Date.parse(happenedAt));
    for (const instant of noted) {
      expect(instant).toBeGreaterThan(reported);
      expect(instant).toBeGreaterThan(before - MINUTE);
      expect(instant).toBeLessThan(after + MINUTE);
    }
  });
});
