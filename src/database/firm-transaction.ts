import { AsyncLocalStorage } from 'node:async_hooks';
import { Injectable } from '@nestjs/common';
import type { PoolClient } from 'pg';
import { DataSource, type EntityManager, type QueryRunner } from 'typeorm';

type Mode = 'read' | 'write';

interface OpenTransaction {
  firmId: string;
  mode: Mode;
  /** Started by the first use, so that work without the database costs no connection. */
  started?: Promise<QueryRunner>;
}

/**
 * One unit of database work for one firm: a transaction whose `app.firm_id` the row-level security
 * policies read. Repositories ask `manager()`; nothing else reaches the database.
 */
@Injectable()
export class FirmTransaction {
  private readonly open = new AsyncLocalStorage<OpenTransaction>();

  constructor(private readonly dataSource: DataSource) {}

  /** Runs the work in one transaction: committed when it resolves, rolled back when it throws. */
  async run<T>(firmId: string, mode: Mode, work: () => Promise<T>): Promise<T> {
    const transaction: OpenTransaction = { firmId, mode };
    try {
      const result = await this.open.run(transaction, work);
      await this.finish(transaction, 'commit');
      return result;
    } catch (error) {
      await this.finish(transaction, 'rollback');
      throw error;
    }
  }

  /** The manager of the running transaction; outside of `run` there is none. */
  async manager(): Promise<EntityManager> {
    const transaction = this.open.getStore();
    if (transaction === undefined) throw new Error('Database work outside of a firm’s transaction');
    transaction.started ??= this.begin(transaction);
    return (await transaction.started).manager;
  }

  private async begin({ firmId, mode }: OpenTransaction): Promise<QueryRunner> {
    const runner = this.dataSource.createQueryRunner();
    try {
      const client = (await runner.connect()) as PoolClient;
      // SET LOCAL is set_config(…, true) without a row to answer.
      const setFirm = `SET LOCAL app.firm_id = '${asUuid(firmId)}'`;
      if (mode === 'read') {
        // Past the ORM, in one message, and not waited for: the connection is pipelined, so the
        // first query follows at once. Should it fail, so does every query behind it.
        client.query(`BEGIN READ ONLY; ${setFirm}`).catch(() => undefined);
      } else {
        await runner.startTransaction();
        await client.query(setFirm);
      }
      return runner;
    } catch (error) {
      await runner.release();
      throw error;
    }
  }

  private async finish(transaction: OpenTransaction, end: 'commit' | 'rollback'): Promise<void> {
    const started = transaction.started;
    if (started === undefined) return;
    transaction.started = undefined;
    const runner = await started.catch(() => undefined);
    if (runner === undefined) return;
    if (transaction.mode === 'read') {
      // Nothing hangs on how a read ends, so its answer does not wait for it.
      const client = (await runner.connect()) as PoolClient;
      void client
        .query(end)
        .catch(() => undefined)
        .then(() => runner.release());
      return;
    }
    try {
      await (end === 'commit' ? runner.commitTransaction() : runner.rollbackTransaction());
    } finally {
      await runner.release();
    }
  }
}

/** SET takes no parameters, so nothing but a UUID may get into its text. */
function asUuid(firmId: string): string {
  if (!/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i.test(firmId)) {
    throw new Error(`A firm’s id is a UUID, not "${firmId}"`);
  }
  return firmId;
}
