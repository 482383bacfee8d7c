import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';

import { afterAll, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import PgBoss from 'pg-boss';
import { Client } from 'pg';
import { DataSource } from 'typeorm';

import { FirmTransaction } from '#app/database/firm-transaction.js';
import { FAILED_JOBS, JOB_SCHEMA, type JobKind } from '#app/jobs/job-kinds.js';
import { JobRepository } from '#app/jobs/job.repository.js';
import { JobService } from '#app/jobs/job.service.js';
import { RetentionService } from '#app/jobs/retention.service.js';
import { TicketFactsRepository } from '#app/locating/ticket-facts.repository.js';

import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';
import { cases } from './support/thorough.js';

const WORKER = fileURLToPath(new URL('support/run-job-worker.js', import.meta.url));

/** `JOBS=10000 KILLS=20` is the long run. */
const JOBS = Number(process.env.JOBS ?? cases({ all: 300, usual: 60 }));
const KILLS = Number(process.env.KILLS ?? cases({ all: 3, usual: 2 }));
const OTHER_FIRM = '01900000-0000-7000-8000-0000000000f2';
const KIND = 'test-effects' as JobKind;

type Query = (text: string, values: unknown[]) => Promise<unknown>;

interface PlanStep {
  'Actual Rows': number;
  'Actual Loops': number;
  'Rows Removed by Filter'?: number;
  'Rows Removed by Index Recheck'?: number;
  Plans?: PlanStep[];
}

/** That any step of a plan went through. */
function mostRows(step: PlanStep): number {
  const own =
    step['Actual Rows'] * step['Actual Loops'] +
    (step['Rows Removed by Filter'] ?? 0) +
    (step['Rows Removed by Index Recheck'] ?? 0);
  return Math.max(own, ...(step.Plans ?? []).map(mostRows));
}

describe('jobs', () => {
  let test: TestApp;
  let owner: Client;
  const children = new Set<ChildProcess>();

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    owner = new Client({ connectionString: test.ownerUrl });
    await owner.connect();
    const boss = new PgBoss({
      connectionString: test.ownerUrl,
      schema: JOB_SCHEMA,
      supervise: false,
      schedule: false,
      max: 1,
    });
    await boss.start();
    await boss.createQueue(KIND, {
      name: KIND,
      retryLimit: 50,
      retryDelay: 0,
      expireInSeconds: 60,
      deadLetter: FAILED_JOBS,
    });
    await boss.stop({ graceful: false });
    await owner.query(`
      CREATE TABLE test_tries (number integer PRIMARY KEY, tries integer NOT NULL DEFAULT 1);
      CREATE TABLE test_effects (number integer NOT NULL);
      GRANT SELECT, INSERT, UPDATE ON test_tries, test_effects TO lastheard_app`);
  });

  afterAll(async () => {
    for (const child of children) child.kill('SIGKILL');
    await owner.end();
    await test.close();
  });

  const enqueue = (
    work: (jobs: JobService, number: number) => Promise<void>,
    count: number,
    firmId = FIRM_ID,
  ) =>
    test.app.get(FirmTransaction).run(firmId, 'write', async () => {
      for (let number = 0; number < count; number++) await work(test.app.get(JobService), number);
    });

  const send = (jobs: JobService, number: number) =>
    jobs.enqueue(KIND, { number, first: firstTimeOf(number) });

  /** Every tenth fails; some kill their process when they have had their effect and it is not committed yet. */
  function firstTimeOf(number: number): string {
    if (number % 10 === 0) return 'fails';
    return number % (JOBS / KILLS) === 1 ? 'dies' : 'works';
  }

  async function startWorker(): Promise<ChildProcess> {
    const child = spawn(process.execPath, [WORKER, test.appUrl], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    children.add(child);
    const begun = await Promise.race([once(child.stdout, 'data'), once(child, 'exit')]);
    if (child.exitCode !== null) throw new Error(`the worker ended with ${begun[0]}`);
    return child;
  }

  async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<unknown> {
    const ended = once(child, 'exit');
    child.kill(signal);
    children.delete(child);
    return (await ended)[0];
  }

  const effects = async () =>
    (await owner.query<{ number: number }>('SELECT number FROM test_effects ORDER BY number')).rows;

  it('are lost with the transaction that asked for them, and with nothing else', async () => {
    const refused = enqueue(async (jobs, number) => {
      await send(jobs, number);
      throw new Error('rolled back');
    }, 1);
    await expect(refused).rejects.toThrow('rolled back');
    const { rows } = await owner.query(`SELECT FROM ${JOB_SCHEMA}.job WHERE name = $1`, [KIND]);
    expect(rows).toHaveLength(0);
  });

  it('have their effect once each, with two processes that are killed over and over', async () => {
    await enqueue(send, JOBS);
    const workers = [await startWorker(), await startWorker()];
    for (let kill = 1; kill <= KILLS; kill++) {
      const dead = await Promise.race(
        workers.map(async (worker) => {
          if (worker.signalCode === null) await once(worker, 'exit');
          return worker;
        }),
      );
      expect(dead.signalCode).toBe('SIGKILL');
      // Whoever works on one now is thought dead, also the other who lives: then both do the same job.
      await owner.query(
        `UPDATE ${JOB_SCHEMA}.job SET started_on = started_on - interval '1 hour' WHERE state = 'active'`,
      );
      await expire();
      workers.splice(workers.indexOf(dead), 1, await startWorker());
    }
    await until(async () => (await effects()).length >= JOBS);
    for (const worker of workers) expect(await end(worker, 'SIGTERM')).toBe(0);
    const numbers = (await effects()).map(({ number }) => number);
    expect(numbers).toEqual(Array.from({ length: JOBS }, (_, number) => number));
    const { rows } = await owner.query<{ again: number }>(
      `SELECT count(*)::int AS again FROM test_tries WHERE tries > 1`,
    );
    expect(rows[0]!.again).toBeGreaterThanOrEqual(JOBS / 10 + KILLS);
    const { rows: left } = await owner.query(
      `SELECT state FROM ${JOB_SCHEMA}.job WHERE name = $1 AND state <> 'completed'`,
      [KIND],
    );
    expect(left).toEqual([]);
  }, 3_600_000);

  describe('that bring up to date', () => {
    const siteId = '01900000-0000-7000-8000-00000000dead';
    const ask = (count: number, firmId = FIRM_ID) =>
      enqueue((jobs) => jobs.enqueue('locations', { siteId }), count, firmId);
    const done = jest.spyOn(TicketFactsRepository.prototype, 'listOpen');

    beforeEach(() => {
      done.mockClear();
    });

    const settle = () => test.app.get(JobService).settle();

    it('are done once for all of a firm that wait with the same data', async () => {
      await test.addFirm(OTHER_FIRM);
      await ask(5);
      await ask(5, OTHER_FIRM);
      await enqueue((jobs) => jobs.enqueue('locations', { siteId: FIRM_ID }), 5);
      await settle();
      expect(done).toHaveBeenCalledTimes(3);
    });

    it('are done again for what was asked for after one was begun', async () => {
      const repository = test.app.get(JobRepository);
      const fetch = repository.fetch.bind(repository);
      let isFirst = true;
      const spy = jest.spyOn(repository, 'fetch').mockImplementation(async (kind) => {
        const job = await fetch(kind);
        if (kind === 'locations' && isFirst) {
          isFirst = false;
          await ask(2);
        }
        return job;
      });
      await ask(5);
      await settle();
      spy.mockRestore();
      expect(done).toHaveBeenCalledTimes(2);
    });

    it('wait on when the one that was to do for all fails', async () => {
      jest.spyOn(test.app.get(RetentionService), 'begin').mockRejectedValueOnce(new Error('no'));
      await ask(5);
      // What failed is not due again, however long the others take.
      await owner.query(`UPDATE ${JOB_SCHEMA}.job SET retry_delay = 3600`);
      await settle();
      expect(done).toHaveBeenCalledTimes(2);
      const { rows } = await owner.query(
        `SELECT output ->> 'message' AS failure FROM ${JOB_SCHEMA}.job
         WHERE name = 'locations' AND state <> 'completed'`,
      );
      expect(rows).toEqual([{ failure: 'Error: no' }]);
    });
  });

  describe('of which ten thousand wait', () => {
    const COUNT = 10_000;
    const siteId = '01900000-0000-7000-8000-00000000beef';

    /** Asks for as many, each of a site of its own or all of one. */
    const ask = (site: string) =>
      owner.query(
        `INSERT INTO ${JOB_SCHEMA}.job (name, data, retry_limit) SELECT 'locations',
           jsonb_build_object('kind', 'locations', 'firmId', $1::text, 'data', jsonb_build_object('siteId', ${site})), 5
         FROM generate_series(1, ${COUNT}) AS n`,
        [FIRM_ID],
      );

    const waiting = async () => {
      const { rows } = await owner.query<{ count: number }>(
        `SELECT count(*)::int AS count FROM ${JOB_SCHEMA}.job WHERE name = 'locations' AND state < 'active'`,
      );
      return rows[0]!.count;
    };

    beforeEach(async () => {
      await owner.query(`DELETE FROM ${JOB_SCHEMA}.job WHERE name = 'locations'`);
    });

    it('are begun without going through those that wait', async () => {
      await ask(`'01900000-0000-7000-8000-' || lpad(n::text, 12, '0')`);
      await owner.query(`ANALYZE ${JOB_SCHEMA}.job`);
      const repository = test.app.get(JobRepository);
      const sent: [string, unknown[]][] = [];
      const inside = repository as unknown as { query: Query };
      const query = jest.spyOn(inside, 'query');
      const job = await repository.fetch('locations');
      for (const [text, values] of query.mock.calls) sent.push([text, values]);
      query.mockRestore();
      expect(job).toMatchObject({ firmId: FIRM_ID, others: [] });
      expect(sent).toHaveLength(2);
      for (const [text, values] of sent) {
        await owner.query('BEGIN');
        const { rows } = await owner.query(`EXPLAIN (ANALYZE, FORMAT JSON) ${text}`, values);
        await owner.query('ROLLBACK');
        expect(mostRows(rows[0]['QUERY PLAN'][0].Plan)).toBeLessThan(20);
      }
    });

    it('are done at once where they are the same', async () => {
      await ask(`'${siteId}'`);
      const done = jest.spyOn(TicketFactsRepository.prototype, 'listOpen');
      done.mockClear();
      await test.app.get(JobService).settle();
      expect(done).toHaveBeenCalledTimes(1);
      expect(await waiting()).toBe(0);
    });
  });

  it('are shown to the owner of their firm when they fail for good', async () => {
    const other = await test.addPerson('dispatcher');
    await enqueue((jobs) => jobs.enqueue('mail', { mailId: FIRM_ID }), 1);
    const { rows } = await owner.query<{ id: string }>(
      `UPDATE ${JOB_SCHEMA}.job SET retry_limit = 0 WHERE name = 'mail' RETURNING id`,
    );
    const boss = new PgBoss({ connectionString: test.ownerUrl, schema: JOB_SCHEMA, max: 1 });
    await boss.start();
    await boss.fail('mail', rows[0]!.id, { message: 'nobody listens' });
    await boss.stop({ graceful: false });
    const { body } = await test.http.get('/api/v1/failed-jobs').expect(200);
    expect(body.items).toEqual([
      expect.objectContaining({
        kind: 'mail',
        data: { mailId: FIRM_ID },
        failure: 'nobody listens',
      }),
    ]);
    await other.http.get('/api/v1/failed-jobs').expect(403);
    await test.addFirm(OTHER_FIRM);
    const { http } = await test.addPerson('owner', { firmId: OTHER_FIRM });
    const { body: theirs } = await http.get('/api/v1/failed-jobs').expect(200);
    expect(theirs.items).toEqual([]);
  });

  it('are kept where the app may use them and change no structure', async () => {
    const app = new Client({ connectionString: test.appUrl });
    await app.connect();
    await expect(app.query(`CREATE TABLE ${JOB_SCHEMA}.mine (id int)`)).rejects.toThrow(
      /permission denied/,
    );
    await expect(
      app.query(`SELECT ${JOB_SCHEMA}.create_queue('mine', '{"policy":"standard"}')`),
    ).rejects.toThrow(/permission denied/);
    await app.end();
  });

  it('hold no connection when there is nothing to do', async () => {
    await test.app.get(JobService).settle();
    const { master } = test.app.get(DataSource).driver as unknown as {
      master: { idleCount: number; totalCount: number };
    };
    await until(() => Promise.resolve(master.idleCount === master.totalCount));
  });

  async function expire(): Promise<void> {
    const boss = new PgBoss({
      connectionString: test.ownerUrl,
      schema: JOB_SCHEMA,
      supervise: false,
      schedule: false,
      max: 1,
    });
    await boss.start();
    await boss.expire();
    await boss.stop({ graceful: false });
  }

  /** Asks the database again and again; the test's own time-out ends what never comes. */
  async function until(isSo: () => Promise<boolean>): Promise<void> {
    while (!(await isSo())) await owner.query('SELECT pg_sleep(0.02)');
  }
});
