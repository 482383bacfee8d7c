import { beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { NewerWorker } from '../support/newer-worker.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { noise, signByHand, strokesIn } from '../support/pen-and-noise.js';
import { PASSWORD, type TestApp, type TestPerson } from '../support/test-app.js';

interface LogEntry {
  id: string;
  kind: string;
  happenedAt: string;
  details: Record<string, unknown>;
}

const PHONE = { width: 390, height: 844 };

describe('the field place, in a browser', () => {
  const at = inBrowser({ viewport: PHONE, ...AT_NOON });
  let test: TestApp;
  let address: string;
  let technician: TestPerson;
  let siteId: string;
  let context: BrowserContext;
  let page: Page;

  beforeAll(async () => {
    ({ test, address } = at);
    technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    siteId = await drawSite(test, [row('A', 6)]);
    await test.http
      .patch(`/api/v1/sites/${siteId}`)
      .set('If-Match', '"1"')
      .send({
        safetyNotes: 'Ask for the caretaker at the gate.',
        servesEmergencyCalls: true,
      })
      .expect(200);
  });

  beforeEach(() => {
    test.clock.catchUp();
    ({ context, page } = at);
  });

  const role = (kind: Parameters<Page['getByRole']>[0], name: string | RegExp) =>
    page.getByRole(kind, { name }).first();
  const heading = (name: string | RegExp) => role('heading', name).waitFor();
  const says = (words: string | RegExp) => page.getByText(words).first().waitFor();

  /** A ticket with a visit of the technician's to it, today. */
  async function send(outcomes: [node: string, outcome: string][]) {
    const observations = outcomes.map(([node, outcome]) => {
      return { trunk: 'A', node, function: 'announcement', outcome };
    });
    const saidBy = { name: 'Mara Quill', kind: 'office' };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    const { id, number } = body.tickets[0] as { id: string; number: number };
    const on = new Date().toISOString().slice(0, 10);
    const { body: visit } = await test.http
      .post('/api/v1/visits')
      .send({
        siteId,
        kind: 'call-out',
        on,
        purpose: 'Rooms silent',
        technicianId: technician.id,
        ticketIds: [id],
      })
      .expect(201);
    return { id, number, visitId: visit.id as string };
  }

  const log = async (ticketId: string) => {
    const { body } = await technician.http.get(`/api/v1/tickets/${ticketId}/log`).expect(200);
    return body.items as LogEntry[];
  };

  async function signIn(at = address): Promise<void> {
    await page.goto(`${at}/field`);
    await role('link', 'Sign in').click();
    await page.getByLabel('E-mail').fill(technician.email);
    await page.getByLabel('Password').fill(PASSWORD);
    await role('button', 'Sign in').click();
    await page.waitForURL(`${at}/field`);
    await heading('To do');
    // The service worker has the page.
    await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
  }

  const until = async (is: () => Promise<boolean>) => {
    for (let times = 0; times < 600; times++) {
      if (await is()) return;
      await page.waitForTimeout(100);
    }
    throw new Error('It did not come about within a minute');
  };

  it('leads through a job: cautions, the next step, found, mended, tried, signed', async () => {
    const { id, number, visitId } = await send([
      ['A2', 'works'],
      ['A4', 'fails'],
    ]);
    await signIn();
    await says('Larkfield Lower School');
    await lookOver(page, 'field-jobs', ['phone']);
    await page.setViewportSize(PHONE);
    await role('link', new RegExp(`^${number}, `)).click();
    await heading('Before you open anything');
    await says('Ask for the caretaker at the gate.');
    await says(/prove dead/);
    await lookOver(page, 'field-cautions', ['phone']);
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    // The trunk is drawn, with where the step is.
    await says(/^Most suspect: .+, \d+ %$/);
    expect(await page.locator('.strips svg .strip-here').count()).toBe(1);
    await lookOver(page, 'field-step', ['phone']);
    await role('button', 'I am here, begin').click();
    const before = await page.locator('h1.next-words').textContent();
    await page.locator('button.ending').filter({ hasNotText: 'At fault' }).first().click();
    await until(async () => (await page.locator('h1.next-words').textContent()) !== before);
    await until(async () => (await log(id)).length >= 3);
    expect((await log(id)).map(({ kind }) => kind)).toContain('move');

    await role('link', 'Something else').click();
    await heading('Something else');
    await lookOver(page, 'field-else', ['phone']);
    await role('link', 'A reading').click();
    await page.getByLabel('Where?').selectOption('A/A3');
    for (const key of ['2', '3', '.', '4']) await role('button', key).click();
    await says('23.4 V ± 0.23 V');
    await lookOver(page, 'field-reading', ['phone']);
    await role('button', 'Enter').click();
    await page.locator('h1.next-words').waitFor();

    await role('link', 'Something else').click();
    await role('link', 'I looked at a part').click();
    await page.getByLabel('Where?').selectOption('A/A4');
    await lookOver(page, 'field-parts', ['phone']);
    await role('button', 'terminals at Room 4 IN: at fault').click();
    await heading('Found at fault: terminals at Room 4 IN');
    await page.getByLabel('A part').fill('connectors');
    await role('button', 'Add it').click();
    await role('button', 'One more: connectors').click();
    await says('2 × connectors');
    await lookOver(page, 'field-found', ['phone']);
    await role('button', 'Mended: try the rooms').click();
    await heading('Room 1');
    await lookOver(page, 'field-walk-test', ['phone']);
    for (let room = 1; room <= 6; room++) {
      await heading(`Room ${room}`);
      await role('button', 'heard').click();
    }
    await heading('Everything that was tried is heard');
    await role('button', 'Close the ticket').click();
    await page.waitForURL(`${address}/field/visits/${visitId}`);
    await page.getByLabel('What was done?').fill('Terminals at Room 4 remade');
    await page.getByLabel('Minutes of travel').fill('35');
    await lookOver(page, 'field-visit', ['phone']);
    await role('button', 'The visit is over').click();
    await page.getByLabel('Name').fill('Mara Quill');
    const drawn = await signByHand(page);
    await lookOver(page, 'field-sign', ['phone']);
    await role('button', 'Sign for the work').click();
    await says('Signed.');
    await until(async () => {
      const { body } = await technician.http.get(`/api/v1/visits/${visitId}/signatures`);
      return body.items?.length === 1;
    });
    const { body: signed } = await technician.http.get(`/api/v1/visits/${visitId}/signatures`);
    expect(strokesIn(signed.items[0].drawn)).toEqual(drawn);
    const { body: ticket } = await technician.http.get(`/api/v1/tickets/${id}`).expect(200);
    expect(ticket.state).toBe('closed');
    const mending = (await log(id)).find(({ kind }) => kind === 'mending');
    expect(mending?.details).toMatchObject({
      parts: [{ name: 'connectors', quantity: 2 }],
    });
  });

  it('goes on with no signal, over a reload, and sends each thing once', async () => {
    const { id, number } = await send([
      ['A1', 'works'],
      ['A5', 'fails'],
    ]);
    await signIn();
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    await until(async () => (await page.getByText('From the plan before').count()) === 0);
    const before = await log(id);
    await context.setOffline(true);
    const first = await page.locator('h1.next-words').textContent();
    await page.locator('button.ending').filter({ hasNotText: 'At fault' }).last().click();
    await until(async () => (await page.locator('h1.next-words').textContent()) !== first);
    // An ending may be two entries: what was looked at, and what was heard then.
    const waits = role('link', /^Waiting: [12]$/);
    await waits.waitFor();
    const all = Number((await waits.textContent())?.slice(-1)) + 1;
    await role('link', 'Something else').click();
    await role('link', 'A note').click();
    await page.getByLabel('What should be known?').fill('The key is with the caretaker');
    await role('button', 'Enter').click();
    await says(`Waiting: ${all}`);
    await page.reload();
    await says(`Waiting: ${all}`);
    await page.locator('h1.next-words').waitFor();
    await says('No signal');
    await role('link', `Waiting: ${all}`).click();
    await says('Waits to be sent');
    await lookOver(page, 'field-waiting', ['phone']);
    expect(await log(id)).toEqual(before);
    // Another tab of the same phone: both are there when the signal comes back.
    const other = await context.newPage();
    await other.goto(`${address}/field/waiting`);
    await other.getByText('The key is with the caretaker').first().waitFor();
    await context.setOffline(false);
    await says('Nothing: the service has all that was entered here.');
    const added = (await log(id)).slice(before.length);
    expect(
      added.filter(({ details }) => details['note'] === 'The key is with the caretaker'),
    ).toHaveLength(1);
    expect(new Set(added.map((entry) => entry.id)).size).toBe(added.length);
    expect(added).toHaveLength(all);
  });

  it('keeps what was refused until somebody settles it, and says what happened', async () => {
    const one = await send([['A3', 'fails']]);
    await signIn();
    await role('link', new RegExp(`^${one.number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    await context.setOffline(true);
    for (const note of ['A first thing', 'A second thing']) {
      await page.goto(`${address}/field/tickets/${one.number}/note`);
      await page.getByLabel('What should be known?').fill(note);
      await role('button', 'Enter').click();
      await page.waitForURL(`${address}/field/tickets/${one.number}`);
    }
    const saidBy = { name: 'Bea Orne', kind: 'office' };
    const { body: split } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy,
        how: 'gone-through',
        observations: [{ trunk: 'A', node: 'A6', function: 'bell', outcome: 'fails' }],
      })
      .expect(201);
    const joined = split.tickets[0] as { id: string };
    const into = joined.id === one.id ? await splitOff(one.id) : joined.id;
    await test.http.post(`/api/v1/tickets/${one.id}/merge`).send({ saidBy, into }).expect(201);
    await context.setOffline(false);
    await role('link', 'One entry was refused: please settle it').click();
    await says(/was merged/);
    await says('Waits for the one before it to be settled');
    await lookOver(page, 'field-refused', ['phone']);
    await role('button', 'Discard it').click();
    await page.getByLabel('Why?').fill('It is said already');
    await role('button', 'Discard, and note it on the ticket').click();
    // The first one's refusal is on the page until it is settled on the disk.
    await page.getByLabel('Why?').waitFor({ state: 'detached' });
    // The next one is refused for the same reason, and is given to the other ticket.
    await says(/was merged/);
    await role('button', 'Give it to the other ticket').click();
    await says('Nothing: the service has all that was entered here.');
    const notes = (await log(into))
      .filter(({ kind }) => kind === 'note')
      .map(({ details }) => details['note'] as string)
      .filter((note) => note.includes('thing'));
    expect(notes).toEqual([
      'Discarded on the phone: “A first thing”. Why: It is said already',
      'A second thing',
    ]);
  });

  async function splitOff(ticketId: string): Promise<string> {
    const { body } = await test.http.get(`/api/v1/tickets/${ticketId}/observations`).expect(200);
    const last = body.items.at(-1) as { id: string };
    const { body: made } = await test.http
      .post(`/api/v1/tickets/${ticketId}/split`)
      .send({
        saidBy: { name: 'Bea Orne', kind: 'office' },
        observationIds: [last.id],
      })
      .expect(201);
    return made.id as string;
  }

  it('is upgraded with entries waiting, and sends them', async () => {
    const { id, number } = await send([['A2', 'fails']]);
    const served = new NewerWorker();
    const at = await served.before(address);
    await signIn(at);
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    await context.setOffline(true);
    await page.goto(`${at}/field/tickets/${number}/note`);
    await page.getByLabel('What should be known?').fill('From the app before');
    await role('button', 'Enter').click();
    await says('Waiting: 1');
    const caches = () => page.evaluate<string[]>('caches.keys()');
    const [installed] = await caches();
    served.upgrade();
    await context.setOffline(false);
    await page.evaluate(
      'navigator.serviceWorker.getRegistration("/field").then((one) => one.update()).then(() => undefined)',
    );
    await until(async () => (await caches()).some((name) => name !== installed));
    await page.reload();
    await says('Waiting: 0');
    // It says so once it has looked, and not before.
    const added = await log(id);
    expect(added.filter(({ details }) => details['note'] === 'From the app before')).toHaveLength(
      1,
    );
    // The files of the app before are still there for other tabs.
    expect(await caches()).toContain(installed);
    await page.close();
    await served.close();
  });

  it('waits for whoever is signed out, and opens the room of a label', async () => {
    const { id, number } = await send([['A2', 'fails']]);
    await signIn();
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    await context.clearCookies();
    await page.goto(`${address}/field/at/${siteId}/A/A2`);
    await role('link', 'A room was heard or silent').click();
    expect(await page.getByLabel('Which room?').inputValue()).toBe('A/A2');
    await role('button', 'silent').click();
    await says('Your session has ended.');
    await says('Waiting: 1');
    await lookOver(page, 'field-signed-out', ['phone']);
    const before = (await log(id)).length;
    await role('link', 'Sign in').click();
    await page.getByLabel('E-mail').fill(technician.email);
    await page.getByLabel('Password').fill(PASSWORD);
    await role('button', 'Sign in').click();
    await says('Waiting: 0');
    expect(await log(id)).toHaveLength(before + 1);
  });

  it('takes a call that nobody was sent to, and a report from where somebody stands', async () => {
    const at = await drawSite(test, [row('B', 3)]);
    const observations = [{ trunk: 'B', node: 'B3', function: 'bell', outcome: 'fails' }];
    const { body } = await test.http
      .post(`/api/v1/sites/${at}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations,
      })
      .expect(201);
    const { id, number } = body.tickets[0] as { id: string; number: number };
    await signIn();
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await role('button', 'I take it: I am going there').click();
    const visits = async () => (await test.http.get(`/api/v1/visits?ticket=${id}`)).body.items;
    await until(async () => (await visits()).length === 1);
    expect((await visits())[0]).toMatchObject({
      kind: 'call-out',
      technicianId: technician.id,
    });
    await page.goto(`${address}/field/at/${at}/B/B1`);
    await heading('Report this room');
    await lookOver(page, 'field-at', ['phone']);
    await role('radio', 'Bell').check();
    await role('button', 'silent').click();
    await until(async () => {
      const { body: told } = await test.http.get(`/api/v1/tickets/${id}/observations`);
      return told.items.some(({ node }: { node: string }) => node === 'B1');
    });
    expect(await visits()).toHaveLength(1);
  });

  it('enters once what is touched twice, and a refused finding anew as what it was', async () => {
    const { id, number } = await send([['A4', 'fails']]);
    await signIn();
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    let refusals = 1;
    await context.route('**/api/v1/tickets/*/findings', async (asked) => {
      const detail = 'That part is no longer on the drawing.';
      if (refusals-- > 0) await asked.fulfill({ status: 422, json: { detail } });
      else await asked.continue();
    });
    await page.goto(`${address}/field/tickets/${number}/part?at=A/A4`);
    await role('button', 'terminals at Room 4 IN: at fault').click();
    await heading('Found at fault: terminals at Room 4 IN');
    await page
      .getByRole('button', { name: 'Mended: try the rooms' })
      .evaluate<void, { click: () => void }>((button) => {
        button.click();
        button.click();
      });
    await says('Waiting: 2');
    await role('link', 'One entry was refused: please settle it').click();
    await says('The service did not take it: That part is no longer on the drawing.');
    await role('link', 'Change it').click();
    await page.getByLabel('Where?').selectOption('A/A5');
    await role('button', 'terminals at Room 5 IN: at fault').click();
    await heading('Found at fault: terminals at Room 5 IN');
    expect(await page.getByRole('button', { name: 'Mended: try the rooms' }).count()).toBe(0);
    await role('button', 'Enter').click();
    await says('Waiting: 0');
    const told = (await log(id))
      .filter(({ kind }) => kind === 'finding' || kind === 'mending')
      .sort((a, b) => a.happenedAt.localeCompare(b.happenedAt));
    expect(told.map(({ kind }) => kind)).toEqual(['finding', 'mending']);
    expect(JSON.stringify(told[0]?.details)).toContain('"to":"A5"');
  });

  it('ends a visit that was partly heard, once it is said to be meant so', async () => {
    const begin = async () => {
      const on = new Date().toISOString().slice(0, 10);
      const what = { kind: 'planned', on, purpose: 'Upkeep', upkeep: true };
      const confirmed = ['double-booked', 'outside-hours'];
      const { body } = await test.http
        .post('/api/v1/visits')
        .send({ siteId, technicianId: technician.id, ...what, confirmed })
        .expect(201);
      const at = `/api/v1/visits/${body.id}`;
      const earlier = new Date(Date.now() - 300_000).toISOString();
      const begun = { to: 'under-way', by: 'Ilvo Marsh', at: earlier };
      await technician.http.post(`${at}/moves`).send(begun).expect(201);
      const observations = [{ trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' }];
      const heard = { testedBy: 'Ilvo Marsh', observations };
      await technician.http.post(`${at}/walk-tests`).send(heard).expect(201);
      return body.id as string;
    };
    const isDone = async (id: string) =>
      (await technician.http.get(`/api/v1/visits/${id}`)).body.state === 'done';
    const end = async (id: string) => {
      await page.goto(`${address}/field/visits/${id}`);
      await page.getByLabel('What was done?').fill('Heard what could be');
    };
    const [asked, said] = [await begin(), await begin()];
    await signIn();
    await end(asked);
    await role('button', 'The visit is over').click();
    await role('link', 'One entry was refused: please settle it').click();
    await heading('What waits here');
    await says(/The walk test is not whole/);
    expect(await isDone(asked)).toBe(false);
    await role('button', 'It is meant so').click();
    await says('Nothing: the service has all that was entered here.');
    expect(await isDone(asked)).toBe(true);

    await end(said);
    await says(/^1 of \d+ tried/);
    await role('button', 'It is meant so').click();
    await lookOver(page, 'field-visit-partly', ['phone']);
    await role('button', 'The visit is over').click();
    await until(() => isDone(said));
  });

  it('keeps what one person entered from going up by another’s session', async () => {
    const { id, number } = await send([['A1', 'fails']]);
    await signIn();
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    await role('link', 'Something else').click();
    await role('link', 'A note').click();
    await page.getByLabel('What should be known?').fill('Of Ilvo Marsh');
    const before = (await log(id)).length;
    // Somebody else signs in on the same phone, in another tab.
    const other = await test.addPerson('technician', { name: 'Sanna Threlk' });
    await context.clearCookies();
    const tab = await context.newPage();
    await tab.goto(`${address}/sign-in`);
    await tab.getByLabel('E-mail').fill(other.email);
    await tab.getByLabel('Password').fill(PASSWORD);
    await tab.getByRole('button', { name: 'Sign in' }).click();
    await until(async () => (await context.cookies()).length > 0);
    await role('button', 'Enter').click();
    await says('Your session has ended.');
    await says('Waiting: 1');
    await page.goto(`${address}/field`);
    await says(/^1 of Ilvo Marsh wait here/);
    expect(await log(id)).toHaveLength(before);
  });

  it('sends soon after the signal is back, though the first try fails', async () => {
    const { id, number } = await send([['A2', 'fails']]);
    // Without the timer of the outbox: it is not what sends it.
    await page.addInitScript(
      'const every = setInterval; setInterval = (work, ms) => (ms === 20000 ? 0 : every(work, ms));',
    );
    await signIn();
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    let tries = 0;
    await context.route('**/api/v1/tickets/*/notes', async (asked) => {
      tries++;
      if (tries === 1) await asked.abort();
      else await asked.continue();
    });
    await page.goto(`${address}/field/tickets/${number}/note`);
    await page.getByLabel('What should be known?').fill('Twice tried');
    const before = (await log(id)).length;
    await role('button', 'Enter').click();
    // What else changes, as where the trouble lies, may bring the next try already.
    await until(() => Promise.resolve(tries > 0));
    const note = {
      saidBy: { name: 'Bea Orne', kind: 'office' },
      note: 'Something else changed',
    };
    await test.http.post(`/api/v1/tickets/${id}/notes`).send(note).expect(201);
    await says('Waiting: 0');
    expect(await log(id)).toHaveLength(before + 2);
    expect(tries).toBe(2);
  });

  it('keeps a photo over a reload with no signal, and sends it once', async () => {
    const { id, number } = await send([['A3', 'fails']]);
    await signIn();
    await role('link', new RegExp(`^${number}, `)).click();
    await role('button', 'I have read this').click();
    await page.locator('button.ending').first().waitFor();
    await role('link', 'Something else').click();
    await role('link', 'A photo').click();
    await context.setOffline(true);
    const choose = (name: string, mimeType: string, buffer: Buffer) =>
      page.getByLabel('Take or choose a picture').setInputFiles({ name, mimeType, buffer });
    await choose('broken.jpg', 'image/jpeg', Buffer.from('no picture'));
    await says('This is no picture that the phone can read.');
    await choose('large.png', 'image/png', await noise(page, 2400, 1200));
    await page.getByLabel('What does it show?').fill('Terminals at Room 3');
    await lookOver(page, 'field-photo', ['phone']);
    await role('button', 'Enter').click();
    await says('One photo waits to be sent.');
    await says('Waiting: 1');
    await page.reload();
    await says('One photo waits to be sent.');
    const photos = async () =>
      (await technician.http.get(`/api/v1/tickets/${id}/photos`).expect(200)).body.items;
    expect(await photos()).toEqual([]);
    // The first answer is lost on the way: it goes up again, and is one.
    let tries = 0;
    await context.route('**/api/v1/tickets/*/photos', async (asked) => {
      if (asked.request().method() !== 'POST' || tries++ > 0) return asked.continue();
      await asked.fetch();
      await asked.abort();
    });
    await context.setOffline(false);
    await says('Waiting: 0');
    await page.getByRole('img', { name: 'Terminals at Room 3' }).waitFor();
    expect(tries).toBeGreaterThan(1);
    const [photo, ...more] = await photos();
    expect(more).toEqual([]);
    expect(photo).toMatchObject({
      format: 'jpeg',
      caption: 'Terminals at Room 3',
      takenBy: 'Ilvo Marsh',
    });
    expect(photo.byteCount).toBeLessThan(2_000_000);
    const size = await page
      .locator('ul.photos img')
      .evaluate<[number, number], { naturalWidth: number; naturalHeight: number }>((img) => [
        img.naturalWidth,
        img.naturalHeight,
      ]);
    expect(size).toEqual([1600, 800]);
    await lookOver(page, 'field-photos', ['phone']);
  });
});
