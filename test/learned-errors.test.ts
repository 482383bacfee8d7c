import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };

describe('how often calls and looks mislead, by the firm’s record', () => {
  let test: TestApp;
  let owner: Client;
  let siteId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    owner = new Client({ connectionString: test.ownerUrl });
    await owner.connect();
    await owner.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    siteId = await drawSite(test, [row('A', 5)]);
  });

  afterAll(async () => {
    await owner.end();
    await test.close();
  });

  const post = (path: string, body: object) =>
    test.http.post(`/api/v1/${path}`).send({ saidBy: TECHNICIAN, ...body });

  const heard = (node: string, outcome: string) => {
    return { trunk: 'A', node, function: 'announcement', outcome };
  };

  async function report(): Promise<string> {
    test.clock.tick(60);
    const observations = [heard('A2', 'works'), heard('A3', 'fails'), heard('A4', 'works')];
    const body = { saidBy: OFFICE, how: 'gone-through', observations };
    const { body: made } = await post(`sites/${siteId}/reports`, body).expect(201);
    return made.tickets[0].id as string;
  }

  async function close(ticketId: string, found: object, mended: boolean): Promise<void> {
    await post(`tickets/${ticketId}/findings`, found).expect(201);
    if (mended) {
      test.clock.tick(1);
      const mending = { mending: 'lasting', what: 'Made anew' };
      await post(`tickets/${ticketId}/mendings`, mending).expect(201);
    }
    test.clock.tick(1);
    const observations = [1, 2, 3, 4, 5].map((n) => heard(`A${n}`, 'works'));
    await post(`tickets/${ticketId}/walk-tests`, { observations }).expect(201);
    await post(`tickets/${ticketId}/moves`, { to: 'closed', reason: 'Works' }).expect(201);
    await test.app.get(JobService).settle();
  }

  /** As posed to the locator, and what misses how often. */
  async function kit(ticketId: string) {
    const { body } = await test.http.get(`/api/v1/tickets/${ticketId}/kit`).expect(200);
    return body as {
      request: { falseAlarmRatio?: number };
      errorRates: Record<string, { missed?: number }>;
    };
  }

  async function learned() {
    const { rows } = await owner.query('SELECT learned FROM learned_errors');
    return rows.map((one: { learned: object }) => one.learned);
  }

  it('is nothing before anything was closed, then what was closed says, then that of the whole firm', async () => {
    const first = await report();
    expect((await kit(first)).request.falseAlarmRatio).toBeUndefined();
    expect((await kit(first)).errorRates.technician!.missed).toBeUndefined();
    await close(first, { note: 'All well when I came' }, false);
    expect(await learned()).toEqual([expect.objectContaining({ calls: 1, nothingFound: 1 })]);

    const second = await report();
    const once = (await kit(second)).request.falseAlarmRatio!;
    expect(once).toBeGreaterThan(0.02);
    const look = { place: { kind: 'station', trunk: 'A', node: 'A3' }, part: 'unit' };
    test.clock.tick(1);
    await post(`tickets/${second}/looks`, { ...look, seen: 'sound' }).expect(201);
    test.clock.tick(1);
    await close(second, { place: look.place, component: 'station', mode: 'dead' }, true);
    const [now] = await learned();
    expect(now).toMatchObject({ calls: 2, nothingFound: 1 });

    const third = await report();
    const { request, errorRates } = await kit(third);
    expect(request.falseAlarmRatio).toBeLessThan(once);
    expect(errorRates.technician!.missed).toBeGreaterThan(0.05);
    expect(errorRates.office!.missed).toBe(0.1);
  });

  it('moves what is thought of an open ticket', async () => {
    const ticketId = await report();
    const quiet = async () => {
      const { body } = await test.http.get(`/api/v1/tickets/${ticketId}/location`).expect(200);
      return (body as { result: { quiet: number } }).result.quiet;
    };
    const before = await quiet();
    await owner.query(
      `UPDATE learned_errors SET learned = jsonb_set(learned, '{falseAlarmRatio}', '0.5')`,
    );
    expect(await quiet()).toBeGreaterThan(before);
  });
});
