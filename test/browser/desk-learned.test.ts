import { beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { PASSWORD, type TestApp } from '../support/test-app.js';

const SUPPLY = { supplyVolts: 24, supplyOhms: 0.2, stationAmps: 0.02, coreOhmsPerKm: 18.1 };

describe('what was learned, on the desk, in a browser', () => {
  const at = inBrowser(DESK_SCREEN);
  const { role, heading, says } = at;
  let test: TestApp;
  let address: string;
  let context: BrowserContext;
  let page: Page;

  beforeEach(() => {
    ({ test, address, context, page } = at);
  });

  async function signIn(to: string): Promise<void> {
    const { email } = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    await at.signIn(email, to);
  }

  type Said = [node: string, outcome: 'works' | 'fails', by?: string];

  async function report(siteId: string, said: Said[], name = 'Mara Quill'): Promise<number> {
    const observations = said.map(([node, outcome]) => {
      return { trunk: 'A', node, function: 'announcement', outcome };
    });
    const saidBy = { name, kind: 'office' };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    return body.tickets[0].number as number;
  }

  it('takes readings, looks and what came back with cable off, and takes each back with a reason', async () => {
    const first = { ...row('A', 12).nodes[3]!, groups: ['upper floor'] };
    const nodes = row('A', 12).nodes.map((node, i) => (i === 3 ? first : node));
    const siteId = await drawSite(test, [{ trunk: 'A', nodes }], SUPPLY);
    const number = await report(siteId, [
      ['A4', 'works'],
      ['A9', 'fails'],
    ]);
    await signIn(`/desk/tickets/${number}`);
    await heading('What was learned');
    await says('Room 9: announcement silent', page.locator('.learned'));

    const form = (summary: string) => page.locator('details', { hasText: summary }).last();
    const reading = form('A reading off a meter');
    await reading.locator('summary').click();
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await says('Please say where.', reading);
    await says('Please give the number that the meter shows, such as 18.2.', reading);
    await says('Please say who says so.', reading);
    await reading.getByLabel('Where').selectOption('A/A8');
    // What the service alone can know is wrong is said at its field too.
    await reading.getByLabel('What the meter shows, V').fill('2300');
    await reading.getByLabel('Who says so').fill('Ilvo Marsh');
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await reading.locator('[aria-invalid=true]').waitFor();
    expect(await reading.locator('[aria-invalid=true]').inputValue()).toBe('2300');
    await reading.getByLabel('What the meter shows, V').fill('22,6');
    // A reload loses nothing of what is typed and not sent.
    await page.reload();
    await heading('What was learned');
    const typed = ['Where', 'What the meter shows, V', 'Who says so'].map((label) =>
      reading.getByLabel(label).inputValue(),
    );
    expect(await Promise.all(typed)).toEqual(['A/A8', '22,6', 'Ilvo Marsh']);
    await reading.getByLabel('How uncertain, ± V').fill('0.2');
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await says('Entered: Supply voltage at a place');
    await says('Supply at Room 8: 22.6 V ± 0.2 V');

    await reading.getByLabel('What was measured').selectOption('continuity');
    await reading.getByLabel('To', { exact: true }).selectOption('A/A4');
    await reading.getByRole('button', { name: 'Enter it' }).click();
    await says('Core supply, return from the head-end to Room 4: gets through');

    const look = form('A part was looked at');
    await look.locator('summary').click();
    await look.getByLabel('Who that is').selectOption('office');
    await look.getByLabel('Where').selectOption('A/A9');
    expect(await look.getByLabel('Which part').locator('option').allTextContents()).toEqual([
      'Please choose',
      'the station in Room 9 on trunk A',
      'the volume of the unit',
      'its setting for the bell',
      'its setting for announcements',
      'its setting for music',
    ]);
    await look.getByLabel('Where').selectOption('');
    const ofGroup = 'the group “upper floor” switched off at the head-end';
    await look.getByLabel('Which part').selectOption(ofGroup);
    await look.getByRole('button', { name: 'Enter it' }).click();
    await says(`Entered: ${ofGroup}: sound`);
    await look.getByLabel('Who that is').selectOption('technician');
    await look.getByLabel('Where').selectOption('A/A6');
    await look.getByLabel('Which part').selectOption({ label: 'terminals at Room 6 IN' });
    await look.getByLabel('How it was found').selectOption('sound');
    await look.getByRole('button', { name: 'Enter it' }).click();
    await says('terminals at Room 6 IN: sound');

    const off = form('Cable was taken off, and somebody listened');
    await off.locator('summary').click();
    await off.getByLabel('Cable taken off after').selectOption('A/A6');
    await off.getByLabel('Where somebody listened').selectOption('A/A5');
    await off.getByLabel('What was tried').selectOption('announcement');
    await off.getByRole('button', { name: 'Enter it' }).click();
    await says(/^Room 5: announcement heard, with the cable off after Room 6/);
    await lookOver(page, 'desk-ticket-learned', ['phone', 'desk']);

    const item = page.locator('.learned > li', { hasText: 'Supply at Room 8' });
    await item.locator('summary').click();
    await item.getByRole('button', { name: 'Take back' }).click();
    await item.locator('[aria-invalid=true]').waitFor();
    await item.getByLabel('Why?').fill('Read in Room 7');
    await item.getByRole('button', { name: 'Take back' }).click();
    await says(/^Taken back by Bea Orne, .*: Read in Room 7$/, item);
    expect(await item.locator('summary').count()).toBe(0);
    const taken = page.locator('.learned > li', { hasText: 'terminals at Room 6 IN' });
    await taken.locator('summary').click();
    await taken.getByLabel('Why?').fill('It was Room 7');
    await taken.getByRole('button', { name: 'Take back' }).click();
    await says(/^Taken back by Bea Orne/, taken);
    const heard = page.locator('.learned > li', { hasText: 'with the cable off after Room 6' });
    await heard.locator('summary').click();
    await heard.getByLabel('Why?').fill('The cable was on');
    await heard.getByRole('button', { name: 'Take back' }).click();
    await says(/^Taken back by Bea Orne/, heard);
    await says(/Ilvo Marsh read off a meter\. Supply at Room 8: 22\.6 V ± 0\.2 V/);
  });

  /** Rooms 4 to 7 of twelve silent, all others heard, of two functions: four dead rooms, or a tee that is not drawn. */
  async function doubtfulSite(): Promise<{ siteId: string; number: number }> {
    const nodes = row('A', 12).nodes.map((node, i) => ({
      ...node,
      groups: [...(i > 4 ? ['upper floor'] : []), ...(i % 4 === 1 ? ['staff'] : [])],
    }));
    const siteId = await drawSite(test, [{ trunk: 'A', nodes }], SUPPLY);
    const observations = ['announcement', 'bell'].flatMap((name) =>
      nodes.map(({ node }, i) => {
        const outcome = i >= 3 && i <= 6 ? 'fails' : 'works';
        return { trunk: 'A', node, function: name, outcome };
      }),
    );
    const saidBy = { name: 'Ilvo Marsh', kind: 'technician' };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    await report(siteId, [['A11', 'fails']]);
    return { siteId, number: body.tickets[0].number as number };
  }

  it('is in Spanish for whoever reads that, with photos, and leaves nothing typed behind', async () => {
    const siteId = await drawSite(test, [row('A', 4)], SUPPLY);
    const number = await report(siteId, [['A3', 'fails']]);
    const { body: listed } = await test.http.get(`/api/v1/tickets?site=${siteId}`).expect(200);
    const image =
      'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
    const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    await technician.http
      .post(`/api/v1/tickets/${listed.items[0].id}/photos`)
      .send({ image, caption: 'Terminals at Room 3' })
      .expect(201);
    await at.leave();
    await at.open({ ...DESK_SCREEN, locale: 'es-ES' });
    ({ context, page } = at);
    const { email } = await test.addPerson('dispatcher', { name: 'Sanna Threlk' });
    const data = { email, password: PASSWORD };
    const signedIn = await context.request.post(`${address}/api/v1/session`, { data });
    expect(signedIn.status()).toBe(200);

    await page.goto(`${address}/desk`);
    await heading('En silencio ahora');
    await page.goto(`${address}/desk/tickets/${number}`);
    await heading('Lo que se ha sabido');
    await heading('Fotos');
    expect(await page.locator('html').getAttribute('lang')).toBe('es');
    await role('img', 'Terminals at Room 3').waitFor();
    await role('button', 'Retirar…').click();
    await page.getByLabel('¿Por qué debe irse?').fill('Se ve a un niño');
    await page.reload();
    await heading('Fotos');
    expect(await page.getByLabel('¿Por qué debe irse?').inputValue()).toBe('Se ve a un niño');
    await lookOver(page, 'desk-photos-es');
    await page.setViewportSize({ width: 1280, height: 900 });
    const drafts = () =>
      page.evaluate<number>(
        'Object.keys(sessionStorage).filter((name) => name.startsWith("lastheard draft ")).length',
      );
    expect(await drafts()).toBe(1);
    await role('link', 'Sanna Threlk').click();
    await role('button', 'Cerrar sesión').click();
    await page.getByLabel('Contraseña').waitFor();
    expect(await drafts()).toBe(0);
  });

  it('draws groups, who contradicts whom, and another way to lay the trunk, which becomes the record', async () => {
    const { siteId, number } = await doubtfulSite();
    await signIn(`/desk/tickets/${number}`);
    await heading('The drawing may be wrong');
    const ways = page.getByLabel('In which way');
    const branch = await ways.locator('option', { hasText: 'a branch at Room 3' }).textContent();
    await ways.selectOption({ label: branch! });
    await says(/How to tell: count the cables at Room 3: 2 by the drawing, 3 if it is wrong so\./);
    await heading(/^As it may be laid instead: \d+ %/);
    const both = page.locator('.both-ways svg[role=group]');
    expect(await both.count()).toBe(2);
    const spanInto = (way: number, node: number) =>
      both.nth(way).locator('path.span-line').nth(node).getAttribute('d');
    // Laid so, something hangs below the row; as drawn nothing does.
    expect(await both.nth(1).locator('[data-node]').count()).toBe(12);
    expect(await spanInto(0, 3)).not.toBe(await spanInto(1, 3));
    const who = /Room 11, announcements: .*Ilvo Marsh says it works.*Mara Quill says it does not/;
    const room = page.locator('[data-node=A11]').first();
    expect(await room.getAttribute('aria-label')).toMatch(who);
    await says(who);
    await says('what is said there does not fit together');
    expect(await page.locator('[data-node=A6]').first().getAttribute('aria-label')).toContain(
      'In the groups upper floor, staff.',
    );
    const ring = page.getByRole('button', { name: /staff \(ring its rooms\)/ }).first();
    await ring.click();
    expect(await ring.getAttribute('aria-pressed')).toBe('true');
    const rings = page.locator('.drawing').first().locator('circle[stroke-dasharray="2 3"]');
    expect(await rings.count()).toBe(3);
    await lookOver(page, 'desk-ticket-doubt', ['phone', 'desk']);
    await role('button', 'Show as a table').first().click();
    await role('cell', 'upper floor, staff').first().waitFor();

    await role('link', 'Somebody looked, and it is so: change the record').click();
    await heading('The record of Larkfield Lower School');
    await says('1 change, not saved yet (Room 4 to Room 7 laid otherwise)');
    expect(new URL(page.url()).search).toBe('');
    expect(await page.getByLabel('Why it changes').inputValue()).toBe(
      `Ticket ${number}: looked at the cables, they branch so`,
    );
    await page.reload();
    await says('1 change, not saved yet');
    await role('button', 'Save it as one new version').click();
    await says('Saved as version 2.');
    const { body } = await test.http.get(`/api/v1/sites/${siteId}/as-built`).expect(200);
    const feeds = Object.fromEntries(
      body.trunks[0].nodes.map((one: { node: string; fedFrom: string }) => [one.node, one.fedFrom]),
    );
    expect(feeds).toMatchObject({ A4: 'A3', A7: 'A6', A8: 'A3', A9: 'A8' });
    expect([body.version, body.changedBy]).toEqual([2, 'Bea Orne']);
  });

  it('changes the record by hand: refused at the field, met with what others saved, compared', async () => {
    const siteId = await drawSite(test, [row('A', 6), row('B', 3)], SUPPLY);
    const at = `/api/v1/sites/${siteId}/as-built`;
    await signIn(`/desk/sites/${siteId}`);
    await role('link', 'Change the record by hand').click();
    await heading('The record of Larkfield Lower School');
    await says('Nothing is changed yet.');

    // A junction box into the cable, and a station that hangs from it.
    await role('button', 'Open A4, Room 4').click();
    await heading('Room 4');
    const into = page.getByRole('group', { name: 'Put something into the cable into Room 4' });
    await into.getByRole('button', { name: 'A junction box' }).click();
    await heading('Junction box A7');
    await page
      .getByRole('group', { name: 'Hang something behind Junction box A7' })
      .getByRole('button', { name: 'A station' })
      .click();
    await heading('Unit A8');
    await page.getByLabel('Room', { exact: true }).fill('Gymnasium');
    await page.getByLabel('Groups, with commas between').fill('hall, upper floor');
    await page.getByLabel('Bridged over or taken out').check();
    await page.getByLabel('Cable into it, m, A1').fill('12,5');
    // By the drawing, and off the cable; undone.
    await role('button', /^Room 6: nothing said/).click();
    await role('button', 'Take it off the cable').click();
    await says('7 changes, not saved yet (A6 taken off)');
    await role('button', 'Undo the last change').click();
    await role('button', /^Room 6: nothing said/).waitFor();
    await page.getByLabel('Cable into it, m, A5').fill('far');
    await role('button', 'Save it as one new version').click();
    await says('Is missing.');
    await says('2 things are wrong; nothing was saved.');
    const far = page.getByLabel('Cable into it, m, A5');
    expect(await far.getAttribute('aria-invalid')).toBe('true');
    await says('is not a length in metres');
    await lookOver(page, 'desk-record-refused', ['phone', 'desk']);
    await far.fill('14');
    await page.getByLabel('Why it changes').fill('Measured with Ilvo');
    // A code half typed, where to move it, and another trunk: all there after a reload, and then not wanted.
    await role('button', /^Room 6: nothing said/).click();
    const code = page.getByLabel('Code', { exact: true });
    await code.fill('A6b');
    await page.reload();
    await heading('Room 6');
    expect(await code.inputValue()).toBe('A6b');
    expect(await far.inputValue()).toBe('14');
    expect(await page.getByLabel('Why it changes').inputValue()).toBe('Measured with Ilvo');
    await code.fill('A6');
    const place = page.getByLabel('Move it alone');
    const another = page.getByLabel('Code of the new trunk');
    await place.selectOption('behind A2');
    await page.getByText('Begin another trunk').click();
    await another.fill('C');
    await page.reload();
    await heading('Room 6');
    expect([await place.inputValue(), await another.inputValue()]).toEqual(['behind A2', 'C']);
    await place.selectOption('');
    await another.fill('');

    // Somebody else is quicker, at the same room and elsewhere.
    const { body: before } = await test.http.get(at).expect(200);
    const patch = (node: string, change: object, version: number) =>
      test.http
        .patch(`${at}/trunks/A/nodes/${node}`)
        .set('If-Match', `"${version}"`)
        .send({ changedBy: 'Runa Feld', reason: 'Walked it', ...change })
        .expect(200);
    await patch('A5', { cableMetres: 33 }, before.version);
    await patch('A2', { room: 'Library' }, before.version + 1);
    await role('button', 'Save it as one new version').click();
    await says(/^Meanwhile Runa Feld saved version 3: Walked it\./);
    await says('Room 5: metres of cable: they wrote 33, yours stands');
    await page.getByLabel('Room, A2').waitFor();
    expect(await page.getByLabel('Room, A2').inputValue()).toBe('Library');
    expect(await far.inputValue()).toBe('14');
    await role('button', 'Save it as one new version').click();
    await says('Saved as version 4.');
    const { body } = await test.http.get(at).expect(200);
    const [trunk] = body.trunks;
    expect(trunk.nodes.map((one: { node: string }) => one.node)).toEqual([
      ...['A1', 'A2', 'A3', 'A7', 'A4', 'A5', 'A6', 'A8'],
    ]);
    const saved = (node: string) => trunk.nodes.find((one: { node: string }) => one.node === node);
    expect(saved('A1')).toMatchObject({ cableMetres: 12.5, isLengthGuessed: false });
    expect(saved('A2')).toMatchObject({ room: 'Library' });
    expect(saved('A4')).toMatchObject({ fedFrom: 'A7', cableMetres: 5, isLengthGuessed: true });
    expect(saved('A5')).toMatchObject({ cableMetres: 14 });
    expect(saved('A7')).toMatchObject({ kind: 'junction-box', fedFrom: 'A3' });
    expect(saved('A8')).toMatchObject({
      ...{ fedFrom: 'A7', room: 'Gymnasium', groups: ['hall', 'upper floor'], isOut: true },
      isLengthGuessed: true,
    });

    await role('link', 'Its versions').click();
    await heading('What differs');
    await says('Gymnasium is new.');
    await says('Room 5, metres of cable: 33 → 14');
    await page.getByLabel('From').selectOption('1');
    await says('Room 5, metres of cable: 10 → 14');
    await says('Library, room: Room 2 → Library');
    await says('Room 4, nobody measured it: – → ✓');
    await heading('Version 1');
    await lookOver(page, 'desk-record-versions', ['phone', 'desk']);
  });
});
