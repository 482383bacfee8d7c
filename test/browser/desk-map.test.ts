import { beforeEach, describe, expect, it } from '@jest/globals';
import type { Page } from 'playwright-core';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser, WEEK } from '../support/in-browser.js';
import { lookOver, takePicture } from '../support/look-over.js';
import { findBarriers, isMeasured, overhang } from '../support/open-browser.js';
import type { TestApp } from '../support/test-app.js';

/** A Wednesday. */
const DAY = '2026-03-04';

/** Invented, within 30 km; three stand so near one another that not every name has room. */
const SITES = [
  ['Larkfield Lower School', 47.1, -28.4],
  ['Sluice Works', 47.3, -28.45],
  ['Orrin Vale Infirmary', 47.18, -28.2],
  ['Tarn House', 47.181, -28.201],
  ['Tarn Lodge', 47.182, -28.199],
  ['Quarry Chapel', null, null],
] as const;

/** Boxes of all that is written on the map. */
const LABELS = `[...document.querySelectorAll('.map-label')].map((label) => {
  const { left, right, top, bottom } = label.getBoundingClientRect();
  return { left, right, top, bottom };
})`;

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

describe('the map of the sites, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says, signIn } = at;
  let test: TestApp;
  let address: string;
  let page: Page;

  beforeEach(() => {
    ({ test, address, page } = at);
  });

  const post = async (path: string, body: object = {}) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(201)).body;

  async function addSites(): Promise<string[]> {
    const ids: string[] = [];
    for (const [name, latitude, longitude] of SITES) {
      const id = await drawSite(test, [row('A', 3)]);
      const body = { name, latitude, longitude };
      await test.http.patch(`/api/v1/sites/${id}`).set('If-Match', '"1"').send(body).expect(200);
      ids.push(id);
    }
    return ids;
  }

  async function fillDay(): Promise<void> {
    const ids = await addSites();
    for (const [name, startLatitude] of [
      ['Ilvo Marsh', 47.05],
      ['Sanna Threlk', null],
    ] as const) {
      const { id } = await test.addPerson('technician', { name });
      const start = { startLatitude, startLongitude: startLatitude === null ? null : -28.35 };
      await test.http
        .put(`/api/v1/people/${id}/working-time`)
        .set('If-Match', '"0"')
        .send({ hours: startLatitude === null ? [] : WEEK, skills: [], ...start })
        .expect(200);
    }
    for (const site of [ids[0], ids[2], ids[5]]) {
      await post(`sites/${site}/reports`, {
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'gone-through',
        observations: ['A1', 'A2', 'A3'].map((node) => {
          return { trunk: 'A', node, function: 'bell', outcome: node === 'A3' ? 'fails' : 'works' };
        }),
      });
    }
    const { body } = await test.http.get(`/api/v1/sites/${ids[2]}`).expect(200);
    await post('contracts', {
      title: 'Upkeep of the infirmary',
      clientId: body.clientId,
      siteIds: [ids[2]],
      from: '2026-03-01',
      until: '2027-03-01',
      kind: 'comprehensive',
      visitsPerYear: 0,
      feeMinor: 90000,
      currency: 'EUR',
      promises: [{ troubleClass: 'one-room', responseMinutes: 240, restoreMinutes: 960 }],
      coverage: { windows: WEEK, zone: 'UTC' },
    });
    await post('visits', {
      siteId: ids[1],
      kind: 'planned',
      on: DAY,
      purpose: 'Upkeep',
      upkeep: true,
    });
    await test.app.get(JobService).settle();
    await post(`plans/days/${DAY}`);
  }

  it('shows what is silent, how urgent, who goes there today, and what lies nowhere', async () => {
    await page.clock.setFixedTime(new Date(`${DAY}T07:00:00Z`));
    await signIn(test.owner.email, '/desk/map');
    await says('No site has coordinates yet.');
    await fillDay();
    await page.reload();
    await heading('Map');
    await takePicture(page, 'desk-map');
    const map = role('group', /^Map of 5 sites, north up; the bar is (1|2|5|10) km long\./);
    await map.waitFor();
    await role('link', /^Orrin Vale Infirmary; .*4 hrs left.*Ilvo Marsh, stop \d/).waitFor();
    await role('link', /^Tarn House; nothing silent/).waitFor();
    await says(/^\d names? ha(s|ve) no room on the map/);

    // The same beside it: in a table, what is due first first.
    const table = role('region', 'Sites').first().getByRole('row');
    const rows = await table.allTextContents();
    expect(rows).toHaveLength(6);
    expect(rows[1]).toMatch(
      /^Orrin Vale Infirmary.*4 hrs left.*Ilvo Marsh, stop \d.*47\.18000°, -28\.20000°/,
    );
    expect(rows[2]).toMatch(/^Larkfield Lower School.*1 room, since/);
    expect(rows[3]).toMatch(/^Sluice Works.*nothing silent–Ilvo Marsh, stop \d/);
    await says(/1\. .*, 2\. /, role('region', 'Where days begin'));
    // One of the stops lies nowhere: the way that is drawn says so.
    await says('Left out of the drawn way of Ilvo Marsh, for want of coordinates: Quarry Chapel.');
    await heading('Not on the map');
    await role('link', 'Quarry Chapel').waitFor();

    for (const width of [1280, 600, 320]) {
      await page.setViewportSize({ width, height: 900 });
      await isMeasured(page);
      const labels = await page.evaluate<Box[]>(LABELS);
      expect(labels.length).toBeGreaterThan(1);
      const covers = labels.flatMap((a, i) =>
        labels.slice(i + 1).filter((b) => {
          const isBeside = a.right <= b.left || b.right <= a.left;
          return !isBeside && a.top < b.bottom && b.top < a.bottom;
        }),
      );
      expect([width, covers]).toEqual([width, []]);
      expect([width, await overhang(page)]).toEqual([width, 0]);
    }
    await lookOver(page, 'desk-map', ['phone', 'desk']);

    // By keys, from the desk there and on to the site.
    await page.goto(`${address}/desk`);
    await role('link', 'On the map').focus();
    await page.keyboard.press('Enter');
    await role('link', /^Orrin Vale Infirmary; /).focus();
    await page.keyboard.press('Enter');
    await heading('Orrin Vale Infirmary');
  });

  it('says it in every language', async () => {
    await page.clock.setFixedTime(new Date(`${DAY}T07:00:00Z`));
    const { email } = await test.addPerson('dispatcher');
    await signIn(email, '/desk/map');
    for (const [language, title] of [
      ['es', 'Mapa'],
      ['fr', 'Carte'],
      ['hi', 'नक़्शा'],
    ] as const) {
      await page.evaluate(
        `localStorage.setItem('lastheard language', JSON.stringify('${language}'))`,
      );
      await page.goto(`${address}/desk/map`);
      await heading(title);
      await page.setViewportSize({ width: 320, height: 700 });
      expect([language, await overhang(page), await findBarriers(page)]).toEqual([language, 0, []]);
    }
  });
});
