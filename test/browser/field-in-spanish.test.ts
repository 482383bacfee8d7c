import { beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { BrowserContext, Page } from 'playwright-core';

import { drawSite, row } from '../support/draw-site.js';
import { AT_NOON, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';
import { PASSWORD, type TestApp, type TestPerson } from '../support/test-app.js';

describe('a technician’s phone, in Spanish', () => {
  const at = inBrowser({
    locale: 'es-ES',
    viewport: { width: 390, height: 844 },
    ...AT_NOON,
    reducedMotion: 'reduce',
  });
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
  });

  beforeEach(async () => {
    test.clock.catchUp();
    ({ context, page } = at);
    const data = { email: technician.email, password: PASSWORD };
    const signedIn = await context.request.post(`${address}/api/v1/session`, { data });
    expect(signedIn.status()).toBe(200);
  });

  const button = (name: string) => page.getByRole('button', { name });
  const link = (name: string) => page.getByRole('link', { name });

  /** A ticket, opened on the phone, its cautions read. */
  async function openTicket(): Promise<{ id: string; home: string }> {
    const observations = [
      { trunk: 'A', node: 'A2', function: 'announcement', outcome: 'works' },
      { trunk: 'A', node: 'A4', function: 'announcement', outcome: 'fails' },
    ];
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'gone-through',
        observations,
      })
      .expect(201);
    const { id, number } = body.tickets[0] as { id: string; number: number };
    const home = `${address}/field/tickets/${number}`;
    await page.goto(home);
    await button('Lo he leído').click();
    await page.locator('h1.next-words').waitFor();
    return { id, home };
  }

  /** What is read out with the field in which somebody would type now. */
  const said = () =>
    page.evaluate<string>(
      'document.getElementById(document.activeElement.getAttribute("aria-describedby").split(" ").at(-1)).textContent',
    );

  const log = async (id: string, kind: string) => {
    const { body } = await technician.http.get(`/api/v1/tickets/${id}/log`).expect(200);
    const items = body.items as { kind: string; details: Record<string, unknown> }[];
    return items.filter((one) => one.kind === kind).map(({ details }) => details);
  };

  it('tells at the field what the service refused, with what was typed, and goes up once it is changed', async () => {
    const { id, home } = await openTicket();
    await page.goto(`${home}/found`);
    await page.getByLabel('¿Qué se hizo?').fill('Un puente en la sala 4');
    await page.getByRole('radio', { name: 'Por ahora' }).check();
    await page.getByLabel('Alguien debe volver antes del').fill('2026-02-31');
    await button('Reparado: probar las salas').click();
    await link('Una anotación fue rechazada: decida qué hacer').click();
    const noDay = 'Tiene que ser un día escrito año-mes-día, como 2026-05-04.';
    await page.getByRole('listitem').filter({ hasText: noDay }).first().waitFor();
    expect(await page.locator('.notice li').innerText()).toBe(
      `Alguien debe volver antes del ${noDay}`,
    );
    await page.getByText(/Hay un error en lo enviado/).waitFor();
    await lookOver(page, 'field-refused-es', ['phone']);
    await link('Cambiarlo').click();
    await page.locator('input[aria-invalid="true"]').waitFor();
    expect(await said()).toBe(noDay);
    expect(await page.evaluate<string>('document.activeElement.value')).toBe('2026-02-31');
    expect(await page.getByLabel('¿Qué se hizo?').inputValue()).toBe('Un puente en la sala 4');
    await lookOver(page, 'field-refused-field-es', ['phone']);
    await page.getByLabel('Alguien debe volver antes del').fill('2027-02-28');
    await button('Reparado: probar las salas').click();
    await page.getByText('En espera: 0').waitFor();
    expect(await log(id, 'mending')).toEqual([
      expect.objectContaining({ what: 'Un puente en la sala 4', followUpDueOn: '2027-02-28' }),
    ]);
  });

  it('keeps a reading as it was typed', async () => {
    const { id, home } = await openTicket();
    await page.goto(`${home}/reading`);
    await page.getByLabel('¿Dónde?').selectOption('A/A3');
    for (const key of '999999') await button(key).click();
    await button('Anotar').click();
    await link('Una anotación fue rechazada: decida qué hacer').click();
    await page.locator('.notice li').filter({ hasText: 'Una medida' }).waitFor();
    await link('Cambiarlo').click();
    await page.locator('output[data-wrong="true"]').waitFor();
    expect(await said()).toBe('Tiene que estar entre -1500 y 1500.');
    expect(await page.getByLabel('¿Dónde?').inputValue()).toBe('A/A3');
    for (let times = 0; times < 4; times++) await button('Quitar la última cifra').click();
    await page.getByText('99 V ± 0.99 V').waitFor();
    await button('Anotar').click();
    await page.getByText('En espera: 0').waitFor();
    const { body } = await technician.http.get(`/api/v1/tickets/${id}/readings`).expect(200);
    expect(body.items.at(-1)).toMatchObject({ reading: { volts: 99, node: 'A3' } });
  });

  it('keeps the step that somebody is about to touch, and says what is next since', async () => {
    const { id } = await openTicket();
    const words = page.locator('h1.next-words');
    const ending = page.locator('button.ending').last();
    await ending.waitFor();
    await page.getByText('Del plan anterior').waitFor({ state: 'detached' });
    const before = await words.innerText();
    const touched = await ending.innerText();
    const box = await ending.boundingBox();
    // The office has heard more rooms, and the finger is on its way.
    const learn = async (node: string, outcome: string) => {
      const observations = [{ trunk: 'A', node, function: 'announcement', outcome }];
      const saidBy = { name: 'Mara Quill', kind: 'office' };
      await test.http
        .post(`/api/v1/tickets/${id}/reports`)
        .send({ saidBy, how: 'volunteered', observations })
        .expect(201);
    };
    await learn('A1', 'fails');
    await button('Mostrarlo').waitFor();
    expect(await words.innerText()).toBe(before);
    expect(await ending.boundingBox()).toEqual(box);
    await lookOver(page, 'field-newer-step-es', ['phone']);
    const sent = page.waitForResponse((answer) => answer.request().method() === 'POST');
    await ending.click();
    await button('Mostrarlo').waitFor({ state: 'detached' });
    // It went to what was on the screen.
    const [, room] = /Room (\d)/.exec(before) ?? [];
    expect([touched, (await sent).request().postDataJSON()]).toEqual([
      'No se oye',
      expect.objectContaining({
        observations: [expect.objectContaining({ node: `A${room}`, outcome: 'fails' })],
      }),
    ]);

    // What was heard elsewhere counts by then: nothing is shown that is put away again.
    await ending.waitFor();
    const second = await words.innerText();
    // Room 1 is heard after all: the trouble is behind it.
    await learn('A1', 'works');
    await page.getByText(/^Se ha sabido algo nuevo/).waitFor();
    const told = await page.locator('.since').innerText();
    expect(await words.innerText()).toBe(second);
    await button('Mostrarlo').click();
    await button('Mostrarlo').waitFor({ state: 'detached' });
    const third = await words.innerText();
    expect(third).not.toBe(second);
    expect(told).toContain(third);
    expect(await page.evaluate<string>('document.activeElement.textContent')).toBe(third);
  });
});
