import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';

import { ComputeService } from '#app/compute/compute.service.js';
import { createApp } from '#app/create-app.js';
import { withClient } from '#app/database/built-in-roles.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';
import { JobService } from '#app/jobs/job.service.js';
import { LocationService } from '#app/locating/location.service.js';
import { PromiseClockService } from '#app/promises/promise-clock.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, SEAL_KEY, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };

/** Two on one database, as two processes are: they share nothing else. */
describe('two that are told of the same change', () => {
  let test: TestApp;
  let other: NestFastifyApplication;
  let siteId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    const { appUrl, clock } = test;
    other = await createApp({ appUrl, publicUrl: 'http://localhost', sealKey: SEAL_KEY, clock });
    await other.init();
    await other.get(JobService).rest();
    siteId = await drawSite(test, [row('A', 6)]);
  });

  afterAll(async () => {
    await other.close();
    await test.close();
  });

  const both = () => [test.app, other];

  const asOwner = <Row>(sql: string): Promise<Row[]> =>
    withClient(test.ownerUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      return (await client.query(sql)).rows as Row[];
    });

  const endedJobs = async () => {
    const [row] = await asOwner<{ count: number }>(
      `SELECT count(*)::int AS count FROM jobs.job WHERE name = 'locations' AND state = 'completed'`,
    );
    return row!.count;
  };

  async function report(): Promise<void> {
    test.clock.tick(1);
    const observations = [{ trunk: 'A', node: 'A4', function: 'bell', outcome: 'fails' }];
    await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy: OFFICE, how: 'volunteered', observations })
      .expect(201);
  }

  /** Two jobs about the site and no others: one for each. */
  async function twoJobs(): Promise<void> {
    await asOwner(`DELETE FROM jobs.job`);
    const jobs = test.app.get(JobService);
    await test.app.get(FirmTransaction).run(FIRM_ID, 'write', async () => {
      await jobs.enqueue('locations', { siteId });
      await jobs.enqueue('locations', { siteId });
    });
  }

  /** Nobody goes on with working it out before the other has begun to, or has ended its job without. */
  async function workedOut(): Promise<number> {
    await twoJobs();
    let begun = 0;
    const spies = both().map((app) => {
      const compute = app.get(ComputeService);
      const run = compute.runJob.bind(compute);
      return jest.spyOn(compute, 'runJob').mockImplementation(async (task, input, same) => {
        if (!task.file.href.includes('locate-ticket')) return run(task, input, same);
        begun++;
        while (begun < 2 && (await endedJobs()) === 0) await new Promise(setImmediate);
        return run(task, input, same);
      });
    });
    await Promise.all(both().map((app) => app.get(JobService).settle()));
    for (const spy of spies) spy.mockRestore();
    return begun;
  }

  const kept = () =>
    asOwner<{ count: number }>('SELECT worked_out_at FROM ticket_locations ORDER BY id');

  it('work it out once, after each change', async () => {
    for (let change = 0; change < 3; change++) {
      await report();
      expect(await workedOut()).toBe(1);
      expect(await kept()).toHaveLength(1);
    }
  });

  it('do what one that died has claimed, once its claim is over', async () => {
    await report();
    await asOwner(`UPDATE location_claims SET fingerprint = 'another', claimed_until = 'infinity'`);
    expect(await workedOut()).toBe(1);
    await asOwner('UPDATE ticket_locations SET fingerprint = id::text');
    await asOwner(`UPDATE location_claims SET claimed_until = 'infinity'`);
    await twoJobs();
    const of = async () =>
      (await asOwner('SELECT fingerprint = id::text AS old FROM ticket_locations'))[0];
    await test.app.get(JobService).settle();
    expect(await of()).toEqual({ old: true });
    await asOwner(`UPDATE location_claims SET claimed_until = clock_timestamp()`);
    expect(await workedOut()).toBe(1);
    expect(await of()).toEqual({ old: false });
  });

  it('leave it to who comes next where it fails', async () => {
    await report();
    await twoJobs();
    // What failed is not due again, however long the other takes.
    await asOwner(`UPDATE jobs.job SET retry_delay = 3600`);
    const compute = test.app.get(ComputeService);
    const spy = jest.spyOn(compute, 'runJob').mockRejectedValueOnce(new Error('No thread'));
    await test.app.get(JobService).settle();
    spy.mockRestore();
    const states = await asOwner(
      `SELECT state::text FROM jobs.job WHERE name = 'locations' ORDER BY 1`,
    );
    expect(states).toEqual([{ state: 'completed' }, { state: 'retry' }]);
    const open = await asOwner<{ count: number }>(
      `SELECT count(*)::int AS count FROM location_claims WHERE claimed_until > clock_timestamp()`,
    );
    expect(open).toEqual([{ count: 0 }]);
  });

  it.each([
    ['location', (id: string) => test.app.get(LocationService).read(id)],
    ['clock', (id: string) => test.app.get(PromiseClockService).read(id)],
  ])('keep the later: a %s is as old as what it began to read', async (_, read) => {
    await report();
    const [ticket] = await asOwner<{ id: string }>('SELECT id FROM tickets');
    const transaction = test.app.get(FirmTransaction);
    const { began, readAt } = await transaction.run(FIRM_ID, 'read', async () => {
      const manager = await transaction.manager();
      const [first] = await manager.query<{ began: Date }[]>(
        'SELECT now() AS began, pg_sleep(0.02)',
      );
      return { ...first!, readAt: (await read(ticket!.id)).readAt };
    });
    expect(readAt.getTime()).toBeLessThanOrEqual(began.getTime());
  });
});
