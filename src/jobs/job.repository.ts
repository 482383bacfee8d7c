import { Injectable } from '@nestjs/common';
import type { Pool, PoolClient } from 'pg';
import PgBoss from 'pg-boss';
import { DataSource } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { DONE_FOR_ALL, FAILED_JOBS, JOB_SCHEMA } from './job-kinds.js';

/** Past the first run, a job that nobody ended is looked for this often. */
const MAINTAINED_EACH_SECONDS = 30;

/** A job as its worker gets it. */
export interface FetchedJob {
  id: string;
  firmId: string;
  data: unknown;
  /** Others that are done with it: with the same data, asked for before anything was read for this one. */
  others: string[];
}

/** What a job carries in the queue. */
interface Carried {
  kind: string;
  firmId: string;
  data: unknown;
}

export interface FailedJobRow {
  id: string;
  kind: string;
  data: object;
  failedAt: Date;
  failure: string | null;
}

/** The queues, kept by pg-boss in a schema of its own. They are no firm's table: every job names its firm. */
@Injectable()
export class JobRepository {
  private readonly boss: PgBoss;

  constructor(
    private readonly transaction: FirmTransaction,
    private readonly dataSource: DataSource,
  ) {
    this.boss = new PgBoss({
      db: { executeSql: (text: string, values: unknown[]) => this.query(text, values) },
      schema: JOB_SCHEMA,
      migrate: false,
      schedule: false,
      supervise: true,
      maintenanceIntervalSeconds: MAINTAINED_EACH_SECONDS,
    });
  }

  /** From then on what was left behind by a process that died is found. Throws when the queues are not installed. */
  async start(onError: (error: Error) => void): Promise<void> {
    this.boss.on('error', onError);
    await this.boss.start();
  }

  async stop(): Promise<void> {
    await this.boss.stop({ graceful: false });
  }

  /** Within the running transaction of the firm: with its commit the job is there, or never was. */
  async insert(kind: string, data: object, afterSeconds: number): Promise<void> {
    const firmId = this.transaction.firmId();
    const carried: Carried = { kind, firmId, data };
    await this.boss.send(kind, carried, {
      startAfter: afterSeconds,
      // For the kinds of which one of a firm is enough.
      singletonKey: firmId,
      db: { executeSql: (text, values: unknown[]) => this.writeLater(text, values) },
    });
  }

  /** The next job that is due, which is this worker's from now on. */
  async fetch(kind: string): Promise<FetchedJob | undefined> {
    const [job] = await this.boss.fetch<Carried>(kind, { batchSize: 1 });
    if (job === undefined) return undefined;
    const others = DONE_FOR_ALL.has(kind) ? await this.listEqual(kind, job.data) : [];
    return { id: job.id, firmId: job.data.firmId, data: job.data.data, others };
  }

  private async listEqual(kind: string, carried: Carried): Promise<string[]> {
    const { rows } = await this.query(
      `SELECT id FROM ${JOB_SCHEMA}.job
       WHERE name = $1 AND state < 'active' AND start_after <= now() AND data = $2::jsonb`,
      [kind, JSON.stringify(carried)],
    );
    return (rows as { id: string }[]).map(({ id }) => id);
  }

  /** Within the running transaction; false when the job is not this worker's any more. */
  async complete(kind: string, { id, others }: FetchedJob): Promise<boolean> {
    const db = await this.ofTransaction();
    // Its types leave out what it answers.
    const done: unknown = await this.boss.complete(kind, id, {}, { db });
    if ((done as { affected: number }).affected !== 1) return false;
    if (others.length > 0) {
      // What another worker has taken meanwhile is done twice, and nobody waits for it.
      await db.executeSql(
        `UPDATE ${JOB_SCHEMA}.job SET state = 'completed', completed_on = now()
         WHERE name = $1 AND id IN (SELECT id FROM ${JOB_SCHEMA}.job
           WHERE name = $1 AND id = ANY ($2) AND state < 'active' FOR UPDATE SKIP LOCKED)`,
        [kind, others],
      );
    }
    return true;
  }

  /** It is tried again later, or put with the failed ones. */
  async fail(kind: string, id: string, failure: string): Promise<void> {
    await this.boss.fail(kind, id, { message: failure });
  }

  /** Those of these kinds of which a job is due or being worked on. */
  async listPending(kinds: string[]): Promise<string[]> {
    const { rows } = await this.query(
      `SELECT DISTINCT name FROM ${JOB_SCHEMA}.job
       WHERE name = ANY ($1) AND (state = 'active' OR state < 'active' AND start_after <= now())`,
      [kinds],
    );
    return (rows as { name: string }[]).map(({ name }) => name);
  }

  async countByState(): Promise<{ kind: string; state: string; count: number }[]> {
    const { rows } = await this.query(
      `SELECT name AS kind, state, count(*)::int AS count FROM ${JOB_SCHEMA}.job
       WHERE state <= 'active' GROUP BY name, state`,
      [],
    );
    return rows as { kind: string; state: string; count: number }[];
  }

  /** Of the transaction's firm those with such data that are due, being done, or tried again later. */
  async listWaiting(kind: string, asked: readonly object[]): Promise<object[]> {
    const firmId = this.transaction.firmId();
    const carried = asked.map((data) => JSON.stringify({ kind, firmId, data } satisfies Carried));
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ data: object }[]>(
      `SELECT data -> 'data' AS data FROM ${JOB_SCHEMA}.job
       WHERE name = $1 AND state <= 'active' AND data = ANY ($2::jsonb[])`,
      [kind, carried],
    );
    return rows.map(({ data }) => data);
  }

  /** What of the transaction's firm was tried as often as it may be, newest first. */
  async listFailed(count: number): Promise<FailedJobRow[]> {
    const manager = await this.transaction.manager();
    return manager.query<FailedJobRow[]>(
      `SELECT id, data ->> 'kind' AS kind, data -> 'data' AS data, created_on AS "failedAt",
         coalesce(output ->> 'message', output -> 'value' ->> 'message') AS failure
       FROM ${JOB_SCHEMA}.job
       WHERE name = $1 AND data ->> 'firmId' = $2 ORDER BY created_on DESC, id LIMIT $3`,
      [FAILED_JOBS, this.transaction.firmId(), count],
    );
  }

  /** Nobody needs to know the job's id, so it is written with the commit. */
  private writeLater(text: string, values: unknown[]): Promise<{ rows: unknown[] }> {
    this.transaction.writeLater(text, values);
    return Promise.resolve({ rows: [] });
  }

  private async ofTransaction(): Promise<PgBoss.Db> {
    const { queryRunner } = await this.transaction.manager();
    const client = (await queryRunner?.connect()) as PoolClient;
    return { executeSql: (text, values: unknown[]) => client.query(text, values) };
  }

  /** A connection on which something failed may be in the middle of pg-boss's own transaction: it is not used again. */
  private async query(text: string, values: unknown[]): Promise<{ rows: unknown[] }> {
    const { master: pool } = this.dataSource.driver as unknown as { master: Pool };
    const client = await pool.connect();
    try {
      const result = await client.query(text, values);
      client.release();
      return result;
    } catch (error) {
      client.release(true);
      throw error;
    }
  }
}
